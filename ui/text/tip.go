package text

import (
	"fmt"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
)

// TipOf says what lies under a pointer that rests on the plan, its name in the first line; blank for what has nothing to
// say beyond what stands on the plan, as areas do; worst says where a link loses most of its limit. A part of a device is a port, a part of a link or a loom a way point.
func TipOf(a *assess.Assessment, ref plan.Ref, units words.Units, worst func(budget.Budget) string) string {
	if !(plan.Ref{Table: ref.Table, Key: ref.Key}).Exists(a.Plan) {
		return ""
	}
	switch ref.Table {
	case plan.DevicesTable:
		device, _ := a.Plan.Devices.Get(ref.Key)
		if ref.Part != "" {
			return portTip(a, device, ref.Part)
		}
		return deviceTip(a, device)
	case plan.LinksTable:
		if ref.Part != "" {
			return wayTip
		}
		return linkTip(a, plan.LinkID(ref.Key), worst)
	case plan.LoomsTable:
		if ref.Part != "" {
			return wayTip
		}
		loom, _ := a.Plan.Looms.Get(ref.Key)
		n := len(a.Plan.LoomLinks(loom.ID))
		return fmt.Sprintf("%s\nloom of %s, laid together along one route", loom.Name, words.Counted(n, "link", "links"))
	case plan.PositionsTable:
		return positionTip(a, ref.Key, units)
	}
	return ""
}

const wayTip = "Way point\nDrag it, or nudge it with the arrows; Delete takes it away."

func deviceTip(a *assess.Assessment, device plan.Device) string {
	kind, _ := a.Plan.Kinds.Get(plan.Key(device.Kind))
	where := "in no position"
	if position, found := a.Plan.Positions.Get(plan.Key(device.Position)); found {
		where = "at " + position.Name
	}
	return strings.Join([]string{device.Name, kind.Name, where}, "\n")
}

// portTip says which port it is, what it carries, and what it is linked to.
func portTip(a *assess.Assessment, device plan.Device, name string) string {
	said := []string{device.Name + ", port " + name}
	for _, port := range a.Plan.Ports(device.Kind) {
		if port.Name == name {
			if transport, err := standards.TransportBySlug(standards.TransportSlug(port.Transport)); err == nil {
				said = append(said, transport.Name)
			}
		}
	}
	for _, id := range a.Plan.LinksAt(device.ID) {
		link, _ := a.Plan.Link(id)
		switch {
		case link.IsSpare():
		case link.From == device.ID && link.FromPort == name:
			return strings.Join(append(said, "linked to "+EndOf(a.Plan, link.To, link.ToPort)+" by "+link.Name), "\n")
		case link.To == device.ID && link.ToPort == name:
			return strings.Join(append(said, "linked to "+EndOf(a.Plan, link.From, link.FromPort)+" by "+link.Name), "\n")
		}
	}
	return strings.Join(append(said, "free: drag from here to another device"), "\n")
}

func linkTip(a *assess.Assessment, id plan.LinkID, worst func(budget.Budget) string) string {
	link, _ := a.Plan.Link(id)
	b, _ := a.Budget(id)
	named := link.Name + " · " + b.TransportName
	if colour := a.Plan.TapeColour(link); colour != "" {
		named += " · tape " + colour
	}
	said := []string{named, EndOf(a.Plan, link.From, link.FromPort) + " → " + EndOf(a.Plan, link.To, link.ToPort)}
	if !b.HasMargin() {
		return strings.Join(append(said, b.Why()), "\n")
	}
	said = append(said, fmt.Sprintf("%s dB %s: %s", b.Label(), b.Reference(), b.Grade))
	if words := worst(b); words != "" {
		said = append(said, words)
	}
	return strings.Join(said, "\n")
}

func positionTip(a *assess.Assessment, key plan.Key, units words.Units) string {
	position, _ := a.Plan.Positions.Get(key)
	n := 0
	for device := range a.Plan.Devices.All() {
		if device.Position == position.ID {
			n++
		}
	}
	return fmt.Sprintf("%s\nposition of %s, %s × %s: what stands in it moves with it",
		position.Name, words.Counted(n, "device", "devices"), units.Metres(position.Width), units.Metres(position.Depth))
}

// figureMeanings say what a figure of the card is, by its name; {reference} stands for what decibels are taken at.
var figureMeanings = map[string]string{
	"run":               "What the cable has to cover: the way along the ground, the rises at both ends, and slack. Each part is rounded up to a tenth, and the run is their sum.",
	"slack":             "What is taken more than way and rises, so that ends can be turned round and plugged. Common practice, no source; type your own below.",
	"cables":            "All that is laid, whole cables: what stays coiled loses too.",
	"to go":             "What no cable reaches yet.",
	"too short by":      "What no cable reaches yet.",
	"loss":              "What cables and couplers take from the signal {reference}, at the temperature of the cable. Computed from catalogue maxima.",
	"limit":             "The most that the link may lose {reference}, by the rule that grades it.",
	"margin":            "Limit less loss: what is in hand. Ample is twice the wanted margin and more, enough reaches it, tight is under it, over is beyond the limit.",
	"tape":              "The colour of the tape at both ends: the link's own, else that of its loom. The patch on its label shows it.",
	"wanted margin":     "What should be left for age, dirt, bends and heat that nobody foresaw.",
	"cable temperature": "Warm copper loses more: a cable in the sun is hotter than the air.",
	"left on site":      "Links that are not laid, joined or tested yet. The View menu makes the others faint.",
	"still missing":     "The metres of all runs that no cable reaches yet.",
}

// MeaningOf says what a figure of the card is; blank for what says so itself.
func MeaningOf(figure string) string {
	return strings.ReplaceAll(figureMeanings[figure], "{reference}", medium.References(standards.Transports()...))
}

// gradeMeanings say what a grade is.
var gradeMeanings = map[budget.Grade]string{
	budget.Ample:    "twice the wanted margin in hand, or more",
	budget.Enough:   "the wanted margin in hand",
	budget.ToTest:   "the wanted margin in hand, past the metres stated for its transport: test it under the show's load",
	budget.Faulty:   "a cable of it is marked faulty",
	budget.ToLay:    "cable is missing; it would have its margin once that is laid",
	budget.Tight:    "inside the limit, with less in hand than is wanted",
	budget.Over:     "beyond the limit",
	budget.Uncabled: "no cable reaches, and no kind is chosen for it",
	budget.Ungraded: "no loss is reckoned for what the link carries",
}

// Tip says what a piece of the line counts and what a click does.
func (i Item) Tip() string {
	goes := "A click goes to the next one."
	if len(i.Rows) == 0 {
		goes = "There is none."
	}
	if i.Line {
		return fmt.Sprintf("Links that are %s: %s. %s", gradeAdjective(i.Grade), gradeMeanings[i.Grade], goes)
	}
	return fmt.Sprintf("%s. %s", i, goes)
}

func gradeAdjective(grade budget.Grade) string {
	if grade == budget.Ungraded {
		return "without grade"
	}
	return string(grade)
}
