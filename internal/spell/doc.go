// Package spell finds the known word that a misspelt one was probably meant to be.
package spell
