package stock

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/split"
	"stageloom/ui/text"
)

// What a list can hold.
const (
	holdsReels   = "reels"
	holdsCases   = "cases"
	holdsInputs  = "inputs"
	holdsDevices = "devices"
)

// importDialog brings a list into a plan or the house: the file, what its columns mean, how it reads, and what is wrong with it by row.
type importDialog struct {
	*Dialogs
	place  Place
	kinds  []plan.CableKind
	file   exchange.Document
	layout exchange.Layout
	means  map[string]plan.KindID
	asked  stockQuestions
	words  []string
	// add puts what was read in, all of it or the good rows only; said tells what that is.
	add  func(e *plan.Edit, goodOnly bool) error
	said string

	path                          *dialogs.Entry
	holds, sheet, head, kind, act *dialogs.Chooser
	ofKind, ofAct, forAct         fyne.CanvasObject
	encoding                      *encodingChoice
	// acts are those that an input list can be for, blank for all of them.
	acts               []plan.ActID
	columns            []*dialogs.Chooser
	table, words2kinds *fyne.Container
	read, told, faults *widget.Label
	// first stands in the place of ofFile, which is all that asks and tells of a file, before there is one.
	first  *widget.Label
	ofFile *fyne.Container
	// aside is what an input list changes, and what of it is not taken and no fault.
	aside *widget.Label

	all, good *dialogs.Answer
	// returned tells that Return read the file: what can be done with it then has the keys.
	returned bool
	// strike says that an input list is all that its act has, drop that inputs which it lacks leave; dropSaid and actSaid tell
	// that the user said so, or for whom it is.
	strike, drop      *dialogs.Check
	dropSaid, actSaid bool
	dialog            *dialogs.Dialog
	filling           bool
	// run counts what was asked to be read; what comes of an older one is not shown.
	run int
}

// ImportStock opens the dialog for a stock list, with a file where one is known.
func (s *Dialogs) ImportStock(place Place, path string) { s.importList(place, holdsReels, path) }

// ImportInputs opens the dialog for an input list.
func (s *Dialogs) ImportInputs() { s.importList(s.OfPlan(), holdsInputs, "") }

func (s *Dialogs) importList(place Place, holds, path string) {
	d := &importDialog{Dialogs: s, place: place, kinds: catalogue.CableKindsFor(place.now()), means: map[string]plan.KindID{}}
	d.asked = d.newStockQuestions()
	d.build(holds)
	d.dialog.Fit(dialogs.WideWidth, 0)
	s.Keys().Escapable(d.dialog.Hide)
	d.dialog.Show()
	dialogs.Focus(s, d.path)
	if path != "" {
		d.path.SetText(path)
		d.load()
	}
}

func (d *importDialog) build(holds string) {
	d.path = dialogs.NewEntry(d)
	d.path.SetPlaceHolder("a CSV, TSV or xlsx file; Return reads it")
	d.path.OnSubmitted = func(string) {
		d.returned = true
		d.load()
	}
	browse := dialogs.NewAnswer(d, "Browse…", d.browse)
	d.holds = dialogs.NewChooser(d, []string{holdsReels, holdsCases, holdsInputs, holdsDevices}, func(string) { d.guess() })
	if d.place.ofHouse {
		d.holds.Options = d.holds.Options[:2]
	}
	d.sheet = dialogs.NewChooser(d, nil, func(string) { d.sheetChosen() })
	d.head = dialogs.NewChooser(d, nil, func(string) { d.headChosen() })
	d.kind = dialogs.NewChooser(d, append([]string{"a fault"}, kindNames(d.kinds)...), func(string) { d.reckon() })
	d.listActs()
	d.filling = true
	d.holds.SetSelected(holds)
	d.kind.SetSelectedIndex(0)
	d.filling = false
	d.labels()
	d.encoding = d.newEncodingChoice(d.loadAs)
	d.table, d.words2kinds = container.NewHBox(), container.NewVBox()
	file := container.NewBorder(nil, nil, widget.NewLabel("File"), browse, d.path)
	d.ofKind, d.forAct = labelled("Without a kind", d.kind), labelled("For", d.act)
	d.ofAct = container.NewVBox(d.forAct, d.strike, d.drop)
	choices := container.NewGridWithColumns(4, onTop(labelled("It holds", d.holds)), onTop(labelled("Sheet", d.sheet)), onTop(labelled("Column heads", d.head)), container.NewStack(d.ofKind, d.ofAct))
	d.layFile(choices)
	content := container.NewBorder(file, nil, nil, nil, container.NewStack(d.first, d.ofFile))
	d.all = dialogs.NewAnswer(d, "Import", func() { d.take(false) })
	d.all.Importance = widget.HighImportance
	d.good = dialogs.NewAnswer(d, "Import the good rows only", func() { d.take(true) })
	d.dialog = dialogs.New(d, "Import a list into "+d.place.name, content)
	d.dialog.SetOnClosed(func() { d.run++ })
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(d, "Cancel", d.dialog.Hide), d.good, d.all})
	d.showChoices()
	d.all.Disable()
	d.good.Disable()
}

// layFile lays out what asks and tells of a file, which is hidden before there is one.
func (d *importDialog) layFile(choices fyne.CanvasObject) {
	below := container.NewBorder(d.told, nil, nil, nil, container.NewVScroll(container.NewVBox(d.words2kinds, d.faults, d.aside)))
	head := container.NewVBox(container.NewBorder(nil, nil, nil, onTop(d.encoding.shown), d.read), choices)
	d.ofFile = container.NewBorder(head, nil, nil, nil, split.Down(container.NewHScroll(d.table), below))
	d.ofFile.Hide()
}

// labels makes what is said of the file, and of what comes of it.
func (d *importDialog) labels() {
	d.read, d.told, d.faults, d.aside = widget.NewLabel(""), widget.NewLabel("Choose a file first. Nothing is taken in before you say so."), widget.NewLabel(""), widget.NewLabel("")
	d.first = widget.NewLabel(d.told.Text)
	for _, label := range []*widget.Label{d.read, d.told, d.faults, d.aside, d.first} {
		label.Wrapping = fyne.TextWrapWord
	}
	d.read.Importance = widget.LowImportance
	d.told.TextStyle.Bold = true
}

func (d *importDialog) browse() {
	chooser := dialog.NewFileOpen(func(reader fyne.URIReadCloser, err error) {
		if err != nil || reader == nil {
			return
		}
		d.path.SetText(reader.URI().Path())
		_ = reader.Close() // it is opened by its path
		d.load()
	}, d.Window())
	chooser.SetFilter(storage.NewExtensionFileFilter([]string{".csv", ".tsv", ".txt", ".xlsx", ".xlsm"}))
	dialogs.Prepare(d, chooser)
	chooser.Show()
}

// empty shows that there is nothing to import, and why.
func (d *importDialog) empty(reason string) {
	d.read.SetText("")
	d.table.RemoveAll()
	d.words2kinds.RemoveAll()
	d.words, d.asked.shown = nil, nil
	d.faults.SetText("")
	d.aside.SetText("")
	d.told.SetText(reason)
	d.first.SetText(reason)
	d.all.Disable()
	d.good.Disable()
}

func (d *importDialog) grid() (exchange.Grid, bool) {
	at := d.sheet.SelectedIndex()
	if at < 0 || at >= len(d.file.Grids) {
		return exchange.Grid{}, false
	}
	return d.file.Grids[at], true
}

func (d *importDialog) fields() []exchange.Field {
	switch d.holds.Selected {
	case holdsCases:
		return exchange.CaseFields()
	case holdsInputs:
		return exchange.InputFieldsOf(d.Desk().Assessment().Patch)
	case holdsDevices:
		return exchange.DeviceFields()
	}
	return exchange.StockFields()
}

// mostHeads is how many rows are offered as the head, mostShown how many are shown below it, mostColumns how many columns.
const mostHeads, mostShown, mostColumns = 15, 7, 40

// guess looks at a sheet anew.
func (d *importDialog) guess() {
	grid, found := d.grid()
	if !found || d.filling {
		return
	}
	d.layout = d.keptLayout(grid, false)
	d.offerHeads(grid)
	d.show()
	d.reckon()
}

// offerHeads offers the first rows as the head.
func (d *importDialog) offerHeads(grid exchange.Grid) {
	heads := []string{"none"}
	for i := range min(len(grid.Rows), mostHeads) {
		heads = append(heads, fmt.Sprintf("row %d", i+1))
	}
	d.filling = true
	d.head.Options = heads
	d.head.SetSelectedIndex(min(d.layout.Head, len(heads)-1))
	d.filling = false
}

func (d *importDialog) headChosen() {
	if d.filling {
		return
	}
	d.layout.Head = max(0, d.head.SelectedIndex())
	d.keep()
	d.show()
	d.reckon()
}

// show makes the table: over each column what it means, below it its first rows.
func (d *importDialog) show() {
	grid, _ := d.grid()
	meanings := []string{text.NotRead}
	for _, field := range d.fields() {
		meanings = append(meanings, field.Name)
	}
	d.table.RemoveAll()
	d.columns = nil
	d.filling = true
	for column := range min(grid.Width(), mostColumns) {
		meaning := dialogs.NewChooser(d, meanings, func(name string) { d.mean(column, name) })
		meaning.SetSelectedIndex(max(0, slices.Index(meanings, d.layout.Fields[column])))
		if d.layout.Fields[column] == "" {
			meaning.SetSelectedIndex(0)
		}
		d.columns = append(d.columns, meaning)
		cells := container.NewVBox(meaning)
		for i, cell := range text.PreviewColumn(grid, d.layout, column, mostShown) {
			label := widget.NewLabel(cell)
			label.Truncation = fyne.TextTruncateEllipsis
			if i == 0 {
				label.TextStyle.Bold = true
			}
			cells.Add(label)
		}
		d.table.Add(container.NewGridWrap(fyne.NewSize(columnWidth(d.layout.Fields[column]), cells.MinSize().Height), cells))
	}
	d.filling = false
	d.table.Refresh()
}

// narrowColumn and wideColumn bound the width of a column, besideMeaning is what its list has beside the words.
const narrowColumn, wideColumn, besideMeaning = 150, 260, 48

// columnWidth is wide enough for what a column means, as far as that is no long name.
func columnWidth(meaning string) float32 {
	return min(wideColumn, max(narrowColumn, fyne.MeasureText(meaning, theme.TextSize(), fyne.TextStyle{}).Width+besideMeaning))
}

// mean gives a column another meaning; the column that had it before is not read any more.
func (d *importDialog) mean(column int, name string) {
	if d.filling {
		return
	}
	if name == text.NotRead {
		name = ""
		if d.holds.Selected == holdsReels {
			name = exchange.PassOver // which is said, so that it is asked about no more
		}
	}
	d.layout = d.layout.Set(column, name)
	d.keepColumn(column, name)
	d.keep()
	d.filling = true
	for i, meaning := range d.columns {
		if d.layout.Fields[i] == "" && meaning.SelectedIndex() != 0 {
			meaning.SetSelectedIndex(0)
		}
	}
	d.filling = false
	d.reckon()
}
