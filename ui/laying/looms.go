package laying

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stageloom/model/plan"
)

// LoomMenu is what can be done with looms.
func (l *Dialogs) LoomMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Loom", nil)
	item.ChildMenu = fyne.NewMenu("",
		fyne.NewMenuItem("Made of the selected links", l.makeLoom),
		fyne.NewMenuItem("Select the link's loom, or the loom's links   L", l.selectLoom),
		fyne.NewMenuItem("Follows the way of the selected link", l.routeLoom),
		fyne.NewMenuItem("Take the selected links out", l.leaveLoom),
		fyne.NewMenuItem("Dissolve", l.dissolveLoom),
	)
	return item
}

// makeLoom makes a loom of the selected links and selects it, so that its route can be drawn.
func (l *Dialogs) makeLoom() {
	links := l.Desk().SelectedLinks()
	name := l.Desk().Plan().FreeLoomName()
	var id plan.LoomID
	err := l.Desk().Do("Make "+name, func(e *plan.Edit) (err error) {
		id, err = e.MakeLoom(name, links)
		return err
	})
	if err != nil {
		l.Refused(err)
		return
	}
	l.Desk().Select(plan.Ref{Table: plan.LoomsTable, Key: plan.Key(id)})
	l.Say(fmt.Sprintf("%s holds %d links, which follow its route: drag the line, or W, N, P and the arrows. Ctrl Z takes it back.", name, len(links)))
}

func (l *Dialogs) selectLoom() {
	if !l.Ground.SelectLoom() {
		l.Say("Select a link that lies in a loom.")
	}
}

// AboutLooms reports whether the menu of looms has something to do with what is selected: links, or one loom.
func (l *Dialogs) AboutLooms() bool {
	selection := l.Desk().Selection()
	return len(l.Desk().SelectedLinks()) > 0 || len(selection) == 1 && selection[0].Table == plan.LoomsTable
}

// selectedLoom is the selected loom with a link of it, or the loom of the first selected link.
func (l *Dialogs) selectedLoom() (plan.LoomID, plan.LinkID, bool) {
	for _, id := range l.Desk().SelectedLinks() {
		if link, _ := l.Desk().Plan().Link(id); link.Loom != "" {
			return link.Loom, id, true
		}
	}
	for _, ref := range l.Desk().Selection() {
		if links := l.Desk().Plan().LoomLinks(plan.LoomID(ref.Key)); ref.Table == plan.LoomsTable && len(links) > 0 {
			return plan.LoomID(ref.Key), links[0].ID, true
		}
	}
	l.Say("Select a loom, or a link that lies in one.")
	return "", "", false
}

func (l *Dialogs) routeLoom() {
	if loom, link, found := l.selectedLoom(); found {
		l.Do("Route loom", func(e *plan.Edit) error { return e.RouteLoom(loom, link) })
	}
}

func (l *Dialogs) leaveLoom() {
	links := l.Desk().SelectedLinks()
	l.Do("Take out of loom", func(e *plan.Edit) error { return e.LeaveLooms(links...) })
}

func (l *Dialogs) dissolveLoom() {
	if loom, _, found := l.selectedLoom(); found {
		l.Do("Dissolve loom", func(e *plan.Edit) error { e.DissolveLoom(loom); return nil })
	}
}
