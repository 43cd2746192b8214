package laying

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

// ChooseMenu selects by what rows have in common.
func (l *Dialogs) ChooseMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Select links", nil)
	item.ChildMenu = fyne.NewMenu("")
	add := func(label string, picked func(plan.Link, budget.Budget) bool) {
		item.ChildMenu.Items = append(item.ChildMenu.Items, fyne.NewMenuItem(label, func() { l.chooseLinks(picked) }))
	}
	for _, grade := range append(budget.Standings(), budget.Ungraded) {
		add(text.GradeWord(grade), func(_ plan.Link, b budget.Budget) bool { return b.Standing() == grade })
	}
	item.ChildMenu.Items = append(item.ChildMenu.Items, fyne.NewMenuItemSeparator())
	named := map[plan.TransportID]bool{}
	for _, b := range l.Desk().Assessment().Budgets {
		if !named[b.Transport] {
			named[b.Transport] = true
			add(b.TransportName, func(link plan.Link, _ budget.Budget) bool { return link.Transport == b.Transport })
		}
	}
	item.ChildMenu.Items = append(item.ChildMenu.Items, fyne.NewMenuItemSeparator())
	add("too short", func(_ plan.Link, b budget.Budget) bool { return b.TooShort() })
	add("at the selected devices", func(link plan.Link, _ budget.Budget) bool {
		return l.Desk().Selected(plan.Ref{Table: plan.DevicesTable, Key: plan.Key(link.From)}) || l.Desk().Selected(plan.Ref{Table: plan.DevicesTable, Key: plan.Key(link.To)})
	})
	for loom := range l.Desk().Plan().Looms.All() {
		add("in loom "+loom.Name, func(link plan.Link, _ budget.Budget) bool { return link.Loom == loom.ID })
	}
	return item
}

func (l *Dialogs) chooseLinks(picked func(plan.Link, budget.Budget) bool) {
	var refs []plan.Ref
	for _, link := range l.Desk().Assessment().Links() {
		if b, found := l.Desk().Assessment().Budget(link.ID); found && picked(link, b) {
			refs = append(refs, plan.RefOf(link))
		}
	}
	if len(refs) == 0 {
		l.Say("No link is like that.")
		return
	}
	l.Desk().Select(refs...)
}

// Renumber names the selected links, or all, L01, L02, … in the order they are read.
func (l *Dialogs) Renumber() {
	links := l.Desk().SelectedLinks()
	if len(links) == 0 {
		for _, link := range l.Desk().Assessment().Links() {
			links = append(links, link.ID)
		}
	}
	kept := 0
	for _, id := range links {
		if link, found := l.Desk().Plan().Link(id); found && l.Desk().Plan().WasIssued(link) {
			kept++
		}
	}
	if err := l.Desk().Do("Renumber links", func(e *plan.Edit) error { return e.Renumber(links) }); err != nil {
		l.Refused(err)
	} else if kept > 0 {
		l.Say(fmt.Sprintf("%d of these links stood on an issued revision and kept their names, which are on the crew's paper.", kept))
	}
}

// Double makes a second link between the devices of the selected one, on the next ports that fit, with its way and
// its cables by kind and length.
func (l *Dialogs) Double() {
	selected, one := l.only()
	if !one {
		l.Say("Select one link to double it.")
		return
	}
	p := l.Desk().Plan()
	link, _ := p.Link(selected)
	double, found := catalogue.DoubleOf(p, link)
	if !found {
		l.Say("No two free ports of " + text.NameOf(p, plan.Ref{Table: plan.DevicesTable, Key: plan.Key(link.From)}) + " and " +
			text.NameOf(p, plan.Ref{Table: plan.DevicesTable, Key: plan.Key(link.To)}) + " fit each other.")
		return
	}
	var id plan.LinkID
	l.Do("Double "+link.Name, func(e *plan.Edit) error { id = e.AddLinkLike(double, link.ID); return nil })
	l.Desk().Select(plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)})
}

// Reverse swaps the ends of the selected links.
func (l *Dialogs) Reverse() {
	links := l.Desk().SelectedLinks()
	if len(links) == 0 {
		l.Say("Select a link to turn it round.")
		return
	}
	l.Do("Reverse "+l.names(links...), func(e *plan.Edit) error {
		for _, id := range links {
			if err := e.Reverse(id); err != nil {
				return err
			}
		}
		return nil
	})
}

// Straighten takes the way points of the selected links away.
func (l *Dialogs) Straighten() {
	links := l.Desk().SelectedLinks()
	l.Do("Straighten "+l.names(links...), func(e *plan.Edit) error {
		for _, id := range links {
			if err := e.Draw(id, nil); err != nil {
				return err
			}
		}
		return nil
	})
}

// Pair makes the two selected links main and backup of each other, or sets one free.
func (l *Dialogs) Pair() {
	links := l.Desk().SelectedLinks()
	switch len(links) {
	case 1:
		if link, _ := l.Desk().Plan().Link(links[0]); link.Partner == "" {
			l.Say(link.Name + " is no half of a pair: select its backup too, with Shift, and press Ctrl B again.")
			return
		}
		l.Do("Unpair "+l.names(links...), func(e *plan.Edit) error { e.Unpair(links[0]); return nil })
	case 2:
		l.Do("Pair "+l.names(links...), func(e *plan.Edit) error { return e.Pair(links[0], links[1]) })
	default:
		l.Say("Select the main link first, then with Shift its backup; with one link selected the pair is parted.")
	}
}
