package assess

import (
	"iter"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Links returns the links in the natural order of their names: the order of every table and sheet.
func (a *Assessment) Links() []plan.Link { return a.reading().links }

// InOrder visits the links in the order of Links with their budgets. Both are shared: read them, never write them.
func (a *Assessment) InOrder() iter.Seq2[*plan.Link, *budget.Budget] {
	return func(yield func(*plan.Link, *budget.Budget) bool) {
		order := a.reading()
		for i := range order.links {
			if !yield(&order.links[i], &a.Budgets[order.places[i]]) {
				return
			}
		}
	}
}

// order is links as they are read, and the place of each in the table.
type order struct {
	links  []plan.Link
	places []int
}

func sortLinks(table *plan.Table[plan.Link]) order {
	o := order{slices.Collect(table.All()), make([]int, 0, table.Len())}
	words.SortNatural(o.links, func(l *plan.Link) string { return l.Name }, func(a, b *plan.Link) int {
		return strings.Compare(string(a.ID), string(b.ID))
	})
	places := make(map[plan.LinkID]int, len(o.links))
	for link := range table.All() {
		places[link.ID] = len(places)
	}
	for i := range o.links {
		o.places = append(o.places, places[o.links[i].ID])
	}
	return o
}

// Devices returns the devices in the natural order of their names.
func (a *Assessment) Devices() []plan.Device {
	devices := slices.Collect(a.Plan.Devices.All())
	words.SortNatural(devices, func(d *plan.Device) string { return d.Name }, func(a, b *plan.Device) int {
		return strings.Compare(string(a.ID), string(b.ID))
	})
	return devices
}

// sortFindings puts the worst first, then by what they say, which begins with a name; rules keep their order.
func sortFindings(byRule []checks.Found) (sorted []checks.Finding) {
	for _, severity := range checks.Severities() {
		first := len(sorted)
		for _, found := range byRule {
			for i := range found.Told {
				if found.Told[i].Severity == severity {
					sorted = append(sorted, found.Told[i])
				}
			}
		}
		words.SortNatural(sorted[first:], func(f *checks.Finding) string { return f.What }, func(_, _ *checks.Finding) int { return 0 })
	}
	return sorted
}
