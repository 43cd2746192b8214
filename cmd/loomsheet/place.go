package main

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// describe names a row of a plan as a reader knows it and as a text editor finds it: "link L03, from Stage left A to
// FOH B (k-t4r6b)".
func describe(p *plan.Plan, place checks.Place) string {
	name := thing(place.Table)
	if table, known := plan.TableNamed(place.Table); known {
		if row, found := table.Get(p, place.Key); found {
			name = strings.TrimSpace(name + " " + calledBy(p, row))
		}
	}
	if place.Key == "" { // the settings, or a table as a whole
		return name
	}
	return fmt.Sprintf("%s (%s)", name, place.Key)
}

// whereabouts describes the places of a finding: what it is about first, the others in the order of their names.
func whereabouts(p *plan.Plan, finding checks.Finding) []string {
	var names []string
	for _, place := range finding.Where {
		names = append(names, describe(p, place))
	}
	if len(names) > 1 {
		slices.SortFunc(names[1:], words.Natural)
	}
	return names
}

// thing is a table's name for one of its rows: "house_lines" holds a house line.
func thing(table string) string {
	name := strings.ReplaceAll(table, "_", " ")
	if stem, found := strings.CutSuffix(name, "patches"); found {
		return stem + "patch"
	}
	return strings.TrimSuffix(name, "s")
}

// calledBy is the name of a row, with its ends if it is a link, or the tag of a reel; parts of other rows have none.
func calledBy(p *plan.Plan, row any) string {
	if link, is := row.(plan.Link); is {
		return fmt.Sprintf("%s, from %s to %s", link.Name, end(p, link.From, link.FromPort), end(p, link.To, link.ToPort))
	}
	for _, field := range []string{"Name", "Tag"} {
		if value := reflect.ValueOf(row).FieldByName(field); value.IsValid() {
			return value.String()
		}
	}
	return ""
}

// end names a device and its port.
func end(p *plan.Plan, id plan.DeviceID, port string) string {
	device, _ := p.Device(id)
	return strings.TrimSpace(device.Name + " " + port)
}
