package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stageloom/model/plan"
)

// loomMenu is what can be done with looms.
func (w *window) loomMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem("Loom", nil)
	item.ChildMenu = fyne.NewMenu("",
		fyne.NewMenuItem("Made of the selected links", w.makeLoom),
		fyne.NewMenuItem("Follows the way of the selected link", w.routeLoom),
		fyne.NewMenuItem("Take the selected links out", w.leaveLoom),
		fyne.NewMenuItem("Dissolve", w.dissolveLoom),
	)
	return item
}

func (w *window) makeLoom() {
	links := w.selectedLinks()
	name := fmt.Sprintf("Loom %d", w.desk.Plan().Looms.Len()+1)
	w.do("Make "+name, func(e *plan.Edit) error {
		_, err := e.MakeLoom(name, links)
		return err
	})
}

// selectedLoom is the loom of the first selected link.
func (w *window) selectedLoom() (plan.LoomID, plan.LinkID, bool) {
	for _, id := range w.selectedLinks() {
		if link, _ := w.desk.Plan().Link(id); link.Loom != "" {
			return link.Loom, id, true
		}
	}
	w.notice.Say("Select a link that lies in a loom.")
	return "", "", false
}

func (w *window) routeLoom() {
	if loom, link, found := w.selectedLoom(); found {
		w.do("Route loom", func(e *plan.Edit) error { return e.RouteLoom(loom, link) })
	}
}

func (w *window) leaveLoom() {
	links := w.selectedLinks()
	w.do("Take out of loom", func(e *plan.Edit) error {
		for _, id := range links {
			if err := plan.Update(e, plan.Key(id), func(r *plan.Link) { r.Loom = "" }); err != nil {
				return err
			}
		}
		return nil
	})
}

func (w *window) dissolveLoom() {
	if loom, _, found := w.selectedLoom(); found {
		w.do("Dissolve loom", func(e *plan.Edit) error { e.DissolveLoom(loom); return nil })
	}
}
