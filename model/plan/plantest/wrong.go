package plantest

import (
	"math"
	"reflect"
	"strings"

	"pgregory.net/rapid"

	"stageloom/model/plan"
)

// Wrong draws an edit that every plan must refuse.
func Wrong(t *rapid.T, p *plan.Plan, ids *plan.IDSource) Change {
	tries := []func(*rapid.T, *plan.Plan, *plan.IDSource) (Change, bool){badField, dangling, breach, orphan, cableTwice}
	if change, found := rapid.SampledFrom(tries).Draw(t, "sort of wrong")(t, p, ids); found {
		return change
	}
	return badSetting(t, p)
}

func put(name string, table *plan.TableInfo, row any) Change {
	return Change{name, func(e *plan.Edit) error {
		table.Put(e, row)
		return nil
	}}
}

// badField puts a value into a field that its tags forbid.
func badField(t *rapid.T, p *plan.Plan, _ *plan.IDSource) (Change, bool) {
	table := anyTable(t)
	row, found := anyRow(t, p, table)
	if !found {
		return Change{}, false
	}
	c := rapid.SampledFrom(columns[table.RowType]).Draw(t, "column")
	spoilt := false
	bad := with(row, c.index, func(v reflect.Value) { spoilt = c.spoil(t, v) })
	return put("spoil "+table.Name+" "+c.name, table, bad), spoilt
}

func badSetting(t *rapid.T, p *plan.Plan) Change {
	settings := p.Settings
	settings.Detour = rapid.SampledFrom([]float64{0, 3.1, math.NaN(), math.Inf(1)}).Draw(t, "detour")
	return Change{"spoil a setting", func(e *plan.Edit) error {
		e.SetSettings(settings)
		return nil
	}}
}

// spoil sets a field to a value its tags forbid; false where they allow all values.
func (c column) spoil(t *rapid.T, field reflect.Value) bool {
	switch field.Kind() {
	case reflect.String:
		if c.delta || c.ref != "" {
			return false
		}
		field.SetString(c.badText(t))
	case reflect.Int:
		field.SetInt(rapid.SampledFrom([]int64{int64(c.low) - 1, int64(c.high) + 1, math.MinInt32, math.MaxInt32}).Draw(t, c.name))
	case reflect.Float64:
		field.SetFloat(c.badFigure(t))
	case reflect.Struct:
		field.Set(reflect.ValueOf(plan.Some(c.badFigure(t))))
	default:
		return false
	}
	return true
}

func (c column) badFigure(t *rapid.T) float64 {
	return rapid.SampledFrom([]float64{c.low - 1, c.high + 1, math.NaN(), math.Inf(1), math.Inf(-1), 1e300}).Draw(t, c.name)
}

func (c column) badText(t *rapid.T) string {
	bad := []string{"\x00", "\xff", "line\rfeed", strings.Repeat("x", 4001)}
	if !c.optional {
		bad = append(bad, "")
	}
	return rapid.SampledFrom(bad).Draw(t, c.name)
}

// dangling makes a row name another that is not there.
func dangling(t *rapid.T, p *plan.Plan, _ *plan.IDSource) (Change, bool) {
	table := anyTable(t)
	row, found := anyRow(t, p, table)
	if !found {
		return Change{}, false
	}
	for _, c := range columns[table.RowType] {
		if c.ref != "" {
			bad := with(row, c.index, func(v reflect.Value) { v.SetString("q-nnnnn") })
			return put("dangle "+table.Name+" "+c.name, table, bad), true
		}
	}
	return Change{}, false
}

// breach breaks a rule that spans rows.
func breach(t *rapid.T, p *plan.Plan, ids *plan.IDSource) (Change, bool) {
	links, _ := plan.TableNamed(plan.LinksTable)
	row, found := anyRow(t, p, links)
	if !found {
		return Change{}, false
	}
	link := row.(plan.Link)
	if link.IsSpare() { // which occupies no port
		return Change{}, false
	}
	double, loner, unplugged := link, link, link
	double.ID = plan.LinkID(ids.Next("k", func(id string) bool { return links.Has(p, plan.Key(id)) }))
	double.Partner = ""
	loner.Partner = link.ID
	unplugged.FromPort = "no such port"
	return rapid.SampledFrom([]Change{
		put("plug two links into one port", links, double),
		put("pair a link with itself", links, loner),
		put("plug into a port that is not there", links, unplugged),
		{"leave a gap between segments", func(e *plan.Edit) error {
			plan.Put(e, plan.Segment{Link: link.ID, Order: len(p.SegmentsOf(link.ID)) + 2})
			return nil
		}},
		{"pair a link with itself by name", func(e *plan.Edit) error { return e.Pair(link.ID, link.ID) }},
	}).Draw(t, "breach"), true
}

// cableTwice puts a cable that there is once into a second place of its link.
func cableTwice(t *rapid.T, p *plan.Plan, _ *plan.IDSource) (Change, bool) {
	var single []plan.Segment
	for segment := range p.Segments.All() {
		reel, found := p.Reels.Get(plan.Key(segment.Reel))
		if segment.HouseLine != "" || found && reel.Count() == 1 {
			single = append(single, segment)
		}
	}
	if len(single) == 0 {
		return Change{}, false
	}
	segment := rapid.SampledFrom(single).Draw(t, "segment")
	segment.Order = len(p.SegmentsOf(segment.Link)) + 1
	return Change{"lay one cable twice", func(e *plan.Edit) error {
		plan.Put(e, segment)
		return nil
	}}, true
}

// orphan drops a row that another needs, and nothing else.
func orphan(t *rapid.T, p *plan.Plan, _ *plan.IDSource) (Change, bool) {
	table := anyTable(t)
	row, found := anyRow(t, p, table)
	if !found {
		return Change{}, false
	}
	for _, c := range columns[table.RowType] {
		key := plan.Key("")
		if c.ref != "" {
			key = plan.Key(reflect.ValueOf(row).Field(c.index).String())
		}
		if key != "" && (c.ref != table.Name || key != table.KeyOf(row)) { // one that names itself goes with its need
			parent, _ := plan.TableNamed(c.ref)
			return Change{"orphan " + table.Name + " " + c.name, func(e *plan.Edit) error {
				parent.Drop(e, key)
				return nil
			}}, true
		}
	}
	return Change{}, false
}
