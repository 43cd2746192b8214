package text

import (
	"fmt"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/revision"
	"stageloom/model/standards"
	"stageloom/model/words"
)

func ruleName(id plan.RuleID) string {
	if rule, err := standards.LimitRuleBySlug(standards.RuleSlug(id)); err == nil {
		return rule.Name
	}
	return string(id)
}

func place(units words.Units, at geom.Point) string {
	return fmt.Sprintf("%s, %s", units.Metres(at.X), units.Metres(at.Y))
}

// inTheList stands for the coordinates of what has no place.
const inTheList = "in the list, no place on the ground"

func deviceCard(a *assess.Assessment, id plan.DeviceID, units words.Units, preview Preview) Card {
	device, _ := a.Plan.Device(id)
	kind, _ := a.Plan.Kinds.Get(plan.Key(device.Kind))
	c := Card{Title: device.Name, Kind: kind.Group, Subtitle: kind.Name, Findings: a.FindingsAt(plan.DevicesTable, device.Key())}
	position, _ := a.Plan.Positions.Get(plan.Key(device.Position))
	at, moves := device.At(), preview.Moving.Devices[id] && preview.By != (geom.Point{})
	if moves {
		at = at.Add(preview.By)
	}
	if device.Unplaced && !moves {
		c.add("place", inTheList, position.Name)
	} else {
		c.add("place", place(units, at), position.Name)
	}
	if kind.Inputs+kind.Outputs > 0 {
		c.add("sockets", fmt.Sprintf("%d in / %d out", kind.Inputs, kind.Outputs), "")
	}
	c.addKind(kind)
	c.ports(a, device)
	return c
}

// ports tells where each port leads, and in one row which are free.
func (c *Card) ports(a *assess.Assessment, device plan.Device) {
	id, parted := device.ID, " "
	var free []string
	for _, port := range a.Plan.Ports(device.Kind) {
		var last Figure
		for link := range a.Plan.Links.All() {
			switch {
			case link.IsSpare():
			case link.From == id && link.FromPort == port.Name:
				last.Value, last.Note = portValue(a, link), "to "+EndOf(a.Plan, link.To, link.ToPort)
			case link.To == id && link.ToPort == port.Name:
				last.Value, last.Note = portValue(a, link), "to "+EndOf(a.Plan, link.From, link.FromPort)
			}
		}
		if last.Value != "" {
			c.add("port "+port.Name, last.Value, last.Note)
			continue
		}
		free = append(free, port.Name)
		if strings.Contains(port.Name, " ") {
			parted = ", "
		}
	}
	if len(free) > 0 {
		c.add("", "", "free: "+strings.Join(free, parted))
	}
}

// addKind says what the kind states of clock, delay and mains, as far as it does.
func (c *Card) addKind(kind plan.Kind) {
	if words := map[string]string{"own": "can lead", "follows": "follows"}[kind.Clock]; words != "" {
		c.add("clock", words, "")
	}
	if kind.LatencyMS > 0 {
		c.add("latency", fmt.Sprintf("%.4g ms", kind.LatencyMS), "as its kind states")
	}
	if kind.PowerW > 0 {
		c.add("draws", fmt.Sprintf("%.0f W", kind.PowerW), "as its kind states")
	}
}

func portValue(a *assess.Assessment, link plan.Link) string {
	b, _ := a.Budget(link.ID)
	if label := b.Label(); label != "" {
		return link.Name + " " + label
	}
	return link.Name
}

func positionCard(a *assess.Assessment, id plan.PositionID, units words.Units, preview Preview) Card {
	position, _ := a.Plan.Positions.Get(plan.Key(id))
	c := Card{Title: position.Name, Kind: "position", Findings: a.FindingsAt(plan.PositionsTable, position.Key())}
	at := position.At()
	if preview.Moving.Positions[id] {
		at = at.Add(preview.By)
	}
	if position.Unplaced {
		c.add("place", inTheList, "")
	} else {
		c.add("place", place(units, at), "the middle of its outline")
	}
	for device := range a.Plan.Devices.All() {
		if device.Position == id {
			kind, _ := a.Plan.Kinds.Get(plan.Key(device.Kind))
			c.add(device.Name, "", kind.Name)
		}
	}
	return c
}

// leftOnSite counts the links that are not laid, joined and tested yet; blank before anything is done.
func leftOnSite(p *plan.Plan) (value, note string) {
	left, begun := map[string]int{}, false
	for link := range p.Links.All() {
		begun = begun || link.Done != ""
		for _, step := range plan.Steps() {
			if !link.Is(step) {
				left[step]++
			}
		}
	}
	switch {
	case !begun:
		return "", ""
	case left[plan.Tested] == 0:
		return "nothing", "all links are laid, joined and tested"
	}
	return fmt.Sprintf("%d to test", left[plan.Tested]), fmt.Sprintf("%d of them to lay, %d to join", left[plan.Laid], left[plan.Joined])
}

func planCard(a *assess.Assessment, units words.Units) Card {
	s, t := a.Plan.Settings, a.Totals
	c := Card{Title: s.Name, Kind: "plan", Subtitle: s.Site}
	standing := revision.StandingOf(a.Plan)
	c.add("revision", standing.Mark(), standing.Date())
	c.add(plan.DevicesTable, fmt.Sprint(a.Plan.Devices.Len()), "")
	c.add(plan.LinksTable, fmt.Sprint(t.Links), "")
	laid, missing := a.SumIn(units.Unit())
	c.add("cable", units.Metres(laid), fmt.Sprintf("%s between cables", joins(t.Joins)))
	if missing > 0 {
		c.add("still missing", units.Metres(missing), "metres of run that no cable reaches yet")
	}
	if value, note := leftOnSite(a.Plan); value != "" {
		c.add("left on site", value, note)
	}
	temperature, note := "by place", "indoors 30, shade 40, sun worst air + 20 °C"
	if s.Temperature.Set {
		temperature, note = quantity.PrintTemperature(s.Temperature.Value, units.Temperature, 0), "set for the plan"
	}
	c.add("cable temperature", temperature, note)
	wanted, why := "1.5 or 3 dB", "3 dB where the temperature is under the default"
	if s.WantedMargin.Set {
		wanted, why = fmt.Sprintf("%.1f dB", s.WantedMargin.Value), "set for the plan"
	}
	c.add("wanted margin", wanted, why)
	return c
}

// GradeWord is a grade in words for the screen.
func GradeWord(grade budget.Grade) string {
	if grade == budget.Ungraded {
		return "no grade"
	}
	return string(grade)
}
