package panel

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/ui/look"
	"stageloom/ui/text"
)

// Equipment is the list on the left: what can be dragged onto the plan, or placed with Enter.
type Equipment struct {
	widget.BaseWidget

	// Place puts a row in the middle of the plan.
	Place func(text.EquipmentRow)
	// Carry shows a row under the pointer at a place of the window; Drop puts it there, or gives it up.
	Carry func(text.EquipmentRow, fyne.Position)
	Drop  func(text.EquipmentRow, fyne.Position)
	// Leave gives the focus back to the plan.
	Leave func()
	// Key takes the function keys.
	Key func(fyne.KeyName)
	// where says where Enter puts a device.
	where *whereChooser

	plan     *plan.Plan
	own      []catalogue.DeviceKind
	rows     []text.EquipmentRow
	selected int
	search   *searchEntry
	list     *widget.List
	empty    *widget.Label
	head     *canvas.Text
	content  fyne.CanvasObject
	made     []*kindRow
}

// NewEquipment returns the list for a plan.
func NewEquipment(p *plan.Plan) *Equipment {
	e := &Equipment{plan: p, selected: -1}
	e.search = newSearch("find a kind", func() { e.fill() }, func() { e.place() })
	e.list = widget.NewList(
		func() int { return len(e.rows) },
		func() fyne.CanvasObject { return newKindRow(e) },
		func(i int, object fyne.CanvasObject) { object.(*kindRow).set(e.rows[i]) },
	)
	e.search.steps(e.list, func(i int) bool { return e.rows[i].Head() }, &e.selected, &e.Leave, &e.Key)
	e.list.HideSeparators = true
	e.list.OnSelected = func(i int) { e.selected = i }
	e.empty = widget.NewLabel("No kind has these words in its name.")
	e.empty.Wrapping, e.empty.Importance = fyne.TextWrapWord, widget.LowImportance
	e.empty.Hide()
	e.head = headOf("Equipment")
	e.where = newWhereChooser(e)
	e.content = container.NewBorder(columnTop(e.head, nil, e.search, e.where, e.empty), nil, nil, nil, e.list)
	e.ExtendBaseWidget(e)
	e.fill()
	return e
}

// CreateRenderer implements fyne.Widget.
func (e *Equipment) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(e.content) }

// Refresh implements fyne.Widget; the head takes the ink of the look.
func (e *Equipment) Refresh() {
	e.head.Color = theme.Color(theme.ColorNameForeground)
	e.BaseWidget.Refresh()
}

// SetPlan shows the kinds and counts of another plan.
func (e *Equipment) SetPlan(p *plan.Plan) {
	e.plan = p
	e.where.follow(p)
	e.fill()
}

// SetKinds shows the kinds and counts of a plan, with those of the user's library.
func (e *Equipment) SetKinds(p *plan.Plan, own []catalogue.DeviceKind) {
	e.own = own
	e.SetPlan(p)
}

// Focus puts the cursor into the search field.
func (e *Equipment) Focus(c fyne.Canvas) { e.search.focus(c) }

// Inside lists the search field and the rows in view, for tests of the real window.
func (e *Equipment) Inside() []fyne.CanvasObject {
	inside := []fyne.CanvasObject{&e.search.Entry, &e.where.Select}
	for _, row := range e.made {
		if row.Visible() {
			inside = append(inside, row.content)
		}
	}
	return inside
}

// Rows are the rows listed now.
func (e *Equipment) Rows() []text.EquipmentRow { return e.rows }

func (e *Equipment) fill() {
	e.rows = text.EquipmentOf(e.plan, e.own, e.search.Text)
	e.selected = -1
	e.list.UnselectAll()
	pitched(e.list, len(e.rows), func(i int) bool { return e.rows[i].Head() })
	e.empty.Hidden = len(e.rows) > 0
	if e.search.Text != "" {
		e.search.step(1) // what is found first is what Enter places
	}
	e.list.Refresh()
	e.empty.Refresh()
}

func (e *Equipment) place() {
	if e.selected >= 0 && e.selected < len(e.rows) && !e.rows[e.selected].Head() && e.Place != nil {
		e.Place(e.rows[e.selected])
	}
}

// kindRow is one row of the list; dragged, it is carried over the plan.
type kindRow struct {
	widget.BaseWidget
	owner   *Equipment
	row     text.EquipmentRow
	name    *widget.Label
	icon    *widget.Icon
	note    *canvas.Text
	lay     *rowLayout
	content *fyne.Container
	at      fyne.Position
}

func newKindRow(e *Equipment) *kindRow {
	r := &kindRow{owner: e, lay: &rowLayout{}, name: widget.NewLabel(""), icon: widget.NewIcon(nil), note: canvas.NewText("", theme.Color(theme.ColorNamePlaceHolder))}
	r.name.Truncation = fyne.TextTruncateEllipsis
	r.note.TextSize = theme.CaptionTextSize()
	r.content = container.New(r.lay, r.icon, r.name, r.note)
	r.ExtendBaseWidget(r)
	e.made = append(e.made, r)
	return r
}

func (r *kindRow) set(row text.EquipmentRow) {
	if r.row == row {
		if r.note.Color != theme.Color(theme.ColorNamePlaceHolder) { // a row out of view is not told of another look
			r.Refresh()
		}
		return
	}
	r.row = row
	r.icon.Hidden = row.Head()
	if !row.Head() {
		r.icon.SetResource(look.PictogramIcon(row.Pictogram))
	}
	r.lay.head = row.Head()
	asHead(r.name, row.Head(), false)
	text := row.Name
	if row.Head() {
		text = row.Group
	}
	r.name.SetText(text)
	r.note.Text = ""
	if row.Placed > 0 {
		r.note.Text = fmt.Sprintf("×%d", row.Placed)
	}
	r.Refresh()
}

// Refresh implements fyne.Widget; the count takes the ink of the look.
func (r *kindRow) Refresh() {
	r.note.Color = theme.Color(theme.ColorNamePlaceHolder)
	r.content.Refresh()
	r.BaseWidget.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (r *kindRow) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.content) }

// Dragged implements fyne.Draggable.
func (r *kindRow) Dragged(event *fyne.DragEvent) {
	r.at = event.AbsolutePosition
	if !r.row.Head() && r.owner.Carry != nil {
		r.owner.Carry(r.row, r.at)
	}
}

// DragEnd implements fyne.Draggable.
func (r *kindRow) DragEnd() {
	if !r.row.Head() && r.owner.Drop != nil {
		r.owner.Drop(r.row, r.at)
	}
}
