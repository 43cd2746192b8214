package plantest

import (
	"reflect"

	"pgregory.net/rapid"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Change is a random edit with a name for the log.
type Change struct {
	Name string
	Do   func(*plan.Edit) error
}

// Edit draws an edit that means to be valid. Few are refused all the same, when it hits a rule that spans rows;
// the caller tries the next.
func Edit(t *rapid.T, p *plan.Plan, ids *plan.IDSource) Change {
	removals := 1
	if rows(p) > 150 {
		removals = 6 // keeps plans small, so that many edits fit in a test
	}
	switch pick := rapid.IntRange(0, 9+removals).Draw(t, "sort of edit"); {
	case pick < 4:
		return add(t, p, ids)
	case pick < 8:
		return FieldChange(t, p)
	case pick < 10:
		return semantic(t, p)
	}
	return removal(t, p)
}

// Plan draws a plan that so many edits have made.
func Plan(t *rapid.T, edits int) *plan.Plan {
	ids := plan.NewIDSource(rapid.Uint64().Draw(t, "seed of ids"), 0)
	p := plan.New("Random")
	for range edits {
		if next, err := plan.Do(p, ids, Edit(t, p, ids).Do); err == nil {
			p = next
		}
	}
	return p
}

func rows(p *plan.Plan) int {
	sum := 0
	for _, table := range plan.Tables() {
		sum += table.Len(p)
	}
	return sum
}

func anyTable(t *rapid.T) *plan.TableInfo {
	return plan.Tables()[rapid.IntRange(0, len(plan.Tables())-1).Draw(t, "table")]
}

// add draws a new row, first of a table that it can stand on.
func add(t *rapid.T, p *plan.Plan, ids *plan.IDSource) Change {
	table := anyTable(t)
	row, found := Row(t, p, ids, table)
	for !found {
		table = plan.Tables()[rapid.IntRange(0, 13).Draw(t, "ground")]
		row, found = Row(t, p, ids, table)
	}
	return Change{"add to " + table.Name, func(e *plan.Edit) error {
		table.Put(e, row)
		return nil
	}}
}

// FieldChange draws one field of one row, or of the settings, and a new value for it, which may be the old one.
func FieldChange(t *rapid.T, p *plan.Plan) Change {
	table := anyTable(t)
	row, found := anyRow(t, p, table)
	if !found {
		return changeSettings(t, p)
	}
	c := rapid.SampledFrom(columns[table.RowType]).Draw(t, "column")
	fits := true
	changed := with(row, c.index, func(v reflect.Value) { fits = c.draw(t, p, v) })
	if !fits || c.name == "partner" || c.name == "role" && table.Name == plan.LinksTable || table.KeyOf(changed) != table.KeyOf(row) {
		return changeSettings(t, p)
	}
	return Change{"change " + table.Name + " " + c.name, func(e *plan.Edit) error {
		table.Put(e, changed)
		return nil
	}}
}

func changeSettings(t *rapid.T, p *plan.Plan) Change {
	c := rapid.SampledFrom(columns[reflect.TypeFor[plan.Settings]()]).Draw(t, "setting")
	changed := with(p.Settings, c.index, func(v reflect.Value) { c.draw(t, p, v) })
	return Change{"change setting " + c.name, func(e *plan.Edit) error {
		e.SetSettings(changed.(plan.Settings))
		return nil
	}}
}

func removal(t *rapid.T, p *plan.Plan) Change {
	table := anyTable(t)
	key, _ := anyKey(t, p, table.Name)
	return Change{"remove from " + table.Name, func(e *plan.Edit) error {
		remove(e, table, key)
		return nil
	}}
}

// semantic draws one of the edits of package plan.
func semantic(t *rapid.T, p *plan.Plan) Change {
	device, link, reel, position, kind := anyID[plan.DeviceID](t, p, plan.DevicesTable), anyID[plan.LinkID](t, p, plan.LinksTable),
		anyID[plan.ReelID](t, p, plan.ReelsTable), anyID[plan.PositionID](t, p, plan.PositionsTable), anyID[plan.KindID](t, p, plan.KindsTable)
	line := anyID[plan.HouseLineID](t, p, plan.HouseLinesTable)
	by := geom.Pt(rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(-50, 50).Draw(t, "y"))
	list := []Change{
		{"move", func(e *plan.Edit) error {
			e.Move(plan.MovingWith(p, []plan.DeviceID{device}, []plan.PositionID{position}), by)
			return nil
		}},
		{"add device", func(e *plan.Edit) error {
			e.AddDevice(plan.Device{Kind: kind, X: by.X, Y: by.Y, Position: position})
			return nil
		}},
		{"remove device", func(e *plan.Edit) error { e.RemoveDevices(device); return nil }},
		{"remove position", func(e *plan.Edit) error { e.RemovePosition(position); return nil }},
		{"remove link", func(e *plan.Edit) error { e.RemoveLinks(link); return nil }},
		{"remove reel", func(e *plan.Edit) error { return e.RemoveReel(reel) }},
		{"replace kind", func(e *plan.Edit) error { return e.ReplaceKind(device, kind) }},
		{"reverse", func(e *plan.Edit) error { return e.Reverse(link) }},
		{"draw", func(e *plan.Edit) error { return e.Draw(link, []geom.Point{by, {X: by.Y, Y: by.X}}) }},
		{"straighten", func(e *plan.Edit) error { return e.Draw(link, nil) }},
		{"unpair", func(e *plan.Edit) error { e.Unpair(link); return nil }},
		{"pair", func(e *plan.Edit) error { return e.Pair(link, otherLink(e.Now(), link)) }},
		{"add link", func(e *plan.Edit) error { return addLink(e) }},
		{"mark done", func(e *plan.Edit) error { return e.MarkDone(link, plan.Tested, true) }},
		{"add a spare", func(e *plan.Edit) error { return addSpare(e, link) }},
		{"take over", func(e *plan.Edit) error { return takeOver(e, link) }},
		{"turn back", func(e *plan.Edit) error { return turnBack(e, link) }},
		{"stand in", func(e *plan.Edit) error { return standIn(e, link) }},
		{"mark a house line", func(e *plan.Edit) error { return markLine(e, line) }},
		{"take a cable off", func(e *plan.Edit) error { return e.RemoveSegment(link, 1) }},
	}
	return rapid.SampledFrom(list).Draw(t, "edit")
}

func anyID[T ~string](t *rapid.T, p *plan.Plan, table string) T {
	key, _ := anyKey(t, p, table)
	return T(key)
}

func otherLink(p *plan.Plan, link plan.LinkID) plan.LinkID {
	for other := range p.Links.All() {
		if other.ID != link {
			link = other.ID
		}
	}
	return link
}

func addLink(e *plan.Edit) error {
	if free := freeEnds(e.Now()); len(free) > 1 {
		from, to := free[0], free[len(free)-1]
		e.AddLink(plan.Link{Transport: "aes50", From: from.device, FromPort: from.port, To: to.device, ToPort: to.port})
	}
	return nil
}

func addSpare(e *plan.Edit, beside plan.LinkID) error {
	if !e.Now().Links.Has(plan.Key(beside)) {
		return nil
	}
	id, err := e.AddSpare(beside)
	if err != nil {
		return err
	}
	for kind := range e.Now().CableKinds.All() {
		e.SetSegments(id, []plan.Segment{{Kind: kind.ID, Length: 40}})
	}
	return nil
}

func takeOver(e *plan.Edit, dead plan.LinkID) error {
	for _, spare := range e.Now().SparesFor(dead) {
		return e.TakeOver(dead, spare.ID, plan.Mark{FoundAt: "FOH"})
	}
	return nil
}

func turnBack(e *plan.Edit, link plan.LinkID) error {
	for _, spare := range e.Now().SparesFor(link) {
		return e.TurnBack(link, spare.ID)
	}
	return nil
}

// standIn names a link to the first spare that could take it over.
func standIn(e *plan.Edit, link plan.LinkID) error {
	for _, spare := range e.Now().SparesFor(link) {
		return e.StandIn(spare.ID, link)
	}
	return nil
}

func markLine(e *plan.Edit, line plan.HouseLineID) error {
	if !e.Now().HouseLines.Has(plan.Key(line)) {
		return nil
	}
	return e.MarkHouseLine(line, plan.Mark{Condition: plan.Faulty, Reason: "dead"})
}
