package day

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// CheckPage is what the line check says of one input.
type CheckPage struct {
	// Act is the act's name with its place in the running list, Turn "12 of 36", Planned the time of day that it is due at,
	// blank where the act names none.
	Act, Turn, Planned string
	Number             int
	Name               string
	// About is its type, source or mic, stand, riser and what it transmits by; Phantom says whether it wants 48 V.
	About   string
	Phantom bool
	Chain   []Step
	Watch   []Warning
	// Result is what was heard last, blank for nothing; Heard says it with its time.
	Result, Heard string
}

// Step is one step of the way from the stage to a channel: what it is, its name large, and what belongs to it.
type Step struct{ Label, Name, Detail string }

// CheckPageOf says what there is to say about an input whose turn it is, at a time of the day.
func CheckPageOf(a *assess.Assessment, act *patch.Act, turn patch.Turn, turns int, now time.Time) CheckPage {
	input := turn.Line.Input
	p := CheckPage{
		Act: text.ActLabel(act), Turn: fmt.Sprintf("%d of %d", turn.Place, turns), Planned: turn.Planned, Number: input.Number,
		Name: cmp.Or(input.Name, "without a name"), About: aboutInput(input), Phantom: input.Phantom,
		Chain: chainOf(a.Patch, turn.Line), Heard: "not yet heard",
	}
	last, found := a.Plan.Checked(act.Act.ID, input.ID)
	if found {
		p.Result, p.Heard = last.Result, patch.HeardWords(last)
	}
	p.Watch = checkWatchOf(a, act, turn.Line, last, now)
	return p
}

func aboutInput(input plan.Input) string {
	said := []string{patch.UseWords(input.Use), input.Source, input.Stand, input.Riser, patch.Radio(input.RFChannel, input.Frequency, input.Transmitter)}
	return strings.Join(slices.DeleteFunc(said, func(s string) bool { return strings.TrimSpace(s) == "" }), " · ")
}

// chainOf is the whole way of an input, from where it is plugged in on stage to the channels of the consoles.
func chainOf(v *patch.View, line *patch.Line) (chain []Step) {
	if line.At.None() {
		return []Step{{"socket", "not plugged in", "it has no socket in this act: the table of the patch gives it one"}}
	}
	if !line.Snake.None() {
		chain = append(chain, Step{"stage", v.SocketWords(line.Snake), "where it plugs in on stage"})
	}
	if line.At != line.Snake && (len(line.Legs) != 1 || line.Legs[0].Socket != line.At) {
		chain = append(chain, Step{"into", v.SocketWords(line.At), ""})
	}
	channels := 0
	for i := range line.Legs {
		leg := &line.Legs[i]
		if v.Parallel(line, leg) {
			continue
		}
		chain = append(chain, Step{"socket", v.SocketWords(leg.Socket), strings.Join(told(wayWords(v, leg), ownerWords(v, leg)), ", ")})
		for _, channel := range leg.Channels {
			chain = append(chain, channelStep(v, channel))
			channels++
		}
	}
	if channels == 0 {
		chain = append(chain, Step{"channel", "on no channel", "no console lists its socket"})
	}
	return chain
}

func channelStep(v *patch.View, channel patch.Channel) Step {
	step := Step{Label: "channel", Name: fmt.Sprintf("%s %d", v.Name(channel.Console), channel.Number)}
	switch {
	case !channel.Reached:
		step.Detail = "NOT REACHED: no channels of links lead there"
	case len(channel.Hops) > 0:
		step.Detail = "over " + v.SlotWords(channel.Hops)
		if len(channel.Backup) > 0 {
			step.Detail += ", backup " + v.SlotWords(channel.Backup)
		}
	}
	return step
}

func wayWords(v *patch.View, leg *patch.Leg) string {
	var said []string
	for _, way := range leg.Ways {
		link, _ := v.Plan.Link(way.Link)
		said = append(said, fmt.Sprintf("%s, way %d", link.Name, way.Number))
	}
	if len(said) == 0 {
		return ""
	}
	return "over " + strings.Join(said, ", ")
}

// ownerWords say who sets the gain of a leg and who switches its 48 V.
func ownerWords(v *patch.View, leg *patch.Leg) string {
	name := func(id plan.DeviceID) string {
		if id == "" {
			return "nobody named"
		}
		return v.Name(id)
	}
	said := "gain " + name(leg.Gain) + ", 48 V " + name(leg.Phantom)
	if leg.Gain == leg.Phantom {
		said = "gain and 48 V " + name(leg.Gain)
	}
	if leg.Isolated {
		said += ", isolated: no 48 V from here"
	}
	return said
}

func told(words ...string) []string {
	return slices.DeleteFunc(words, func(s string) bool { return s == "" })
}

// checkWatchOf lists what to watch at an input: its own fault, faults of other acts on its way, what is found of it in this act,
// a fault that was cleared and is to be heard again, its note.
func checkWatchOf(a *assess.Assessment, act *patch.Act, line *patch.Line, last plan.LineCheck, now time.Time) (list []Warning) {
	beside := ""
	if last.Note != "" {
		beside = ": " + oneLine(last.Note)
	}
	switch {
	case last.Result == "":
	case last.Fault():
		list = append(list, Warning{strings.ToUpper(last.Result), patch.SinceWords(last.At, now) + beside})
	case last.Result != plan.HeardOK:
		list = append(list, Warning{"CLEARED", patch.HeardWords(last) + ", hear it again" + beside})
	case beside != "":
		list = append(list, Warning{"HEARD", last.Result + beside})
	}
	if changed := a.Patch.ChangedSince(line, last); changed != "" {
		list = append(list, Warning{"CHANGED", "since the check: " + changed + ", hear it again"})
	}
	for _, fault := range a.Patch.FaultsElsewhere(act, line) {
		list = append(list, Warning{"MIND", a.Patch.FaultWords(fault, line)})
	}
	for _, said := range text.PhantomOf(a.Patch, act, line) {
		if !strings.HasPrefix(said, "48 V from ") { // who switches it stands at the socket
			list = append(list, Warning{"MIND", said})
		}
	}
	for _, finding := range a.FindingsAt(plan.InputsTable, line.Input.Key()) {
		if len(finding.Acts) == 0 || slices.Contains(finding.Acts, act.Act.ID) {
			list = append(list, Warning{severityWords[finding.Severity], panel.Sentences(finding)})
		}
	}
	if line.Input.Note != "" {
		list = append(list, Warning{"NOTE", oneLine(line.Input.Note)})
	}
	return list
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// PhantomWords say whether the input wants 48 V.
func (p CheckPage) PhantomWords() string {
	if p.Phantom {
		return "48 V"
	}
	return "no 48 V"
}

// Text is the page as a person reads it out, for tests and for whoever reads with another tool.
func (p CheckPage) Text() string {
	var b strings.Builder
	planned := ""
	if p.Planned != "" {
		planned = ", planned " + p.Planned
	}
	fmt.Fprintf(&b, "%s, %s%s\n%d %s\n%s, %s\n%s\n", p.Act, p.Turn, planned, p.Number, p.Name, p.PhantomWords(), cmp.Or(p.About, "no type and source told"), p.Heard)
	for _, step := range p.Chain {
		fmt.Fprintf(&b, "%-8s %s\n", step.Label, strings.Join(told(step.Name, step.Detail), " · "))
	}
	for _, w := range p.Watch {
		fmt.Fprintf(&b, "%s: %s\n", w.Word, w.Text)
	}
	return b.String()
}

// FaultRow says a fault in two lines: what, whose, since when and until when; then its way and the note.
func FaultRow(v *patch.View, fault patch.Fault, now time.Time) (name, way string) {
	name = numbered(fault.Line.Input) + " " + strings.ToUpper(fault.Check.Result) + " "
	if fault.Open() {
		name += patch.SinceWords(fault.Check.At, now)
	} else {
		name += patch.ClockOf(fault.Check.At) + ", cleared " + patch.ClockOf(fault.Check.Cleared)
	}
	if act := v.ActName(fault.Act.Act.ID); act != "" {
		name += " · " + act
	}
	_, way, found := strings.Cut(v.Words(fault.Line), " → ")
	if !found {
		way = "not plugged in"
	}
	if fault.Check.Note != "" {
		way += " · " + oneLine(fault.Check.Note)
	}
	return name, way
}
