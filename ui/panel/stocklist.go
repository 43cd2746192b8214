package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/look"
	"stageloom/ui/pointer"
	"stageloom/ui/text"
)

// StockList is the stock on the left: what is left of what there is. A row is dragged onto a link or laid with Enter.
type StockList struct {
	widget.BaseWidget

	// Lay lays a cable on the selected link.
	Lay func(text.CableOffer)
	// Carry shows a cable under the pointer at a place of the window; Drop lays it there, or gives it up.
	Carry func(text.CableOffer, fyne.Position)
	Drop  func(text.CableOffer, fyne.Position)
	// Menu offers what can be done to a row.
	Menu func(text.StockRow, fyne.Position)
	// None says that the row under the hand has nothing left to lay.
	None func(text.StockRow)
	// Leave gives the focus back to the plan.
	Leave func()
	// Tips tells all of a row; it may be nil.
	Tips *pointer.Tips
	// Key takes the function keys.
	Key func(fyne.KeyName)

	plan     *plan.Plan
	units    words.Units
	rows     []text.StockRow
	selected int
	search   *searchEntry
	list     *widget.List
	empty    *widget.Label
	head     *canvas.Text
	content  fyne.CanvasObject
	made     []*stockRow
}

// NewStockList returns the list for a plan; add begins to add reels.
func NewStockList(p *plan.Plan, add func()) *StockList {
	s := &StockList{plan: p, selected: -1}
	s.search = newSearch("find a tag or a kind", func() { s.fill() }, func() { s.lay() })
	s.list = widget.NewList(
		func() int { return len(s.rows) },
		func() fyne.CanvasObject { return newStockRow(s) },
		func(i int, object fyne.CanvasObject) { object.(*stockRow).set(i, s.rows[i]) },
	)
	s.search.steps(s.list, func(i int) bool { return s.rows[i].Head != "" }, &s.selected, &s.Leave, &s.Key)
	s.list.HideSeparators = true
	s.list.OnSelected = func(i int) { s.selected = i }
	s.empty = widget.NewLabel("")
	s.empty.Wrapping, s.empty.Importance = fyne.TextWrapWord, widget.LowImportance
	s.head = headOf("Stock")
	more := widget.NewButton("Add…", add)
	more.Importance = widget.LowImportance
	s.content = container.NewBorder(columnTop(s.head, more, s.search, s.empty), nil, nil, nil, s.list)
	s.ExtendBaseWidget(s)
	s.fill()
	return s
}

// CreateRenderer implements fyne.Widget.
func (s *StockList) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.content) }

// headOf is the head of a list; its colour is to be renewed with the look.
func headOf(words string) *canvas.Text {
	head := canvas.NewText(words, theme.Color(theme.ColorNameForeground))
	head.TextStyle.Bold, head.TextSize = true, theme.TextSize()
	return head
}

// Refresh implements fyne.Widget; the head takes the ink of the look.
func (s *StockList) Refresh() {
	s.head.Color = theme.Color(theme.ColorNameForeground)
	s.BaseWidget.Refresh()
}

// Set shows the stock of another plan, in units.
func (s *StockList) Set(p *plan.Plan, units words.Units) {
	if s.plan.Reels == p.Reels && s.plan.Segments == p.Segments && s.plan.Links == p.Links &&
		s.plan.CableKinds == p.CableKinds && s.plan.Cases == p.Cases && s.units == units {
		return
	}
	s.plan, s.units = p, units
	s.fill()
}

// Focus puts the cursor into the search field.
func (s *StockList) Focus(c fyne.Canvas) { s.search.focus(c) }

// Focused reports whether the cursor is in the search field.
func (s *StockList) Focused(c fyne.Canvas) bool { return c.Focused() == s.search }

// Rows are the rows listed now.
func (s *StockList) Rows() []text.StockRow { return s.rows }

// Selected is the row under the hand; false where there is none.
func (s *StockList) Selected() (text.StockRow, bool) {
	if s.selected < 0 || s.selected >= len(s.rows) || s.rows[s.selected].Head != "" {
		return text.StockRow{}, false
	}
	return s.rows[s.selected], true
}

// Inside lists the search field and the rows in view, for tests of the real window.
func (s *StockList) Inside() []fyne.CanvasObject {
	inside := []fyne.CanvasObject{&s.search.Entry}
	for _, row := range s.made {
		if row.Visible() {
			inside = append(inside, row.content)
		}
	}
	return inside
}

// fill lists the stock anew. The row under the hand stays where it still is.
func (s *StockList) fill() {
	before, had := s.Selected()
	s.rows = text.StockOf(s.plan, s.search.Text, s.units)
	s.selected = -1
	s.list.UnselectAll()
	pitched(s.list, len(s.rows), func(i int) bool { return s.rows[i].Head != "" })
	s.empty.SetText("No reel has these words. Try a tag, a kind or a case.")
	if s.plan.Reels.Len() == 0 {
		s.empty.SetText("No cables yet. Add reels, or bring a list in with Stock, Import.")
	}
	s.empty.Hidden = len(s.rows) > 0
	for i, row := range s.rows {
		if had && row.Kind == before.Kind && row.Length == before.Length && row.Faulty == before.Faulty && row.Name == before.Name {
			s.list.Select(i)
			break
		}
	}
	if s.selected < 0 && s.search.Text != "" {
		s.search.step(1) // what is found first is what Enter lays
	}
	s.list.Refresh()
	s.content.Refresh()
}

func (s *StockList) lay() {
	row, found := s.Selected()
	if !found {
		return
	}
	offer, free := row.Offer()
	switch {
	case free && s.Lay != nil:
		s.Lay(offer)
	case !free && s.None != nil:
		s.None(row)
	}
}

// stockRow is one row of the list; dragged, its next free reel is carried over strip and plan.
type stockRow struct {
	widget.BaseWidget
	owner   *StockList
	index   int
	row     text.StockRow
	lay     *stockLayout
	line    *pointer.NotedLine
	suspect *canvas.Text // how many are suspect
	count   *canvas.Text // what is left of what there is
	hover   *canvas.Rectangle
	content *fyne.Container
	at      fyne.Position
}

func newStockRow(s *StockList) *stockRow {
	r := &stockRow{owner: s, lay: &stockLayout{}, line: pointer.NewNotedLine(), suspect: canvas.NewText("", nil), count: canvas.NewText("", nil), hover: canvas.NewRectangle(theme.Color(theme.ColorNameHover))}
	r.hover.Hide()
	r.content = container.New(r.lay, r.line.Line, r.suspect, r.count)
	r.ExtendBaseWidget(r)
	s.made = append(s.made, r)
	return r
}

func (r *stockRow) set(index int, row text.StockRow) {
	r.index, r.row = index, row
	text := row.Name
	name := r.line.Name
	r.lay.head = row.Head != ""
	asHead(name, r.lay.head, row.Free == "")
	if r.lay.head {
		text = row.Head
	}
	r.count.Text, r.suspect.Text = row.Fraction, row.SuspectWords()
	r.line.Set(text, row.Beside())
	r.Refresh()
}

// Refresh implements fyne.Widget; the notes and the hover take the ink of the look.
func (r *stockRow) Refresh() {
	r.count.TextSize, r.suspect.TextSize = theme.CaptionTextSize(), theme.CaptionTextSize()
	r.count.Color, r.suspect.Color = theme.Color(theme.ColorNameForeground), look.PaletteOf(fyne.CurrentApp().Settings().Theme()).GradeInk(string(budget.Tight))
	if r.row.Left == 0 {
		r.count.Color = theme.Color(theme.ColorNamePlaceHolder)
	}
	r.line.Note.Color = theme.Color(theme.ColorNamePlaceHolder)
	r.line.Note.TextSize = theme.CaptionTextSize()
	r.hover.FillColor = theme.Color(theme.ColorNameHover)
	r.content.Refresh()
	r.BaseWidget.Refresh()
}

// MouseIn implements desktop.Hoverable: the row is lit, and told whole.
func (r *stockRow) MouseIn(event *desktop.MouseEvent) {
	r.hover.FillColor = theme.Color(theme.ColorNameHover)
	r.hover.Show()
	r.MouseMoved(event)
}

// MouseMoved implements desktop.Hoverable.
func (r *stockRow) MouseMoved(event *desktop.MouseEvent) {
	r.owner.Tips.Over(r, event.AbsolutePosition, func() string { return text.StockTip(r.owner.plan, r.row, r.owner.units) })
}

// MouseOut implements desktop.Hoverable.
func (r *stockRow) MouseOut() {
	r.hover.Hide()
	r.owner.Tips.Out()
}

// CreateRenderer implements fyne.Widget.
func (r *stockRow) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(r.hover, r.content))
}

// Tapped implements fyne.Tappable: the row is under the hand, and what is typed next goes to the list.
func (r *stockRow) Tapped(*fyne.PointEvent) {
	r.owner.Tips.Dismiss()
	r.owner.list.Select(r.index)
	if c := fyne.CurrentApp().Driver().CanvasForObject(r.owner); c != nil {
		r.owner.Focus(c)
	}
}

// TappedSecondary implements fyne.SecondaryTappable.
func (r *stockRow) TappedSecondary(event *fyne.PointEvent) {
	if r.row.Head == "" && r.owner.Menu != nil {
		r.owner.list.Select(r.index)
		r.owner.Menu(r.row, event.AbsolutePosition)
	}
}

// Dragged implements fyne.Draggable.
func (r *stockRow) Dragged(event *fyne.DragEvent) {
	r.owner.Tips.Dismiss()
	r.at = event.AbsolutePosition
	if offer, free := r.row.Offer(); free && r.owner.Carry != nil {
		r.owner.Carry(offer, r.at)
	}
}

// DragEnd implements fyne.Draggable.
func (r *stockRow) DragEnd() {
	offer, free := r.row.Offer()
	switch {
	case free && r.owner.Drop != nil:
		r.owner.Drop(offer, r.at)
	case !free && r.row.Head == "" && r.owner.None != nil:
		r.owner.None(r.row)
	}
}
