package plantest

import (
	"reflect"
	"strings"

	"stageloom/model/plan"
)

// remove drops a row with all that hangs on it: what may be blank is blanked, what needs the row goes too.
func remove(e *plan.Edit, table *plan.TableInfo, key plan.Key) {
	row, found := table.Get(e.Now(), key)
	if !found {
		return
	}
	switch r := row.(type) {
	case plan.Segment:
		e.SetSegments(r.Link, without(e.Now().SegmentsOf(r.Link), r.Order))
		return
	case plan.LinkPoint:
		e.SetPoints(r.Link, without(e.Now().PointsOf(r.Link), r.Order))
		return
	case plan.KindPort:
		unplug(e, r)
	}
	if strings.HasSuffix(table.Name, "_points") {
		key = lastOf(e.Now(), table, key)
	}
	table.Drop(e, key)
	for _, other := range plan.Tables() {
		for _, c := range columns[other.RowType] {
			if c.ref == table.Name {
				release(e, other, c, string(key))
			}
		}
	}
}

// release takes a key that is gone out of one column of a table.
func release(e *plan.Edit, table *plan.TableInfo, c column, gone string) {
	var hit []any
	for row := range table.Rows(e.Now()) {
		if reflect.ValueOf(row).Field(c.index).String() == gone {
			hit = append(hit, row)
		}
	}
	for _, row := range hit {
		blanked := with(row, c.index, func(v reflect.Value) { v.SetZero() })
		if _, isSegment := row.(plan.Segment); isSegment || !c.optional || table.KeyOf(blanked) != table.KeyOf(row) {
			dropNow(e, table, row)
			continue
		}
		if link, isLink := blanked.(plan.Link); isLink && c.name == "partner" {
			link.Role = ""
			blanked = link
		}
		table.Put(e, blanked)
	}
}

// dropNow removes a row unless an earlier removal has renumbered or taken it.
func dropNow(e *plan.Edit, table *plan.TableInfo, row any) {
	if s, isSegment := row.(plan.Segment); isSegment {
		e.SetSegments(s.Link, nil)
		return
	}
	if strings.HasSuffix(table.Name, "_points") { // the parent is gone, so all its points go
		table.Drop(e, table.KeyOf(row))
		return
	}
	remove(e, table, table.KeyOf(row))
}

func without[R any](parts []R, order int) []R {
	var rest []R
	for i, part := range parts {
		if i != order-1 {
			rest = append(rest, part)
		}
	}
	return rest
}

// lastOf is the key of the last part of the parent that the key's row belongs to.
func lastOf(p *plan.Plan, table *plan.TableInfo, key plan.Key) plan.Key {
	parent := key[:strings.LastIndexByte(string(key), '/')+1]
	for row := range table.Rows(p) {
		if strings.HasPrefix(string(table.KeyOf(row)), string(parent)) {
			key = table.KeyOf(row)
		}
	}
	return key
}

// unplug removes the links that hold a port of a kind.
func unplug(e *plan.Edit, port plan.KindPort) {
	var links []plan.LinkID
	kind := func(id plan.DeviceID) plan.KindID { device, _ := e.Now().Device(id); return device.Kind }
	for link := range e.Now().Links.All() {
		if link.FromPort == port.Name && kind(link.From) == port.Kind || link.ToPort == port.Name && kind(link.To) == port.Kind {
			links = append(links, link.ID)
		}
	}
	e.RemoveLinks(links...)
}
