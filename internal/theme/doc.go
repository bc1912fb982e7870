// Package theme is the one place for how Sockwright looks: colours, faces and sizes of
// pages, papers and pictures. docs/look.md says in words what it is after.
package theme
