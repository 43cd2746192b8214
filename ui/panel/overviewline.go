package panel

import (
	"image"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/model/raster"
	"stageloom/ui/look"
	"stageloom/ui/pointer"
	"stageloom/ui/text"
)

// Overview is the line that always tells the whole plan. A click on a piece goes to the next row it counts.
type Overview struct {
	widget.BaseWidget
	// Tips tells what a piece counts; it may be nil.
	Tips     *pointer.Tips
	inks     look.Inks
	goTo     func(plan.Ref)
	selected func() []plan.Ref
	row      *fyne.Container
	items    []text.Item
}

// NewOverview returns the line; goTo shows a row, selected tells where the user is.
func NewOverview(inks look.Inks, selected func() []plan.Ref, goTo func(plan.Ref)) *Overview {
	o := &Overview{inks: inks, goTo: goTo, selected: selected, row: container.New(&inRow{gap: 10})}
	o.ExtendBaseWidget(o)
	return o
}

// CreateRenderer implements fyne.Widget.
func (o *Overview) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(o.row) }

// SetInks changes colours and lines, with the theme.
func (o *Overview) SetInks(inks look.Inks) {
	o.inks = inks
	items := o.items
	o.items, o.row.Objects = nil, nil
	o.Set(items)
}

// Set shows items and reports whether the line has another width now. Pieces are kept where only figures changed, so
// that a drag makes nothing new.
func (o *Overview) Set(items []text.Item) (resized bool) {
	if sameWords(o.items, items) {
		for i, object := range o.row.Objects {
			object.(*piece).set(items[i])
		}
		o.items = items
		return false
	}
	o.items = items
	o.row.Objects = nil
	for i, item := range items {
		o.row.Objects = append(o.row.Objects, newPiece(o, item, item.Finding && (i == 0 || !items[i-1].Finding)))
	}
	o.row.Refresh()
	o.Refresh()
	return true
}

func sameWords(a, b []text.Item) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Words != b[i].Words || len(strconv.Itoa(a[i].Count)) != len(strconv.Itoa(b[i].Count)) {
			return false
		}
	}
	return true
}

// The line of a grade, and the room between the hairline and what is found, in points.
const (
	sampleWide = 24
	afterRule  = 16
)

// piece is one item: the grade's line, the count, the words.
type piece struct {
	widget.BaseWidget
	overview *Overview
	item     text.Item
	count    *canvas.Text
	words    *canvas.Text
	content  *fyne.Container
}

// newPiece returns a piece; what is found begins behind a hairline.
func newPiece(o *Overview, item text.Item, ruled bool) *piece {
	p := &piece{overview: o, item: item}
	p.count = canvas.NewText("", theme.Color(theme.ColorNameForeground))
	p.count.TextStyle.Bold = true
	p.words = canvas.NewText("", theme.Color(theme.ColorNamePlaceHolder))
	p.count.TextSize, p.words.TextSize = theme.TextSize()+1, theme.TextSize()
	p.content = container.New(&inRow{gap: 5})
	if ruled {
		rule := canvas.NewRectangle(theme.Color(theme.ColorNameSeparator))
		rule.SetMinSize(fyne.NewSize(1, 20))
		p.content.Add(container.New(layout.NewCustomPaddedLayout(0, 0, 6, afterRule-5), rule))
	}
	if item.Line {
		sample := canvas.NewRaster(p.sample)
		sample.SetMinSize(fyne.NewSize(sampleWide, 18))
		p.content.Add(sample)
	}
	p.content.Add(p.count)
	p.content.Add(p.words)
	p.ExtendBaseWidget(p)
	p.set(item)
	return p
}

func (p *piece) set(item text.Item) {
	p.item = item
	p.count.Color = theme.Color(theme.ColorNameForeground)
	switch {
	case item.Stale:
		p.count.Color = theme.Color(theme.ColorNamePlaceHolder)
	case item.Finding && item.Severity == checks.Stop:
		p.count.Color = look.PaletteOf(fyne.CurrentApp().Settings().Theme()).GradeInk(string(budget.Over))
	}
	p.words.Color = theme.Color(theme.ColorNamePlaceHolder)
	p.count.Text, p.words.Text = strconv.Itoa(item.Count), item.Words
	p.count.Refresh()
	p.words.Refresh()
}

// sample draws the grade's line as the plan does.
func (p *piece) sample(w, h int) image.Image {
	picked := image.NewRGBA(image.Rect(0, 0, w, h))
	drawing := raster.NewDrawing(float64(h) / 18)
	pen := p.overview.inks.Pen(drawing)
	pen.Stroke([]geom.Point{{X: 0, Y: 9.5}, {X: sampleWide, Y: 9.5}}, picture.LinkRole(string(p.item.Grade)))
	drawing.Paint(picked)
	return picked
}

// CreateRenderer implements fyne.Widget.
func (p *piece) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.content) }

// Tapped goes to the next row that the piece counts.
func (p *piece) Tapped(*fyne.PointEvent) {
	p.overview.Tips.Dismiss()
	if ref, found := p.item.Next(p.overview.selected()); found {
		p.overview.goTo(ref)
	}
}

// MouseIn implements desktop.Hoverable.
func (p *piece) MouseIn(event *desktop.MouseEvent) {
	p.overview.Tips.Over(p, event.AbsolutePosition, func() string { return p.item.Tip() })
}

// MouseMoved implements desktop.Hoverable.
func (p *piece) MouseMoved(event *desktop.MouseEvent) { p.MouseIn(event) }

// MouseOut implements desktop.Hoverable.
func (p *piece) MouseOut() { p.overview.Tips.Out() }

// Cursor shows that there is somewhere to go.
func (p *piece) Cursor() desktop.Cursor {
	if len(p.item.Rows) > 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
