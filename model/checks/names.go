package checks

import (
	"fmt"

	"stageloom/model/plan"
)

func doubleName(s *Subject) []Finding {
	var links, devices []bearer
	for link := range s.Plan.Links.All() {
		links = append(links, bearer{link.Name, Place{plan.LinksTable, link.Key()}})
	}
	for device := range s.Plan.Devices.All() {
		devices = append(devices, bearer{device.Name, Place{plan.DevicesTable, device.Key()}})
	}
	return append(doubles(plan.LinksTable, links), doubles(plan.DevicesTable, devices)...)
}

// retiredName finds links that bear a name which stands for another on an issued revision: plans from before names were
// retired have them.
func retiredName(s *Subject) (found []Finding) {
	for link := range s.Plan.Links.All() {
		if letter, retired := s.Plan.RetiredLinkName(link.Name, link.ID); retired {
			found = append(found, Finding{
				Severity: Warn, Where: at(&link),
				What:   fmt.Sprintf("%s stood for another link on revision %s", link.Name, letter),
				Remedy: "Give it a name that was never issued: the crew may still hold that sheet, and labels of that name may still hang on cables.",
			})
		}
	}
	return found
}

// bearer is a row and its name.
type bearer struct {
	name  string
	place Place
}

// doubles finds the names that more than one row bears, whatever their capitals and blanks, in the order of their first
// bearer.
func doubles(what string, bearers []bearer) (found []Finding) {
	places := map[string][]Place{}
	for _, b := range bearers {
		places[plan.Folded(b.name)] = append(places[plan.Folded(b.name)], b.place)
	}
	for _, b := range bearers {
		if same := places[plan.Folded(b.name)]; len(same) > 1 && same[0] == b.place {
			found = append(found, Finding{
				Severity: Warn, Where: same,
				What:   fmt.Sprintf("%s is the name of %d %s", b.name, len(same), what),
				Remedy: "Give each its own name: labels and sheets go by it.",
			})
		}
	}
	return found
}
