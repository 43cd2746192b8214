package assess

import (
	"cmp"
	"slices"
	"strings"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

// Natural compares two names as a reader sorts them, L2 before L10: checks.Natural, for rooms that see assessments only.
func Natural(a, b string) int { return checks.Natural(a, b) }

// Links returns the links in the natural order of their names: the order of every table and sheet.
func (a *Assessment) Links() []plan.Link { return a.reading() }

func sortLinks(p *plan.Plan) []plan.Link {
	links := slices.Collect(p.Links.All())
	slices.SortFunc(links, func(x, y plan.Link) int {
		return cmp.Or(Natural(x.Name, y.Name), strings.Compare(string(x.ID), string(y.ID)))
	})
	return links
}

// Devices returns the devices in the natural order of their names.
func (a *Assessment) Devices() []plan.Device {
	devices := slices.Collect(a.Plan.Devices.All())
	slices.SortFunc(devices, func(x, y plan.Device) int {
		return cmp.Or(Natural(x.Name, y.Name), strings.Compare(string(x.ID), string(y.ID)))
	})
	return devices
}

// sortFindings puts the worst first, then by what they say, which begins with a name; rules keep their order.
func (a *Assessment) sortFindings() {
	slices.SortStableFunc(a.Findings, func(x, y checks.Finding) int {
		return cmp.Or(cmp.Compare(x.Severity, y.Severity), Natural(x.What, y.What))
	})
}
