package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// remove takes what is selected out of the plan. What takes more along says so first, and asks.
func (w *window) remove() {
	selection := w.desk.Selection()
	if len(selection) == 0 {
		w.notice.Say("Nothing is selected that could be deleted.")
		return
	}
	leaving, err := text.LeavingOf(w.desk.Plan(), selection)
	switch {
	case err != nil:
		w.refused(err)
	case leaving.Asks:
		w.askRemoval(leaving, func() { w.removeNow(leaving, selection) })
	default:
		w.removeNow(leaving, selection)
	}
}

func (w *window) removeNow(leaving text.Leaving, selection []plan.Ref) {
	err := w.desk.DoAnyway("Delete "+leaving.What, func(e *plan.Edit) error { text.Remove(e, selection); return nil })
	if err != nil {
		w.refused(err)
		return
	}
	w.notice.Say(leaving.Done() + ". Ctrl Z brings it back.")
}

// removalLines say what goes along and what stays, the worst first.
func removalLines(leaving text.Leaving) *fyne.Container {
	lines := container.NewVBox()
	line := func(text string, importance widget.Importance) {
		label := widget.NewLabel(text)
		label.Wrapping, label.Importance = fyne.TextWrapWord, importance
		lines.Add(label)
	}
	for _, touched := range leaving.OnSite {
		line("On site: "+touched, widget.DangerImportance)
	}
	for _, along := range leaving.Along {
		line(along, widget.MediumImportance)
	}
	for _, stays := range leaving.Stays {
		line(stays, widget.LowImportance)
	}
	return lines
}

// askRemoval lists what goes along; Enter deletes, Escape keeps.
func (w *window) askRemoval(leaving text.Leaving, remove func()) {
	lines := removalLines(leaving)
	title := leaving.What + " goes"
	if len(leaving.Along) > 0 {
		title += ", with"
	}
	d := dialog.NewCustomWithoutButtons(title, container.NewVScroll(lines), w.window)
	yes := dialogs.NewAnswer(w, "Delete", func() {
		d.Hide()
		remove()
		w.window.Canvas().Focus(w.plan)
	})
	yes.Importance = widget.HighImportance
	keep := dialogs.NewAnswer(w, "Keep", func() {
		d.Hide()
		w.window.Canvas().Focus(w.plan)
	})
	d.SetButtons([]fyne.CanvasObject{keep, yes})
	d.Resize(fyne.NewSize(440, min(360, 140+30*float32(len(lines.Objects)))))
	w.Keys().Escapable(keep.OnTapped)
	d.Show()
	if len(leaving.OnSite) > 0 { // Enter leaves what lies
		w.window.Canvas().Focus(keep)
		return
	}
	w.window.Canvas().Focus(yes)
}

// reverse swaps the ends of the selected links.
func (w *window) reverse() {
	links := w.selectedLinks()
	if len(links) == 0 {
		w.notice.Say("Select a link to turn it round.")
		return
	}
	w.do("Reverse "+w.linkNames(links), func(e *plan.Edit) error {
		for _, id := range links {
			if err := e.Reverse(id); err != nil {
				return err
			}
		}
		return nil
	})
}

// straighten takes the way points of the selected links away.
func (w *window) straighten() {
	links := w.selectedLinks()
	w.do("Straighten "+w.linkNames(links), func(e *plan.Edit) error {
		for _, id := range links {
			if err := e.Draw(id, nil); err != nil {
				return err
			}
		}
		return nil
	})
}

// pair makes the two selected links main and backup of each other, or sets one free.
func (w *window) pair() {
	links := w.selectedLinks()
	switch len(links) {
	case 1:
		w.do("Unpair "+w.linkNames(links), func(e *plan.Edit) error { e.Unpair(links[0]); return nil })
	case 2:
		w.do("Pair "+w.linkNames(links), func(e *plan.Edit) error { return e.Pair(links[0], links[1]) })
	default:
		w.notice.Say("Select the main link first, then with Shift its backup; with one link selected the pair is parted.")
	}
}

// do makes an edit of the plan and tells why when it is refused.
func (w *window) do(name string, edit func(*plan.Edit) error) {
	if err := w.desk.Do(name, edit); err != nil {
		w.refused(err)
	}
}

func (w *window) selectedLinks() (links []plan.LinkID) {
	for _, ref := range w.desk.Selection() {
		if ref.Table == plan.LinksTable {
			links = append(links, plan.LinkID(ref.Key))
		}
	}
	return links
}

func (w *window) linkNames(links []plan.LinkID) string {
	var names []string
	for _, id := range links {
		link, _ := w.desk.Plan().Link(id)
		names = append(names, link.Name)
	}
	if len(names) > 3 {
		return fmt.Sprintf("%d links", len(names))
	}
	return strings.Join(names, ", ")
}

// gather makes a position round the selected devices, which move with it from then on.
func (w *window) gather() {
	devices := w.selectedDevices()
	if len(devices) == 0 {
		w.notice.Say("Select the devices that stand together.")
		return
	}
	box := geom.EmptyBox()
	for _, id := range devices {
		if device, _ := w.desk.Plan().Device(id); !device.Unplaced {
			box = box.Include(device.At())
		}
	}
	var id plan.PositionID
	w.do("New position", func(e *plan.Edit) error {
		id = e.AddPosition(roundOf(freePositionName(e.Now()), box))
		for _, device := range devices {
			if err := plan.Update(e, plan.Key(device), func(r *plan.Device) { r.Position = id }); err != nil {
				return err
			}
		}
		return nil
	})
	w.desk.Select(plan.Ref{Table: plan.PositionsTable, Key: plan.Key(id)})
}

// roundOf is a position round a box of devices; without a place where none of them has one.
func roundOf(name string, box geom.Box) plan.Position {
	if box.Empty() {
		return plan.Position{Name: name, Unplaced: true}
	}
	box = box.Inset(-aroundDevices)
	middle := box.Centre()
	return plan.Position{Name: name, X: middle.X, Y: middle.Y, Width: box.Width(), Depth: box.Height()}
}

// aroundDevices is the room in metres between devices and the outline of their position.
const aroundDevices = 3.0
