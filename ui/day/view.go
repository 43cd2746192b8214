package day

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/assess"
	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// shown is what the view shows.
type shown uint8

const (
	page   shown = iota // one link
	swaps               // what can take the place of a cable
	finds               // links by what was typed
	check               // one input of a line check
	faults              // what a line check found
	noting              // a note to what was heard
)

// View is the day view. It has the keys while it is shown; what it does to the plan goes through Do, one step each.
type View struct {
	widget.BaseWidget
	// Do makes a step of the plan; Undo takes the last one back and says its name, blank where there is none.
	Do   func(name string, edit func(*plan.Edit) error) error
	Undo func() string
	// Shown is told which link is shown; Leave goes back to the plan.
	Shown func(plan.LinkID)
	Leave func()
	// Key gets the function keys.
	Key func(fyne.KeyName)
	// Today is the date that a faulty cable is noted with, Now the time that a line check is.
	Today func() string
	Now   func() time.Time
	// ActShown is the act that a line check begins with.
	ActShown func() plan.ActID

	assessment *assess.Assessment
	units      words.Units
	round      []plan.LinkID
	link       plan.LinkID
	place      int // of the link in the round, kept where the link goes
	order      int // of the cable that S and F mean
	onlyLeft   bool
	said       string

	sheet  shown
	spares []cabling.Candidate
	typed  string
	found  []Found
	chosen int // in the list of spares, finds or faults
	check  checking

	spots   []spot
	pointer fyne.Position
	objects []fyne.CanvasObject
	size    fyne.Size
}

// The view is what the toolkit gives keys, taps and the pointer to.
var (
	_ fyne.Focusable     = (*View)(nil)
	_ fyne.Tabbable      = (*View)(nil)
	_ fyne.Tappable      = (*View)(nil)
	_ fyne.Scrollable    = (*View)(nil)
	_ desktop.Cursorable = (*View)(nil)
	_ desktop.Hoverable  = (*View)(nil)
)

// New returns a view of a plan; set its functions before it is shown.
func New(a *assess.Assessment, units words.Units) *View {
	v := &View{}
	v.ExtendBaseWidget(v)
	v.Set(a, units)
	return v
}

// Set shows another state of the plan. The link stays the one it is, as long as there is such a link.
func (v *View) Set(a *assess.Assessment, units words.Units) {
	v.assessment, v.units, v.said = a, units, ""
	v.round = Round(a)
	if v.sheet == swaps {
		v.sheet = page
	}
	if v.sheet == finds {
		v.find(v.typed)
	}
	at := slices.Index(v.round, v.link)
	if at < 0 {
		at = max(0, min(v.place, len(v.round)-1))
	}
	v.goTo(at)
	if v.sheet.checks() {
		v.settleCheck()
	}
}

// Begin shows a link, or where there is none such the first of which something is left to do.
func (v *View) Begin(id plan.LinkID) {
	v.sheet, v.said = page, ""
	at := slices.Index(v.round, id)
	if at < 0 {
		at = max(0, slices.IndexFunc(v.round, v.isLeft))
	}
	v.goTo(at)
	if v.Shown != nil {
		v.Shown(v.link)
	}
}

// Link is the link that is shown, blank where the plan has none.
func (v *View) Link() plan.LinkID { return v.link }

// Said is what the view says of the last thing done.
func (v *View) Said() string { return v.said }

// Chosen is the order of the cable that is swapped or marked, 0 where the link has none.
func (v *View) Chosen() int { return v.order }

func (v *View) isLeft(id plan.LinkID) bool {
	link, _ := v.assessment.Plan.Link(id)
	return left(link)
}

// goTo shows the link at a place of the round.
func (v *View) goTo(at int) {
	was := v.link
	v.link, v.place = "", at
	if at >= 0 && at < len(v.round) {
		v.link = v.round[at]
	}
	if v.link != was {
		v.order = 1
	}
	v.order = min(max(v.order, 1), len(v.segments()))
	v.Refresh()
	if v.link != was && v.Shown != nil && v.Visible() {
		v.Shown(v.link)
	}
}

func (v *View) segments() []plan.Segment {
	if v.assessment == nil {
		return nil
	}
	return v.assessment.Plan.SegmentsOf(v.link)
}

// step goes to the next link, or the one before, round and round; only to those left to do where only they are wanted.
func (v *View) step(by int) {
	n := len(v.round)
	v.said = ""
	for i := 1; i <= n; i++ {
		at := ((v.place+by*i)%n + n) % n
		if !v.onlyLeft || v.isLeft(v.round[at]) {
			v.goTo(at)
			return
		}
	}
	if n > 0 {
		v.say("All links are laid, joined and tested. A shows all of them.")
	}
}

func (v *View) say(text string) {
	v.said = text
	v.Refresh()
}

// keepLeft switches between all links and those of which something is left to do.
func (v *View) keepLeft() {
	v.onlyLeft = !v.onlyLeft
	if v.onlyLeft && v.link != "" && !v.isLeft(v.link) {
		v.step(1)
		return
	}
	v.say("")
}

// choose makes a cable the one that S and F mean.
func (v *View) choose(order int) {
	n := len(v.segments())
	if order >= 1 && order <= n {
		v.order = order
		v.say("")
	} else if n > 0 && order > n {
		v.say(fmt.Sprintf("This link has no cable %d.", order))
	}
}

// FocusGained implements fyne.Focusable.
func (v *View) FocusGained() {}

// FocusLost implements fyne.Focusable.
func (v *View) FocusLost() {}

// AcceptsTab implements fyne.Tabbable: nothing else on the screen takes keys.
func (v *View) AcceptsTab() bool { return true }

// TypedRune implements fyne.Focusable: letters and digits.
func (v *View) TypedRune(r rune) {
	switch v.sheet {
	case finds:
		v.find(v.typed + string(r))
		return
	case noting:
		v.check.note += string(r)
		v.Refresh()
		return
	}
	for _, b := range v.buttons() {
		if slices.Contains(b.runes, r) {
			b.do()
			return
		}
	}
	if v.sheet == page && r >= '1' && r <= '9' {
		v.choose(int(r - '0'))
	}
}

// TypedKey implements fyne.Focusable: keys that are no letters.
func (v *View) TypedKey(event *fyne.KeyEvent) {
	switch event.Name {
	case fyne.KeyEscape:
		v.back()
	case fyne.KeyUp:
		v.along(-1)
	case fyne.KeyDown, fyne.KeyTab:
		v.along(1)
	case fyne.KeyReturn, fyne.KeyEnter:
		v.take()
	case fyne.KeyBackspace:
		v.unType()
	case fyne.KeyLeft:
		v.aside(-1)
	case fyne.KeyRight:
		v.aside(1)
	case fyne.KeyPageUp:
		v.pageBy(-1)
	case fyne.KeyPageDown:
		v.pageBy(1)
	default:
		if len(event.Name) > 1 && event.Name[0] == 'F' && v.Key != nil {
			v.Key(event.Name)
		}
	}
}

// aside goes along the links or the inputs; in a list there is nothing aside.
func (v *View) aside(by int) {
	switch v.sheet {
	case page:
		v.step(by)
	case check:
		v.goCheck(by)
	}
}

// along goes along the cables of the link, the inputs of a line check, or the list.
func (v *View) along(by int) {
	switch v.sheet {
	case page:
		if n := len(v.segments()); n > 0 {
			v.choose((v.order-1+by+n)%n + 1)
		}
		return
	case check:
		v.goCheck(by)
		return
	}
	if n := v.listed(); n > 0 {
		v.chosen = (v.chosen + by + n) % n
		v.Refresh()
	}
}

// Scrolled implements fyne.Scrollable: the wheel goes along a list.
func (v *View) Scrolled(event *fyne.ScrollEvent) {
	switch {
	case v.listed() == 0:
	case event.Scrolled.DY < 0:
		v.chosen = min(v.chosen+1, v.listed()-1)
		v.Refresh()
	case event.Scrolled.DY > 0:
		v.chosen = max(v.chosen-1, 0)
		v.Refresh()
	}
}

// Command takes commands of the menu that the view has of its own: find, undo, and the next and previous link.
func (v *View) Command(shortcut fyne.Shortcut) bool {
	if _, undo := shortcut.(*fyne.ShortcutUndo); undo {
		v.takeBack()
		return true
	}
	custom, ok := shortcut.(*desktop.CustomShortcut)
	control := fyne.KeyModifierShortcutDefault
	switch {
	case !ok:
		return false
	case v.sheet.checks():
		return v.checkCommand(custom)
	case custom.KeyName == fyne.KeyF && custom.Modifier == control:
		v.openFind()
	case custom.KeyName == fyne.KeyL && custom.Modifier == control:
		v.aside(1)
	case custom.KeyName == fyne.KeyL && custom.Modifier == control|fyne.KeyModifierShift:
		v.aside(-1)
	default:
		return false
	}
	return true
}
