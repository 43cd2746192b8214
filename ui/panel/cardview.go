package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

// CardView is the card on the right: what there is to say about the selection.
type CardView struct {
	widget.BaseWidget
	goTo   func(plan.Ref)
	card   Card
	shown  bool
	body   *fyne.Container
	below  fyne.CanvasObject
	scroll *container.Scroll
}

// NewCardView returns a card; below stands under its figures when the card is about a link; goTo shows a row that
// a finding names.
func NewCardView(below fyne.CanvasObject, goTo func(plan.Ref)) *CardView {
	c := &CardView{goTo: goTo, body: container.NewVBox(), below: below}
	c.scroll = container.NewVScroll(container.NewPadded(c.body))
	c.scroll.SetMinSize(fyne.NewSize(230, 100))
	c.ExtendBaseWidget(c)
	return c
}

// CreateRenderer implements fyne.Widget.
func (c *CardView) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(c.scroll) }

// Inside lists what the card holds, for tests of the real window.
func (c *CardView) Inside() []fyne.CanvasObject { return c.body.Objects }

// Set shows a card. While only figures change, as in a drag, the rows stay and their texts are set.
func (c *CardView) Set(card Card) {
	if c.shown && c.sameShape(card) {
		c.card = card
		c.update()
		return
	}
	if c.card.Title != card.Title {
		c.scroll.ScrollToTop()
	}
	c.card, c.shown = card, true
	c.Rebuild()
}

func (c *CardView) sameShape(card Card) bool {
	if c.card.Title != card.Title || c.card.Kind != card.Kind || c.card.Subtitle != card.Subtitle ||
		len(c.card.Figures) != len(card.Figures) || len(c.card.Findings) != len(card.Findings) {
		return false
	}
	for i := range card.Figures {
		if card.Figures[i].Name != c.card.Figures[i].Name {
			return false
		}
	}
	for i := range card.Findings {
		if card.Findings[i].What != c.card.Findings[i].What {
			return false
		}
	}
	return true
}

// Rebuild makes the card's rows anew, after a change of shape or theme.
func (c *CardView) Rebuild() {
	c.body.Objects = []fyne.CanvasObject{c.head()}
	for _, figure := range c.card.Figures {
		c.body.Objects = append(c.body.Objects, newFigureRow(figure))
	}
	if c.card.Link != "" {
		c.body.Objects = append(c.body.Objects, c.below)
	}
	for _, finding := range c.card.Findings {
		c.body.Objects = append(c.body.Objects, c.finding(finding))
	}
	c.body.Refresh()
	c.body.Refresh() // wrapped text knows its height only once it has its width
}

func (c *CardView) update() {
	i := 0
	for _, object := range c.body.Objects {
		if row, ok := object.(*figureRow); ok {
			row.set(c.card.Figures[i])
			i++
		}
	}
}

func (c *CardView) head() fyne.CanvasObject {
	title := widget.NewLabelWithStyle(c.card.Title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	title.SizeName, title.Truncation = theme.SizeNameSubHeadingText, fyne.TextTruncateEllipsis
	kind := canvas.NewText(c.card.Kind, theme.Color(theme.ColorNamePlaceHolder))
	kind.TextSize = theme.TextSize() - 1
	head := container.NewVBox(container.NewBorder(nil, nil, nil, kind, title))
	if c.card.Subtitle != "" {
		subtitle := widget.NewLabel(c.card.Subtitle)
		subtitle.Wrapping = fyne.TextWrapWord
		head.Add(subtitle)
	}
	return head
}

func (c *CardView) finding(f checks.Finding) fyne.CanvasObject {
	icon := widget.NewIcon(theme.InfoIcon())
	if f.Severity != checks.Note {
		icon.SetResource(theme.WarningIcon())
	}
	label := widget.NewLabel(Sentences(f))
	label.Wrapping = fyne.TextWrapWord
	if f.Severity == checks.Stop {
		label.Importance = widget.DangerImportance
	}
	return container.NewVBox(widget.NewSeparator(), container.NewBorder(nil, nil, container.NewVBox(icon), nil, label))
}

// figureRow is one figure: its name left, the figure large and right, what it means in small words below.
type figureRow struct {
	widget.BaseWidget
	figure  Figure
	name    *canvas.Text
	value   *canvas.Text
	note    *widget.Label
	content *fyne.Container
}

func newFigureRow(figure Figure) *figureRow {
	r := &figureRow{
		name: canvas.NewText("", theme.Color(theme.ColorNamePlaceHolder)), value: canvas.NewText("", theme.Color(theme.ColorNameForeground)),
		note: widget.NewLabel(""),
	}
	r.name.TextSize, r.value.TextSize, r.value.TextStyle.Bold = theme.TextSize(), theme.TextSize()+3, true
	r.note.Wrapping, r.note.SizeName, r.note.Importance = fyne.TextWrapWord, theme.SizeNameCaptionText, widget.LowImportance
	r.content = container.New(&stacked{}, container.New(&apart{}, r.name, r.value), r.note)
	r.ExtendBaseWidget(r)
	r.figure.Name = "\x00" // so that the first set sets all
	r.set(figure)
	return r
}

func (r *figureRow) set(f Figure) {
	if f == r.figure {
		return
	}
	r.figure = f
	r.name.Text, r.value.Text = f.Name, f.Value
	r.note.SetText(f.Note)
	r.note.Hidden = f.Note == ""
	r.name.Refresh()
	r.value.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (r *figureRow) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.content) }
