package drawer

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"stageloom/model/plan"
	"stageloom/ui/answers"
	"stageloom/ui/patching"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

// openRow shows a row on the plan and gives the plan the keys; what is not drawn is shown by the link that it lies in
// or the box that it is plugged into.
func (t *Drawer) openRow(source table.Source, row int) {
	for _, ref := range slices.Concat(source.Shows(row), t.linksWith(source.Ref(row)), t.boxesOf(source.Ref(row))) {
		if _, drawn := t.Plan.Where(ref); drawn {
			t.setWhole(false)
			t.Reveal(ref)
			return
		}
	}
	t.Say("The " + source.RowName(row) + " is not drawn on the plan.")
}

// linksWith are the links in which a reel or a house line lies.
func (t *Drawer) linksWith(ref plan.Ref) (refs []plan.Ref) {
	for segment := range t.Desk().Plan().Segments.All() {
		if ref.Table == plan.ReelsTable && plan.Key(segment.Reel) == ref.Key || ref.Table == plan.HouseLinesTable && plan.Key(segment.HouseLine) == ref.Key {
			refs = append(refs, plan.Ref{Table: plan.LinksTable, Key: plan.Key(segment.Link)})
		}
	}
	return refs
}

// boxesOf is the device into which an input or an output is plugged in the act that is shown.
func (t *Drawer) boxesOf(ref plan.Ref) (refs []plan.Ref) {
	act := t.actNow()
	if line, found := act.Line(plan.InputID(ref.Key)); found && ref.Table == plan.InputsTable && line.Patched() {
		refs = append(refs, plan.Ref{Table: plan.DevicesTable, Key: plan.Key(line.At.Device)})
	}
	for _, line := range act.Outputs {
		if ref == plan.RefOf(line.Output) && line.Patched() {
			refs = append(refs, plan.Ref{Table: plan.DevicesTable, Key: plan.Key(line.Socket.Device)})
		}
	}
	return refs
}

// rowActions are what the context menu offers about a row before the table's own items.
func (t *Drawer) rowActions(source table.Source, row int) (items []*fyne.MenuItem) {
	if finding, found := sources.FindingAt(source, row); found {
		for _, item := range t.Fixes(finding) {
			item.Label = "Fix: " + item.Label
			items = append(items, item)
		}
		return items
	}
	if t.patches() {
		return t.PatchItems()
	}
	if source.Ref(row).Table == plan.LinksTable {
		return t.LinkItems()
	}
	return nil
}

// patches reports whether the table that is open is one of the patch.
func (t *Drawer) patches() bool {
	return t.grid() != nil && slices.Contains([]string{"patch", "sockets"}, t.open)
}

// Chosen returns what is selected, where the open table is one of the patch.
func (t *Drawer) Chosen() (c patching.Chosen, patches bool) {
	if !t.patches() {
		return c, false
	}
	act, sheet := t.actNow(), t.grid().Sheet()
	for _, ref := range sheet.Refs() {
		if ref.Table == plan.InputsTable {
			c.Inputs = append(c.Inputs, plan.InputID(ref.Key))
		}
		socket, found := sources.SocketAt(ref)
		if !found {
			continue
		}
		c.Sockets = append(c.Sockets, socket)
		for _, line := range act.Lines {
			if line.At == socket && !line.Struck {
				c.Inputs = append(c.Inputs, line.Input.ID)
			}
		}
	}
	if row, column := sheet.Cursor(); row >= 0 {
		c.Console, _ = sources.ConsoleOf(t.Desk().Assessment(), t.ActShown(), sheet.Columns()[column].Name)
	}
	return c, true
}

// Rows are the rows that are selected in the open table; in the table of sockets, the inputs plugged in there.
func (t *Drawer) Rows() (rows []plan.Ref) {
	if t.grid() == nil {
		return nil
	}
	if c, patches := t.Chosen(); patches {
		for _, id := range c.Inputs {
			rows = append(rows, plan.Ref{Table: plan.InputsTable, Key: plan.Key(id)})
		}
		return rows
	}
	return t.grid().Sheet().Refs()
}

// do makes a step of a table, and says which right sides of stereo pairs did not go along.
func (t *Drawer) do(name string, edit func(*plan.Edit) error) error {
	before := t.Desk().Assessment().Patch
	err := t.Desk().Do(name, edit)
	if said := patching.Stayed(before, t.Desk().Assessment().Patch, t.ActShown()); said != "" && err == nil {
		t.Say(said)
	}
	return err
}

// Listed are the inputs of the open table as it is sorted and filtered, where it lists them, else those of the act.
func (t *Drawer) Listed() (list []plan.InputID) {
	if t.open == "patch" {
		sheet := t.grid().Sheet()
		for row := range sheet.Len() {
			list = append(list, plan.InputID(sheet.Ref(row).Key))
		}
		return list
	}
	for _, line := range t.actNow().Lines {
		list = append(list, line.Input.ID)
	}
	return list
}

// State is what tests ask of the table that is open.
func (t *Drawer) State() (s answers.Table) {
	grid := t.grid()
	if grid == nil {
		return s
	}
	sheet := grid.Sheet()
	s = answers.Table{Name: t.open, Rows: sheet.Len(), Filter: sheet.Filter(), Trouble: grid.Trouble()}
	row, column := sheet.Cursor()
	if row < 0 {
		return s
	}
	s.Row, s.Column, s.Text = sheet.RowName(row), sheet.Columns()[column].Title, sheet.Cell(row, column).Text
	for i, head := range sheet.Columns() {
		s.Line = append(s.Line, fmt.Sprintf("%s: %s", head.Title, sheet.Cell(row, i).Text))
	}
	for row := range sheet.Len() {
		if sheet.Selected(row) {
			s.Selected++
		}
	}
	return s
}
