package ui

import (
	"fmt"
	"strings"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// remove takes the selected devices, links, positions and areas out of the plan, and says what went along.
func (w *window) remove() {
	p, selection := w.desk.Plan(), w.desk.Selection()
	if len(selection) == 0 {
		w.notice.Say("Nothing is selected that could be deleted.")
		return
	}
	var devices []plan.DeviceID
	var links []plan.LinkID
	for _, ref := range selection {
		switch ref.Table {
		case "devices":
			devices = append(devices, plan.DeviceID(ref.Key))
		case "links":
			links = append(links, plan.LinkID(ref.Key))
		}
	}
	along := len(p.LinksAt(devices...))
	name := "Delete " + nameOf(p, selection[0])
	if len(selection) > 1 {
		name = fmt.Sprintf("Delete %d things", len(selection))
	}
	err := w.desk.Do(name, func(e *plan.Edit) error {
		e.RemoveLinks(links...)
		e.RemoveDevices(devices...)
		for _, ref := range selection {
			switch ref.Table {
			case "positions":
				e.RemovePosition(plan.PositionID(ref.Key))
			case "areas":
				e.RemoveArea(plan.AreaID(ref.Key))
			}
		}
		return nil
	})
	if err != nil {
		w.refused(err)
		return
	}
	said := []string{strings.Replace(name, "Delete", "Deleted", 1)}
	if along > 0 {
		said = append(said, fmt.Sprintf("with %d links plugged in there", along))
	}
	w.notice.Say(strings.Join(said, " ") + ". Ctrl Z brings it back.")
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
		if ref.Table == "links" {
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
		device, _ := w.desk.Plan().Device(id)
		box = box.Include(device.At())
	}
	box = box.Inset(-aroundDevices)
	var id plan.PositionID
	w.do("New position", func(e *plan.Edit) error {
		middle := box.Centre()
		id = e.AddPosition(plan.Position{Name: freePositionName(e.Now()), X: middle.X, Y: middle.Y, Width: box.Width(), Depth: box.Height()})
		for _, device := range devices {
			if err := plan.Update(e, plan.Key(device), func(r *plan.Device) { r.Position = id }); err != nil {
				return err
			}
		}
		return nil
	})
	w.desk.Select(plan.Ref{Table: "positions", Key: plan.Key(id)})
}

// aroundDevices is the room in metres between devices and the outline of their position.
const aroundDevices = 3.0
