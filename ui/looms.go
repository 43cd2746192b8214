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
		fyne.NewMenuItem("Select the link's loom, or the loom's links   L", w.selectLoom),
		fyne.NewMenuItem("Follows the way of the selected link", w.routeLoom),
		fyne.NewMenuItem("Take the selected links out", w.leaveLoom),
		fyne.NewMenuItem("Dissolve", w.dissolveLoom),
	)
	return item
}

// makeLoom makes a loom of the selected links and selects it, so that its route can be drawn.
func (w *window) makeLoom() {
	links := w.selectedLinks()
	name := freeLoomName(w.desk.Plan())
	var id plan.LoomID
	err := w.desk.Do("Make "+name, func(e *plan.Edit) (err error) {
		id, err = e.MakeLoom(name, links)
		return err
	})
	if err != nil {
		w.refused(err)
		return
	}
	w.desk.Select(plan.Ref{Table: plan.LoomsTable, Key: plan.Key(id)})
	w.notice.Say(fmt.Sprintf("%s holds %d links, which follow its route: drag the line, or W, N, P and the arrows. Ctrl Z takes it back.", name, len(links)))
}

func freeLoomName(p *plan.Plan) string {
	taken := map[string]bool{}
	for loom := range p.Looms.All() {
		taken[loom.Name] = true
	}
	for n := 1; ; n++ {
		if name := fmt.Sprintf("Loom %d", n); !taken[name] {
			return name
		}
	}
}

func (w *window) selectLoom() {
	if !w.plan.SelectLoom() {
		w.notice.Say("Select a link that lies in a loom.")
	}
}

// loomOf is the one loom that is selected.
func (w *window) loomOf() (plan.LoomID, bool) {
	selection := w.desk.Selection()
	if len(selection) != 1 || selection[0].Table != plan.LoomsTable {
		return "", false
	}
	return plan.LoomID(selection[0].Key), true
}

// selectedLoom is the selected loom with a link of it, or the loom of the first selected link.
func (w *window) selectedLoom() (plan.LoomID, plan.LinkID, bool) {
	for _, id := range w.selectedLinks() {
		if link, _ := w.desk.Plan().Link(id); link.Loom != "" {
			return link.Loom, id, true
		}
	}
	for _, ref := range w.desk.Selection() {
		if links := w.desk.Plan().LoomLinks(plan.LoomID(ref.Key)); ref.Table == plan.LoomsTable && len(links) > 0 {
			return plan.LoomID(ref.Key), links[0].ID, true
		}
	}
	w.notice.Say("Select a loom, or a link that lies in one.")
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
		e.DissolveEmptiedLooms()
		return nil
	})
}

func (w *window) dissolveLoom() {
	if loom, _, found := w.selectedLoom(); found {
		w.do("Dissolve loom", func(e *plan.Edit) error { e.DissolveLoom(loom); return nil })
	}
}
