// Package feet knows how long and how wide feet are: a survey of 6,068 adults, children's
// foot lengths by age, the girths that go with a length, the size ranges that socks are
// graded to, and the width of the band under a band heel.
//
// The data are CSV files beside the code; README.md gives their source and limits. Measures
// are of the bare, standing foot, without ease.
package feet
