// Package designtest draws random sock designs for tests: any gauge from 4 to 14 stitches
// to the inch, any foot from 80 to 330 mm, any option.
package designtest
