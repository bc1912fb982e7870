// Package check works a written pattern in every size and reports what goes wrong, as
// findings with line, size, stated and actual figures and a mend.
package check
