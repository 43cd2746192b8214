package strip

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/standards"
)

// Of says what the strip shows of a link with a budget, which may be a preview's. Lengths are told in the system.
func Of(p *plan.Plan, link plan.Link, b budget.Budget, system quantity.System) Run {
	unit := 1.0
	if system == quantity.Imperial {
		unit = quantity.Foot
	}
	b = b.Printed(unit)
	r := Run{
		Title: "Run of " + link.Name,
		Near:  endOf(p, link.From, link.FromPort), Far: endOf(p, link.To, link.ToPort),
		Length: b.Run, Graded: b.Graded, HasMargin: b.HasMargin(), Grade: string(b.Standing()),
		LimitDB: b.LimitDB, MarginDB: b.MarginDB, System: system,
	}
	o := observer{p, link, b, system}
	r.Note = o.note()
	for i, part := range b.Parts {
		r.Parts = append(r.Parts, o.part(part, i))
	}
	if b.Missing > 0 && !b.Assumed() {
		r.Parts = o.withMissing(r.Parts)
	}
	r.Parts = o.around(r.Parts)
	if part := b.PartIn(o.needed); part != "" {
		r.Title += ", " + part
		r.Length = b.Whole.Run
	}
	if b.Bare() && !b.PartOf() {
		r.Hint = "No cable yet: pick some for this link."
	}
	return r
}

func endOf(p *plan.Plan, id plan.DeviceID, port string) End {
	device, _ := p.Device(id)
	return End{Name: device.Name, Port: "port " + port}
}

// observer finds the words for the parts of a budget.
type observer struct {
	plan   *plan.Plan
	link   plan.Link
	budget budget.Budget
	system quantity.System
}

// length prints metres in tenths, whole ones without.
func (o observer) length(metres float64) string {
	return strings.Replace(quantity.PrintLength(metres, o.system, 1), ".0 ", " ", 1)
}

// needed prints metres of a run, or missing of it, rounded up to a tenth as card, findings and paper do.
func (o observer) needed(metres float64) string { return o.length(roundedUp(metres, o.system)) }

// roundedUp is a length to the next tenth of its unit.
func roundedUp(metres float64, system quantity.System) float64 {
	unit, forgiven := 1.0, 1e-6
	if system == quantity.Imperial {
		unit, forgiven = quantity.Foot, 0.05 // a metric cable is no longer than it prints
	}
	return math.Ceil(metres/unit*10-forgiven) / 10 * unit
}

// note tells how cable and run compare.
func (o observer) note() string {
	b := o.budget
	note := ""
	switch {
	case b.Bare():
		note = fmt.Sprintf("%s to go", o.runOf())
	case b.Missing > 0:
		note = fmt.Sprintf("%s of cable for a run of %s: %s too short", o.length(b.Laid), o.runOf(), o.needed(b.Missing))
	case b.Laid-b.Run < 0.05:
		note = fmt.Sprintf("%s of cable for a run of %s", o.length(b.Laid), o.runOf())
	default:
		note = fmt.Sprintf("%s of cable for a run of %s: %s stay coiled", o.length(b.Laid), o.runOf(), o.length(b.Laid-b.Run))
		if b.Graded {
			note += " and still count"
		}
	}
	if b.Assumed() {
		note += ", reckoned as " + o.kind(b.Fill)
	}
	if !b.Graded {
		note += fmt.Sprintf(" · %s carries no loss budget here", b.TransportName)
	}
	return note
}

// runOf is the run with where its metres have come from.
func (o observer) runOf() string {
	return fmt.Sprintf("%s (%s)", o.needed(o.budget.Run), o.budget.Measured.Words())
}

func (o observer) kind(id plan.CableKindID) string {
	kind, found := o.plan.CableKinds.Get(plan.Key(id))
	if !found {
		return string(id)
	}
	return kind.Name
}

// withMissing adds the metres that no cable reaches, before the panel and the lead at the far end.
func (o observer) withMissing(parts []Part) []Part {
	beyond := 0
	if o.link.ToPanel != "" {
		beyond++
		if o.link.ToLead > 0 {
			beyond++
		}
	}
	at := len(parts) - beyond
	length := o.needed(o.budget.Missing)
	missing := Part{
		What: budget.Cable, Assumed: true, Unknown: true, Length: o.budget.Missing,
		Labels: []string{length + " missing · no kind of cable chosen", length + " missing", length},
		Detail: length + " that no cable reaches; choose a kind of cable for the rest to see how it would grade",
	}
	if at > 0 {
		missing.Start, missing.BeforeDB = parts[at-1].end(), parts[at-1].BeforeDB+parts[at-1].LossDB
	}
	for i := at; i < len(parts); i++ {
		parts[i].Start += missing.Length
	}
	return slices.Insert(parts, at, missing)
}

// part finds the words for one part.
func (o observer) part(part budget.Part, index int) Part {
	told := Part{
		What: part.What, Order: part.Order, Assumed: part.Assumed, Start: part.Start, Length: part.Length,
		BeforeDB: part.BeforeDB, LossDB: part.LossDB, Unknown: part.Unknown,
		Cuttable: part.What == budget.Cable && part.Order > 0 && !part.Assumed && part.Reel == "" && part.HouseLine == "",
	}
	if told.joint() {
		o.joint(&told, part)
	} else {
		o.cable(&told, part)
	}
	switch {
	case part.Unknown:
		told.Detail += " · its loss is not known on this transport"
	case o.budget.Graded:
		told.Detail += fmt.Sprintf(" · %s dB", budget.LossTenths(part.LossDB))
	}
	return told
}

// cable names a cable: tag or house line, length, kind and case.
func (o observer) cable(told *Part, part budget.Part) {
	length := o.length(part.Length)
	var names []string
	if part.Assumed {
		length = o.needed(part.Length) + " missing"
	}
	switch {
	case part.What == budget.Lead:
		names = append(names, "inner lead")
	case part.Reel != "":
		reel, _ := o.plan.Reels.Get(plan.Key(part.Reel))
		names = append(names, reel.Tag)
	case part.HouseLine != "":
		line, _ := o.plan.HouseLines.Get(plan.Key(part.HouseLine))
		names = append(names, line.Name)
	}
	short := joined(append(names, length)...)
	kind := o.kind(part.Kind)
	if part.Assumed {
		kind = "reckoned as " + kind
	}
	long := joined(short, kind)
	told.Detail = joined(long, o.home(part))
	told.Labels = []string{told.Detail, long, short, joined(names...), o.length(part.Length)}
}

// home is the case that a reel lives in.
func (o observer) home(part budget.Part) string {
	reel, found := o.plan.Reels.Get(plan.Key(part.Reel))
	if !found || reel.Case == "" {
		return ""
	}
	home, _ := o.plan.Cases.Get(plan.Key(reel.Case))
	return home.Name
}

// jointNames are the names of joints.
var jointNames = map[budget.What]string{
	budget.Coupler: "coupler", budget.Connection: "plug in socket", budget.Panel: "panel", budget.Inner: "drum's socket",
}

func (o observer) joint(told *Part, part budget.Part) {
	told.Labels = []string{jointNames[part.What]}
	told.Detail = jointNames[part.What]
	if hardware, err := standards.HardwareBySlug(standards.HardwareSlug(part.Hardware)); err == nil {
		told.Detail = joined(told.Detail, hardware.Name)
	}
	if part.Interfaces > 1 {
		told.Detail = joined(told.Detail, fmt.Sprintf("%d mated connections", part.Interfaces))
	}
}

// joined sets the texts that say something between dots.
func joined(texts ...string) string {
	var kept []string
	for _, text := range texts {
		if text != "" {
			kept = append(kept, text)
		}
	}
	return strings.Join(kept, " · ")
}
