package laying

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
	"stageloom/ui/strip"
)

// onChain edits the chain of the one selected link.
func (l *Dialogs) onChain(name string, edit func(*plan.Edit, plan.LinkID) error) {
	if link, one := l.only(); one {
		l.Do(name+" of "+l.names(link), func(e *plan.Edit) error { return edit(e, link) })
	}
}

// Change makes a change of the strip in the selected link.
func (l *Dialogs) Change(c strip.Change) { l.onChain(c.Name(), c.Make) }

// Try shows the figures of the selected link as they would be after a change, and says them in few words; the zero
// change shows the plan's again.
func (l *Dialogs) Try(c strip.Change) string {
	if link, one := l.only(); one {
		return l.tryIn(link, c)
	}
	return ""
}

func (l *Dialogs) tryIn(link plan.LinkID, c strip.Change) string {
	if c.Doing == strip.Nothing {
		l.Foresee()
		return ""
	}
	b, err := c.Try(l.Desk().Plan(), link)
	if err != nil {
		l.Foresee()
		return words.Sentence(reason(err))
	}
	l.Foresee(b)
	return strip.Words(b, l.Units().Length)
}

// reason is a refusal without the words that nothing was changed: nothing was tried in earnest yet.
func reason(err error) error {
	if text, refused := strings.CutPrefix(err.Error(), plan.ErrRefused.Error()+": "); refused {
		return errors.New(text)
	}
	return err
}

// CableMenu is what can be done to one cable of the strip.
func (l *Dialogs) CableMenu(order int, at fyne.Position) {
	item := func(label string, do func()) *fyne.MenuItem { return fyne.NewMenuItem(label, do) }
	doing := func(label string, c strip.Change) *fyne.MenuItem { return item(label, func() { l.Change(c) }) }
	asking := func(label string, c strip.Change) *fyne.MenuItem { return item(label, func() { l.LayBy(c) }) }
	coupler := item("Coupler before it   C", nil)
	coupler.ChildMenu = l.couplersOf(order)
	coupler.Disabled = order < 2
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu(fmt.Sprintf("Cable %d", order),
		asking("Replace…   R", strip.Change{Doing: strip.Replace, Order: order}),
		asking("Lay one before it…   B", strip.Change{Doing: strip.Insert, Place: order - 1}),
		asking("Lay one after it…   A", strip.Change{Doing: strip.Insert, Place: order}),
		fyne.NewMenuItemSeparator(),
		doing("Nearer   Up", strip.Change{Doing: strip.Move, Order: order, Place: order - 2}),
		doing("Further   Down", strip.Change{Doing: strip.Move, Order: order, Place: order}),
		coupler,
		item("Cut…   S", func() { l.EnterStrip(); l.Strip.BeginCut(order) }),
		doing("Join with the next   J", strip.Change{Doing: strip.Join, Order: order}),
		doing("Take off   Delete", strip.Change{Doing: strip.Remove, Order: order}),
	), l.Window().Canvas(), at)
}

// CouplerMenu offers the couplers before a cable.
func (l *Dialogs) CouplerMenu(order int, at fyne.Position) {
	widget.ShowPopUpMenuAtPosition(l.couplersOf(order), l.Window().Canvas(), at)
}

func (l *Dialogs) couplersOf(order int) *fyne.Menu {
	now, media := plan.HardwareID(""), standards.Media("")
	if id, one := l.only(); one {
		link, _ := l.Desk().Plan().Link(id)
		media = l.Desk().Assessment().Reckoner().Transport(link.Transport).Media
		if chain := l.Desk().Plan().SegmentsOf(id); order <= len(chain) {
			now = chain[order-1].Coupler
		}
	}
	item := func(label string, id plan.HardwareID) *fyne.MenuItem {
		m := fyne.NewMenuItem(label, func() {
			l.onChain("Coupler", func(e *plan.Edit, link plan.LinkID) error { return e.SetCoupler(link, order, id) })
		})
		m.Checked = id == now
		return m
	}
	menu := fyne.NewMenu("Coupler before cable "+fmt.Sprint(order), item("the plan's", ""))
	for _, hardware := range medium.HardwareFor(media) {
		menu.Items = append(menu.Items, item(hardware.Name, plan.HardwareID(hardware.Slug)))
	}
	return menu
}
