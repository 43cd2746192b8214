package assess

import (
	"cmp"
	"slices"
	"strings"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

// Natural compares two names as a reader sorts them: figures by value, so that L2 stands before L10, letters without
// regard to case. Names that differ in case or leading zeros alone follow their bytes, so that no two are equal.
func Natural(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		numberX, restX := leadingFigures(x)
		numberY, restY := leadingFigures(y)
		if numberX != "" && numberY != "" {
			if c := compareFigures(numberX, numberY); c != 0 {
				return c
			}
			x, y = restX, restY
			continue
		}
		letterX, afterX := leadingLetter(x)
		letterY, afterY := leadingLetter(y)
		if c := strings.Compare(strings.ToLower(letterX), strings.ToLower(letterY)); c != 0 {
			return c
		}
		x, y = afterX, afterY
	}
	if c := cmp.Compare(len(x), len(y)); c != 0 {
		return c
	}
	return strings.Compare(a, b)
}

func leadingFigures(text string) (figures, rest string) {
	end := 0
	for end < len(text) && text[end] >= '0' && text[end] <= '9' {
		end++
	}
	return text[:end], text[end:]
}

func leadingLetter(text string) (letter, rest string) {
	for i := range text {
		if i > 0 {
			return text[:i], text[i:]
		}
	}
	return text, ""
}

// compareFigures compares whole numbers of any length.
func compareFigures(a, b string) int {
	a, b = strings.TrimLeft(a, "0"), strings.TrimLeft(b, "0")
	if c := cmp.Compare(len(a), len(b)); c != 0 {
		return c
	}
	return strings.Compare(a, b)
}

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
