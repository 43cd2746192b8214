package day

import (
	"fmt"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// Page is what the day view says of one link.
type Page struct {
	Link plan.LinkID
	// Name is the link's id as plan and labels have it; About what goes over it, its pair, tape and loom; Caution what must
	// never be done with that, blank for nothing.
	Name, About, Caution string
	From, To             End
	// Run says how long its way is and what cable it has; Missing what it lacks, blank for nothing.
	Run, Missing string
	Grade        budget.Grade
	// Verdict is the grade as a word, Margin the whole dB in hand with their sign and Basis what that figure is, both blank
	// where there is none.
	Verdict, Margin, Basis string
	Cables                 []Cable
	Watch                  []Warning
	// Done is the last step that is done; Moved tells that it lies otherwise since.
	Done  string
	Moved bool
}

// End is one end of a link.
type End struct{ Device, Port, Position string }

// String says it: "Stage box, port A, at Stage left".
func (e End) String() string {
	said := e.Device + ", port " + e.Port
	if e.Position != "" {
		said += ", at " + e.Position
	}
	return said
}

// Warning is something to watch: a word that says how bad it is, and the sentences.
type Warning struct{ Word, Text string }

// PageOf says what there is to say about a link.
func PageOf(a *assess.Assessment, id plan.LinkID, units words.Units) Page {
	link, _ := a.Plan.Link(id)
	b, _ := a.Budget(id)
	b = b.Printed(units.Unit())
	p := Page{
		Link: id, Name: link.Name, About: about(a.Plan, link, b), Done: link.Done, Moved: link.Moved,
		From: endOf(a.Plan, link.From, link.FromPort), To: endOf(a.Plan, link.To, link.ToPort),
		Run: fmt.Sprintf("Run %s (%s)", units.Needed(b.Run), b.Measured.Words()), Grade: b.Standing(), Verdict: strings.ToUpper(text.GradeWord(b.Standing())),
		Cables: cablesOf(a.Plan, b, units),
	}
	if b.Laid > 0 {
		p.Run += ", cable " + units.Metres(b.Laid)
	}
	switch {
	case b.TooShort():
		p.Missing = "too short by " + units.Needed(b.Missing)
	case b.Bare():
		p.Missing = "no cable yet, " + units.Needed(b.Missing) + " to go"
	}
	if b.HasMargin() {
		p.Margin, p.Basis = b.Label()+" dB", "reckoned margin"
		if b.Missing > 0 {
			p.Basis += ", once it reaches"
		}
	}
	if transport, err := standards.TransportBySlug(standards.TransportSlug(link.Transport)); err == nil && transport.NeverIntoNetworkPort {
		p.Caution = "never into a network port"
	}
	p.Watch = watchOf(a, link)
	return p
}

func about(p *plan.Plan, link plan.Link, b budget.Budget) string {
	said := []string{b.TransportName}
	if partner, found := p.Link(link.Partner); found && link.Role != "" {
		said = append(said, link.Role+" of "+partner.Name)
	}
	if link.IsSpare() {
		said = append(said, "laid spare, plugged in nowhere")
		if named, found := p.Link(link.StandsFor); found {
			said = append(said, "stands in for "+named.Name)
		}
	}
	if link.Colour != "" {
		said = append(said, link.Colour+" tape")
	}
	if loom, found := p.Looms.Get(plan.Key(link.Loom)); found && link.Loom != "" {
		said = append(said, "in loom "+loom.Name)
	}
	return strings.Join(said, " · ")
}

func endOf(p *plan.Plan, id plan.DeviceID, port string) End {
	device, _ := p.Device(id)
	position, _ := p.Positions.Get(plan.Key(device.Position))
	return End{device.Name, port, position.Name}
}

// severityWords are the words of the severities, as a crew reads them.
var severityWords = map[checks.Severity]string{checks.Stop: "STOP", checks.Warn: "MIND", checks.Note: "NOTE"}

// watchOf lists what to watch of a link: that it was moved, then what is found of it, the worst first, then its own note.
func watchOf(a *assess.Assessment, link plan.Link) (list []Warning) {
	if link.Moved {
		list = append(list, Warning{"MOVED", fmt.Sprintf("Its way or an end was moved on the plan since. Look at it on site: %s says that it is still %s.", keyOf(link.Done), link.Done)})
	}
	for _, finding := range a.FindingsAt(plan.LinksTable, link.Key()) {
		list = append(list, Warning{severityWords[finding.Severity], panel.Sentences(finding)})
	}
	if link.Note != "" {
		list = append(list, Warning{"NOTE", strings.Join(strings.Fields(link.Note), " ")})
	}
	return list
}

// Text is the page as a person reads it out, for tests and for whoever reads with another tool.
func (p Page) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s   %s   %s\n%s   %s\nfrom %s\nto   %s\n%s\n", p.Name, p.Verdict, p.Margin, p.About, p.Basis, p.From, p.To, p.runWords())
	for _, c := range p.Cables {
		fmt.Fprintf(&b, "%2d  %s\n", c.Order, c)
		if c.Then != "" {
			fmt.Fprintf(&b, "    %s\n", c.Then)
		}
	}
	for _, w := range p.Watch {
		fmt.Fprintf(&b, "%s: %s\n", w.Word, w.Text)
	}
	for _, step := range plan.Steps() {
		mark := "[ ]"
		if p.Is(step) {
			mark = "[x]"
		}
		fmt.Fprintf(&b, "%s %s  ", mark, step)
	}
	return strings.TrimRight(b.String(), " ") + "\n"
}

func (p Page) runWords() string {
	said := p.Run
	if p.Missing != "" {
		said += ": " + p.Missing
	}
	if p.Caution != "" {
		said += "   " + p.Caution
	}
	return said
}

// Is reports whether a step is done.
func (p Page) Is(step string) bool { return plan.Link{Done: p.Done}.Is(step) }
