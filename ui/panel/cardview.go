package panel

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/ui/look"
	"stageloom/ui/pointer"
	"stageloom/ui/text"
)

// CardView is the card on the right: the facts of the selection that decide first, then what else is to be known of a
// link, then the form in which all of it is changed.
type CardView struct {
	widget.BaseWidget
	// Tips tells what a figure is; it may be nil.
	Tips *pointer.Tips
	// Form is what can be changed of the selection.
	Form *FormView
	// Fixes lists the certain cures of a finding, and Fix does one.
	Fixes func(checks.Finding) []checks.Fix
	Fix   func(checks.Finding, checks.Fix)
	// Tools stand above the form of a link: what is done most to it.
	Tools fyne.CanvasObject
	// Advice tells what would cure the card's link and what is advice; it is asked for once it is unfolded.
	Advice func() []text.Figure

	goTo   func(plan.Ref)
	card   text.Card
	shown  bool
	body   *fyne.Container // the facts, above the form
	tail   *fyne.Container // the folds, below it
	curve  fyne.CanvasObject
	scroll *container.Scroll
	open   map[string]bool
}

// The folds of a link's card.
const (
	curveFold  = "Loss over frequency"
	adviceFold = "What would cure it, and advice"
)

// NewCardView returns a card; curve stands at its foot when the card is about a link; goTo shows a row that a finding
// names.
func NewCardView(curve fyne.CanvasObject, goTo func(plan.Ref)) *CardView {
	c := &CardView{goTo: goTo, body: container.NewVBox(), tail: container.NewVBox(), curve: curve, Form: NewFormView(), open: map[string]bool{curveFold: true}}
	c.Fixes = func(checks.Finding) []checks.Fix { return nil }
	c.Form.Reveal, c.Form.Resized = c.reveal, func() { c.scroll.Content.Refresh(); c.scroll.Refresh() }
	c.scroll = container.NewVScroll(inMargins(container.NewVBox(c.body, c.Form, c.tail)))
	c.scroll.SetMinSize(fyne.NewSize(272, 100))
	c.ExtendBaseWidget(c)
	return c
}

// CreateRenderer implements fyne.Widget.
func (c *CardView) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(c.scroll) }

// Inside lists what the card holds, for tests of the real window.
func (c *CardView) Inside() []fyne.CanvasObject {
	return slices.Concat(c.body.Objects, []fyne.CanvasObject{c.Form}, c.tail.Objects)
}

// reveal scrolls so that a row can be seen.
func (c *CardView) reveal(row fyne.CanvasObject) {
	driver := fyne.CurrentApp().Driver()
	top := driver.AbsolutePositionForObject(row).Y - driver.AbsolutePositionForObject(c.scroll.Content).Y
	bottom := top + row.Size().Height
	switch height := c.scroll.Size().Height; {
	case top < c.scroll.Offset.Y:
		c.scroll.ScrollToOffset(fyne.NewPos(0, top-8))
	case bottom > c.scroll.Offset.Y+height:
		c.scroll.ScrollToOffset(fyne.NewPos(0, bottom-height+8))
	}
}

// Set shows a card. While only figures change, as in a drag, the rows stay and their texts are set.
func (c *CardView) Set(card text.Card) {
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

func (c *CardView) sameShape(card text.Card) bool {
	if c.card.Title != card.Title || c.card.Kind != card.Kind || c.card.Subtitle != card.Subtitle ||
		c.card.Stale != card.Stale || len(c.card.Figures) != len(card.Figures) || len(c.card.Findings) != len(card.Findings) {
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
		c.body.Objects = append(c.body.Objects, newFigureRow(figure, c.card.GradeOf(figure), c.Tips))
	}
	for _, finding := range c.card.Findings {
		c.body.Objects = append(c.body.Objects, c.finding(finding))
	}
	c.tail.Objects = nil
	if c.card.Link != "" {
		if c.Tools != nil {
			c.body.Objects = append(c.body.Objects, container.New(layout.NewCustomPaddedLayout(0, 0, inset(), inset()), c.Tools))
		}
		c.fold(curveFold, func() []fyne.CanvasObject { return []fyne.CanvasObject{c.curve} })
		if c.Advice != nil {
			c.fold(adviceFold, c.advice)
		}
	}
	c.settle()
}

// settle lays the card out until wrapped text, which knows its height only once it has its width, has found its place.
func (c *CardView) settle() {
	for range 2 {
		c.body.Refresh()
		c.tail.Refresh()
		c.scroll.Content.Refresh()
	}
	c.scroll.Refresh()
}

// fold adds a part of the card that can be folded away.
func (c *CardView) fold(name string, parts func() []fyne.CanvasObject) {
	open := c.open[name]
	head := newGroupHead(c.Form, text.FormGroup{Name: name}, open)
	head.OnTapped = func() {
		c.open[name] = !open
		c.Rebuild()
		for _, object := range c.tail.Objects {
			if again, is := object.(*groupHead); is && again.group == name {
				c.Form.focusOn(again)
			}
		}
	}
	c.tail.Objects = append(c.tail.Objects, head)
	if open {
		c.tail.Objects = append(c.tail.Objects, parts()...)
	}
}

// advice lists what is advice beside the facts that decide.
func (c *CardView) advice() (rows []fyne.CanvasObject) {
	for _, figure := range c.Advice() {
		rows = append(rows, newFigureRow(figure, budget.Ungraded, c.Tips))
	}
	return rows
}

func (c *CardView) update() {
	i := 0
	for _, object := range c.body.Objects {
		if row, ok := object.(*figureRow); ok && i < len(c.card.Figures) {
			row.set(c.card.Figures[i], c.card.GradeOf(c.card.Figures[i]))
			i++
		}
	}
}

func (c *CardView) head() fyne.CanvasObject {
	title := widget.NewLabelWithStyle(c.card.Title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	title.SizeName, title.Truncation = theme.SizeNameSubHeadingText, fyne.TextTruncateEllipsis
	kind := canvas.NewText(c.card.Kind, theme.Color(theme.ColorNamePlaceHolder))
	kind.TextSize = theme.CaptionTextSize()
	head := container.NewVBox(container.NewBorder(nil, nil, nil, container.New(layout.NewCustomPaddedLayout(0, 0, 0, inset()), kind), title))
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
	what, remedy := widget.NewLabel(strings.TrimRight(f.What, ". ")+"."), widget.NewLabel(f.Remedy)
	what.Wrapping, remedy.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
	remedy.SizeName, remedy.Importance = theme.SizeNameCaptionText, widget.LowImportance
	if f.Severity == checks.Stop {
		what.Importance = widget.DangerImportance
	}
	if c.card.Stale {
		what.Importance = widget.LowImportance
	}
	remedy.Hidden = f.Remedy == ""
	rows := container.New(&findingLayout{}, widget.NewSeparator(), icon, container.New(&stacked{}, what, remedy))
	for _, fix := range c.Fixes(f) {
		rows.Add(newFixLink(c, f, fix))
	}
	return rows
}

// fixLink is a certain cure of a finding: a press does it.
type fixLink struct {
	widget.Hyperlink
	card *CardView
}

func newFixLink(c *CardView, f checks.Finding, fix checks.Fix) *fixLink {
	l := &fixLink{card: c}
	l.Text, l.Wrapping = "Fix: "+lowered(fix.Label), fyne.TextWrapWord
	l.OnTapped = func() { c.Fix(f, fix) }
	l.ExtendBaseWidget(l)
	return l
}

// Words are what the link says, for tests.
func (l *fixLink) Words() string { return l.Text }

// lowered begins a sentence small, as it does behind a colon.
func lowered(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToLower(text[:1]) + text[1:]
}

// FocusGained implements fyne.Focusable.
func (l *fixLink) FocusGained() {
	l.Hyperlink.FocusGained()
	l.card.reveal(l)
}

// TypedKey implements fyne.Focusable: Enter does it too, Escape goes back to the plan.
func (l *fixLink) TypedKey(event *fyne.KeyEvent) {
	switch event.Name {
	case fyne.KeyEscape:
		l.card.Form.Leave()
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		l.OnTapped()
	default:
		l.card.Form.Key(event.Name)
	}
}

// figureRow is one figure: its name left, the figure large and right, what it means in small words below.
type figureRow struct {
	widget.BaseWidget
	tips    *pointer.Tips
	figure  text.Figure
	name    *canvas.Text
	value   *canvas.Text
	note    *widget.Label
	grade   budget.Grade
	content *fyne.Container
}

func newFigureRow(figure text.Figure, grade budget.Grade, tips *pointer.Tips) *figureRow {
	r := &figureRow{
		tips: tips,
		name: canvas.NewText("", theme.Color(theme.ColorNamePlaceHolder)), value: canvas.NewText("", theme.Color(theme.ColorNameForeground)),
		note: widget.NewLabel(""),
	}
	r.name.TextSize, r.value.TextSize, r.value.TextStyle.Bold = theme.CaptionTextSize(), theme.Size(theme.SizeNameSubHeadingText), true
	r.note.Wrapping, r.note.SizeName, r.note.Importance = fyne.TextWrapWord, theme.SizeNameCaptionText, widget.LowImportance
	r.content = container.New(&figureLayout{}, r.name, r.value, r.note)
	r.ExtendBaseWidget(r)
	r.figure.Name = "\x00" // so that the first set sets all
	r.set(figure, grade)
	return r
}

// MouseIn implements desktop.Hoverable.
func (r *figureRow) MouseIn(event *desktop.MouseEvent) {
	r.tips.Over(r, event.AbsolutePosition, func() string { return text.MeaningOf(r.figure.Name) })
}

// MouseMoved implements desktop.Hoverable.
func (r *figureRow) MouseMoved(event *desktop.MouseEvent) { r.MouseIn(event) }

// MouseOut implements desktop.Hoverable.
func (r *figureRow) MouseOut() { r.tips.Out() }

// set shows a figure, coloured as the grade that it stands in.
func (r *figureRow) set(f text.Figure, grade budget.Grade) {
	if f == r.figure && grade == r.grade {
		return
	}
	r.figure, r.grade = f, grade
	r.value.Color = theme.Color(theme.ColorNameForeground)
	if grade != budget.Ungraded {
		r.value.Color = look.PaletteOf(fyne.CurrentApp().Settings().Theme()).GradeInk(string(grade))
	}
	r.name.Text, r.value.Text = f.Name, f.Value
	r.note.SetText(f.Note)
	r.note.Hidden = f.Note == ""
	r.content.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (r *figureRow) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.content) }
