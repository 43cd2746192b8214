// Package laying holds what is done to links and their cables: two ports linked, cable laid, replaced and picked, laid spares,
// looms. Its dialogs and menus change the plan; they know a host and the run strip, not the window.
package laying

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/pointer"
	"stageloom/ui/strip"
)

// Dialogs are those of links and their cables, with what they ask of the window beside what every dialog does.
type Dialogs struct {
	dialogs.Host
	// Strip shows the cables of the selected link; EnterStrip gives it the keys.
	Strip      *strip.Strip
	EnterStrip func()
	// Ground is the plan as it is drawn.
	Ground Ground
	// Sign names a cable that the pointer carries.
	Sign *pointer.Sign
	// Do makes an edit of the plan as one step and tells why when it is refused; Refused only tells.
	Do      func(name string, edit func(*plan.Edit) error)
	Refused func(error)
	// AddHired brings what a pick asks to hire in into the stock, and calls done when it is there; nil where none can.
	AddHired func(what []cabling.Hire, done func())
	// Library holds the house's stock. PickFrom is the stock that cables were picked from last, which KeepPickFrom keeps.
	Library      func() house.Library
	PickFrom     func() string
	KeepPickFrom func(string)
	// Foresee shows the figures of links as they would be, until the next change; without any the plan's again.
	Foresee func(...budget.Budget)
}

// Ground is what links are drawn on.
type Ground interface {
	// AddLink adds a link as one step and selects it.
	AddLink(plan.Link) error
	// SelectLoom selects the loom of the selected link, or the links of the selected loom, and reports whether there is one.
	SelectLoom() bool
	// RowAt is what lies under a place of the window, if something does.
	RowAt(fyne.Position) (plan.Ref, bool)
}

// only is the one link that is selected, if one alone is.
func (l *Dialogs) only() (plan.LinkID, bool) {
	if links := l.Desk().SelectedLinks(); len(links) == 1 {
		return links[0], true
	}
	return "", false
}

// names lists links, or counts them where they are many.
func (l *Dialogs) names(links ...plan.LinkID) string {
	var names []string
	for _, id := range links {
		link, _ := l.Desk().Plan().Link(id)
		names = append(names, link.Name)
	}
	if len(names) > 3 {
		return fmt.Sprintf("%d links", len(names))
	}
	return strings.Join(names, ", ")
}
