// Package draw is the display list behind every picture: lines, shapes and texts in
// millimetres, drawn to SVG ([Drawing.SVG]) or PNG ([Drawing.PNG]).
//
// A [Drawing] is built item by item; what is drawn later lies on top. Colours are those of the
// theme by name, so that an SVG within a page follows it into the dark. Every drawing has a
// title and a description for those who do not see it.
package draw
