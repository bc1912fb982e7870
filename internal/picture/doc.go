// Package picture draws socks: the schematic with its finished measurements ([Schematic]) and
// the fabric laid flat, loop by loop ([Flat]). It reads plans and fabrics and makes drawings
// of package draw.
package picture
