package budget

import "stageloom/model/plan"

// Touched is what an edit touched, as far as budgets read it.
type Touched struct {
	// All tells that any link may have another budget.
	All bool
	// Links are otherwise those that may, and those that are gone: their row, cables, way points or ends differ, or those of their partner or of
	// another piece of their line.
	Links map[plan.LinkID]bool
	// Plugged tells that the edit changed which links and devices there are, how they are called, what kind a device is, or
	// what a link carries between which ports. Without it things only lie or stand otherwise.
	Plugged bool
}

// Has reports whether a link may have another budget.
func (t *Touched) Has(id plan.LinkID) bool { return t.All || t.Links[id] }

// byRow are the tables that are compared row by row; a change in any other that budgets read touches all links.
var byRow = map[string]bool{plan.PositionsTable: true, plan.DevicesTable: true, plan.LinksTable: true, plan.LinkPointsTable: true, plan.SegmentsTable: true}

// TouchedSince tells what the edit touched that made the reckoner's plan of the one before, whose budgets are given.
func (r *Reckoner) TouchedSince(before *plan.Plan, budgets []Budget) *Touched {
	t := &touching{Touched: Touched{Links: map[plan.LinkID]bool{}}, before: before, now: r.plan, devices: map[plan.DeviceID]bool{}}
	t.All = before.Settings != r.plan.Settings
	for _, name := range Tables() {
		table, _ := plan.TableNamed(name)
		t.All = t.All || !byRow[name] && !table.Same(before, r.plan)
	}
	t.gatherDevices()
	t.gatherLinks()
	switch {
	case t.All || r.passages.through == nil:
	case t.Plugged || t.guestStandsOtherwise():
		t.All = true // lines may go on otherwise, or lose more in a tail
	default:
		// What a line is told of is told once, at one of its pieces: a partner brings its whole line along.
		for before := -1; before < len(t.Links); {
			before = len(t.Links)
			t.partners()
			t.lines(budgets)
		}
	}
	t.partners()
	return &t.Touched
}

// touching gathers what an edit touched.
type touching struct {
	Touched
	before, now *plan.Plan
	devices     map[plan.DeviceID]bool
}

// gatherDevices finds the devices that differ, or whose position does.
func (t *touching) gatherDevices() {
	plan.Differ(t.before.Devices, t.now.Devices, func(was, is *plan.Device) {
		if was == nil || is == nil {
			t.Plugged = true
			return
		}
		t.devices[is.ID] = true
		t.Plugged = t.Plugged || was.Name != is.Name || was.Kind != is.Kind
	})
	positions := map[plan.PositionID]bool{}
	plan.Differ(t.before.Positions, t.now.Positions, func(_, is *plan.Position) {
		if is != nil {
			positions[is.ID] = true
		}
	})
	if len(positions) == 0 {
		return
	}
	for device := range t.now.Devices.All() {
		if device.Position != "" && positions[device.Position] {
			t.devices[device.ID] = true
		}
	}
}

// gatherLinks finds the links that differ, by themselves, in a part of theirs, or by an end.
func (t *touching) gatherLinks() {
	plan.Differ(t.before.Links, t.now.Links, func(was, is *plan.Link) {
		if was == nil || is == nil || was.Plug() != is.Plug() {
			t.Plugged = true
		}
		t.Links[either(was, is).ID] = true
	})
	plan.Differ(t.before.LinkPoints, t.now.LinkPoints, func(was, is *plan.LinkPoint) { t.Links[either(was, is).Link] = true })
	plan.Differ(t.before.Segments, t.now.Segments, func(was, is *plan.Segment) { t.Links[either(was, is).Link] = true })
	if len(t.devices) == 0 {
		return
	}
	for link := range t.now.Links.All() {
		if t.devices[link.From] || t.devices[link.To] {
			t.Links[link.ID] = true
		}
	}
}

func either[R any](was, is *R) *R {
	if is == nil {
		return was
	}
	return is
}

// guestStandsOtherwise reports whether a guest's console differs, at whose tail a line may end.
func (t *touching) guestStandsOtherwise() bool {
	for guest := range t.now.ActConsoles.All() {
		if t.devices[guest.Console] {
			return true
		}
	}
	return false
}

// lines adds the other pieces of the lines that touched links are part of, until none is added.
func (t *touching) lines(budgets []Budget) {
	for grown := true; grown; {
		grown = false
		for i := range budgets {
			if budgets[i].Whole == nil {
				continue
			}
			pieces := append(budgets[i].Whole.Links(), budgets[i].Link)
			some, all := false, true
			for _, id := range pieces {
				some, all = some || t.Links[id], all && t.Links[id]
			}
			if some && !all {
				grown = true
				for _, id := range pieces {
					t.Links[id] = true
				}
			}
		}
	}
}

// partners adds the partner of each touched link: rules look at the two together.
func (t *touching) partners() {
	var partners []plan.LinkID
	for id := range t.Links {
		if link, _ := t.now.Link(id); link.Partner != "" {
			partners = append(partners, link.Partner)
		}
	}
	for _, id := range partners {
		t.Links[id] = true
	}
}

// Next reckons every link of the plan as All does, where it is the plan that an edit made of the one before, whose budgets
// are given: those that it did not touch are taken over.
func (r *Reckoner) Next(before []Budget, t *Touched) []Budget {
	switch {
	case t.All:
		return r.All()
	case len(t.Links) == 0 && len(before) == r.plan.Links.Len():
		return before
	}
	p := r.plan
	budgets := make([]Budget, p.Links.Len())
	var anew pieces
	var links []plan.Link
	var places []int
	anew.place = make(map[plan.LinkID]int, len(t.Links))
	parts := &chain{reckoner: r}
	for i, at := 0, 0; i < len(budgets); i++ {
		link := p.Links.At(i)
		for at < len(before) && before[at].Link < link.ID {
			at++
		}
		if !t.Links[link.ID] {
			budgets[i] = before[at]
			continue
		}
		anew.place[link.ID] = len(links)
		links, places = append(links, link), append(places, i)
		anew.budgets = append(anew.budgets, r.own(&link, parts))
	}
	if r.passages.through != nil {
		anew.link, anew.others = func(i int) *plan.Link { return &links[i] }, r.once()
		r.wholes(&anew)
	}
	for i, at := range places {
		budgets[at] = anew.budgets[i]
	}
	return budgets
}
