package main

import (
	"fmt"
	"text/tabwriter"

	"sockwright/internal/sock"
)

type partsCmd struct {
	JSON bool `name:"json" help:"Print the list as a JSON document."`
}

func (partsCmd) example() string { return "sockwright parts" }

// partsDocument is sockwright/parts/1.
type partsDocument struct {
	Schema string     `json:"schema"`
	Parts  []partItem `json:"parts"`
}

type partItem struct {
	Part       string   `json:"part"`
	Kind       string   `json:"kind"`
	Says       string   `json:"says"`
	Directions []string `json:"directions"`
}

func (c *partsCmd) Run(t *terminal) error {
	doc := partsDocument{Schema: "sockwright/parts/1"}
	for _, p := range sock.Parts() {
		doc.Parts = append(doc.Parts, partItem{p.Part, p.Kind, p.Says.String(), p.Directions})
	}
	if c.JSON {
		return printJSON(t.out, doc)
	}
	w := tabwriter.NewWriter(t.out, 0, 0, 2, ' ', 0)
	for _, p := range doc.Parts {
		fmt.Fprintf(w, "%s\t%s\t%s\n", p.Part, p.Kind, p.Says)
	}
	return w.Flush()
}
