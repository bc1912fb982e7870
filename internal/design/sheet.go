package design

import "sockwright/internal/source"

// ReadTable reads a file of keys that is no design, such as a style sheet; what is how
// messages call it: "a style sheet". The table is nil where the text cannot be read at all.
// Whoever has taken all the keys it knows asks [Table.Done] what was wrong.
func ReadTable(f *source.File, what string) (*Table, []source.Fault) {
	if fault := unreadable(f); fault != nil {
		return nil, []source.Fault{*fault}
	}
	root, fault := parse(f)
	if fault != nil {
		return nil, []source.Fault{*fault}
	}
	root.what = what
	return root, nil
}

// Done takes the faults of a table and of those below, and with them every key that nobody
// has taken.
func (t *Table) Done() []source.Fault {
	t.unused()
	faults := *t.faults
	*t.faults = nil
	return source.Merge(faults)
}
