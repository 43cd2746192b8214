package report

import (
	"fmt"
	"math"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// metres prints a length in tenths of a metre, without its unit.
func metres(length float64) string { return fmt.Sprintf("%.1f", tenth(length)) }

// tenth rounds a length to a tenth of a metre, halves upwards, as spreadsheets show it and budgets add it up.
func tenth(metres float64) float64 { return math.Round(metres*10) / 10 }

// bare is a length without its unit or a needless nought.
func bare(length float64) string { return strings.TrimSuffix(metres(length), ".0") }

// space keeps a figure with its unit, and a port with its word.
const space = "\u00a0"

// length prints the length of a cable, without a needless nought.
func length(metres float64) string { return bare(metres) + space + "m" }

// wholeMetres prints a length in whole metres, rounded up; never a run, which reads the same on every page.
func wholeMetres(metres float64) string {
	return fmt.Sprintf("%.0f"+space+"m", math.Ceil(metres-crumb))
}

// gradeWord is a grade as paper says it.
func gradeWord(grade budget.Grade) string {
	if grade == budget.Over {
		return "over limit"
	}
	return string(grade)
}

// endOf names an end of a link: its device and port.
func endOf(p *plan.Plan, id plan.DeviceID, port string) string {
	device, _ := p.Device(id)
	return device.Name + ", port" + space + strings.ReplaceAll(port, " ", space)
}

// cables lists the cables and couplers of a link from its near end on.
func cables(p *plan.Plan, parts []budget.Part) string {
	var said []string
	for i := range parts {
		if text := partWords(p, &parts[i]); text != "" {
			said = append(said, text)
		}
	}
	return strings.Join(said, " + ")
}

// cablesAndMissing lists the cables of a link, and the metres still missing where no kind is chosen for them.
func cablesAndMissing(p *plan.Plan, b budget.Budget) string {
	said := cables(p, b.Parts)
	if b.Missing <= 0 || b.Assumed() {
		return said
	}
	missing := length(b.Missing) + " missing, no kind chosen"
	if said == "" {
		return missing
	}
	return said + " + " + missing
}

// partWords says one part of a link; joints that are no coupler say nothing.
func partWords(p *plan.Plan, part *budget.Part) string {
	kind, _ := p.CableKinds.Get(plan.Key(part.Kind))
	switch {
	case part.What == budget.Cable && part.Assumed:
		return length(part.Length) + " missing, as " + kind.Name
	case part.What == budget.Cable:
		return length(part.Length) + " " + kind.Name + origin(p, part)
	case part.What == budget.Lead:
		return length(part.Length) + " inner lead " + kind.Name
	case part.What == budget.Panel:
		return "panel " + hardwareName(part.Hardware)
	}
	return ""
}

// origin says where a cable comes from, in brackets: its tag and case, or the venue.
func origin(p *plan.Plan, part *budget.Part) string {
	if line, found := p.HouseLines.Get(plan.Key(part.HouseLine)); found && part.HouseLine != "" {
		return " (house line " + line.Name + ")"
	}
	reel, found := p.Reels.Get(plan.Key(part.Reel))
	if !found || part.Reel == "" {
		return ""
	}
	var said []string
	if reel.Tag != "" {
		said = append(said, reel.Tag)
	}
	if box, found := p.Cases.Get(plan.Key(reel.Case)); found && reel.Case != "" {
		said = append(said, box.Name)
	}
	if len(said) == 0 {
		return ""
	}
	return " (" + strings.Join(said, ", ") + ")"
}

func hardwareName(id plan.HardwareID) string {
	hardware, err := standards.HardwareBySlug(standards.HardwareSlug(id))
	if err != nil {
		return string(id)
	}
	return hardware.Name
}

// wanting stands for a run whose metres nobody gave: rises and slack alone are no length to lay by.
const wanting = "no metres yet"

// runWords is the run of a budget with where its metres are from: "69.1 m paced".
func runWords(b budget.Budget, length func(float64) string) string {
	if b.Measured.Wanting() {
		return wanting
	}
	return length(b.Run) + " " + b.Measured.Words()
}

// runIn is the run of a budget within a sentence: "69.1 m (paced)".
func runIn(b budget.Budget, length func(float64) string) string {
	if b.Measured.Wanting() {
		return wanting
	}
	return length(b.Run) + " (" + b.Measured.Words() + ")"
}

// runAlone is the run of a budget without its unit; blank where nobody gave its metres.
func runAlone(b budget.Budget) string {
	if b.Measured.Wanting() {
		return ""
	}
	return metres(b.Run)
}

// runParts says of what a run is the sum, with where its way has its metres from.
func runParts(b budget.Budget) string {
	if b.Measured.Wanting() {
		return wanting
	}
	return fmt.Sprintf("%s + %s + %s, %s", metres(b.Way), metres(b.Rises), metres(b.Slack), b.Measured.Words())
}
