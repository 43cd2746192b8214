package dialogs

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Column is a head of [Rows].
type Column struct {
	// Title is what it says, Width how wide the column is.
	Title string
	Width float32
}

// Rows is a table to read in a dialog: arrows go through it, Enter and Escape do what they do in the dialog.
type Rows struct {
	widget.Table
	keys  *Keys
	heads []Column
	rows  [][]string
}

// NewRows returns a table without rows.
func NewRows(host Host, heads []Column) *Rows {
	r := &Rows{keys: host.Keys(), heads: heads}
	r.Length = func() (int, int) { return len(r.rows), len(r.heads) }
	r.CreateCell = newCell
	r.UpdateCell = func(at widget.TableCellID, object fyne.CanvasObject) {
		object.(*widget.Label).SetText(r.rows[at.Row][at.Col])
	}
	r.ShowHeaderRow = true
	r.CreateHeader = func() fyne.CanvasObject {
		head := newCell().(*widget.Label)
		head.TextStyle = fyne.TextStyle{Bold: true}
		return head
	}
	r.UpdateHeader = func(at widget.TableCellID, object fyne.CanvasObject) {
		object.(*widget.Label).SetText(r.heads[at.Col].Title)
	}
	r.ExtendBaseWidget(r)
	for i, head := range heads {
		r.SetColumnWidth(i, head.Width)
	}
	return r
}

func newCell() fyne.CanvasObject {
	cell := widget.NewLabel("")
	cell.Truncation = fyne.TextTruncateEllipsis
	return cell
}

// Fill fills the table with rows, from the top.
func (r *Rows) Fill(rows [][]string) {
	r.rows = rows
	r.ScrollToTop()
	r.Refresh()
}

// Read is what the table says.
func (r *Rows) Read() [][]string { return r.rows }

// Inner is the toolkit's table, for tests.
func (r *Rows) Inner() *widget.Table { return &r.Table }

// TypedKey implements fyne.Focusable.
func (r *Rows) TypedKey(event *fyne.KeyEvent) {
	switch {
	case r.keys.typed(event.Name):
	case event.Name == fyne.KeyReturn || event.Name == fyne.KeyEnter:
		r.keys.Submit()
	default:
		r.Table.TypedKey(event)
	}
}
