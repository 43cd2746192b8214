package plan

import "maps"

// Try makes a change within an edit; one that is refused leaves the edit as it was.
func (e *Edit) Try(change func() error) error {
	for _, table := range tables {
		table.ops.freeze(&e.next) // what is written next goes into copies
	}
	kept, said := e.next, maps.Clone(e.said)
	err := change()
	if err != nil {
		e.next, e.said = kept, said
	}
	return err
}
