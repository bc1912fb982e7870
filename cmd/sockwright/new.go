package main

import (
	_ "embed"
	"fmt"
)

//go:embed new.toml
var newDesign string

type newCmd struct{}

func (newCmd) example() string { return "sockwright new > my-sock.toml" }

func (newCmd) Run(t *terminal) error {
	_, err := fmt.Fprint(t.out, newDesign)
	return err
}
