package fields

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

func reelFields() []*Field {
	d := definer{plan.ReelsTable}
	return []*Field{
		d.field("tag", "tag", "Tag", "what is written on it; blank for equal ones without tags.").ifBlank("none").by(putTag).alone(),
		d.field("kind", "kind", "Kind", "what cable it is.").among(cableKinds("")).by(putCableKind(func(r *plan.Reel) *plan.CableKindID { return &r.Kind })),
		d.field("length", "length_m", "Length", "as it is, for instance 45 m or 148 ft."),
		d.field("nominal", "nominal_m", "Nominal length", "its nominal length, where it has been cut since.").ifBlank("its length"),
		d.field("count", "quantity", "Quantity", "equal ones that this row stands for.").saying(of(sayQuantity)).by(putQuantity),
		d.field("case", "case", "Case", "where it lives; a new name makes a case.").making(makeCase),
		d.field("condition", "condition", "Condition", "good, suspect or faulty; of several equal ones one is marked, in a row of its own.").
			among(conditions).saying(of(func(_ State, r plan.Reel) string { return cmp.Or(r.Condition, plan.Good) })).by(markReel),
		d.field("reason", "reason", "Reason", "why it is suspect or faulty."),
		d.field("found_at", "found_at", "Found at", "where that was found."),
		d.field("found_on", "found_on", "Found on", "the day that it was found, for instance 2027-06-18.").day(),
		d.field("measured", "measured_loss_dB", "Measured loss", "its loss at 100 MHz as measured, in dB; it then counts instead of the catalogue's.").ifBlank("as its kind"),
		d.field("state", "state", "State", "missing, in repair or written off: it is in the stock and not there; blank while it is there.").worded(map[string]string{
			"": "there", plan.Missing: "missing", plan.InRepair: "in repair", plan.WrittenOff: "written off",
		}),
		d.field("state_on", "state_since", "State since", "the day since when it is so, for instance 2027-06-18.").day(),
		d.field("weight", "mass_kg", "Weight", "of the whole piece with its drum, in kg; blank is reckoned by its kind and length.").ifBlank("by its kind"),
		d.field("tied", "tied_into", "Tied into", "the name of the loom or trunk piece that it is part of; all of it is taken and laid together."),
		d.field("owner", "owner", "Owner", "whose it is, where it is not the house's.").ifBlank("the house"),
		d.field("hire", "hire_reference", "Hire reference", "of what is hired in."),
		d.field("bought", "bought_on", "Bought on", "the day that it was bought, for instance 2024-03-15.").day(),
		d.field("return", "return_date", "Return date", "the day that it goes back, for instance 2027-06-21.").day(),
		d.made("history", "History", "what was done to it, one a line: the day, the work, and who did it in brackets, for instance 2031-05-02 near plug replaced (workshop).",
			Note, of(sayHistory), putHistory).alone(),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

// sayHistory is what was done to a reel, one a line.
func sayHistory(s State, r plan.Reel) string {
	var lines []string
	for _, line := range s.Plan.History(r.ID) {
		lines = append(lines, line.Line())
	}
	return strings.Join(lines, "\n")
}

// putHistory reads a history, one a line; a line that stood there stays as it was.
func putHistory(_ State, e *plan.Edit, key plan.Key, text string) error {
	known := map[string]plan.Service{}
	for _, line := range e.Now().History(plan.ReelID(key)) {
		known[line.Line()] = line
	}
	var lines []plan.Service
	for n, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		service, stood := known[line]
		if !stood {
			var err error
			if service, err = plan.ReadService(line); err != nil {
				return fmt.Errorf("line %d %w", n+1, err)
			}
		}
		for column, text := range map[string]string{"day": service.Day, "work": service.Work, "by": service.By} {
			info, _ := plan.TableNamed(plan.ServicesTable)
			if c, _ := info.Column(column); c.Check(text) != "" {
				return fmt.Errorf("line %d: what it says %s", n+1, c.Check(text))
			}
		}
		lines = append(lines, service)
	}
	e.SetHistory(plan.ReelID(key), lines)
	return nil
}

func caseFields() []*Field {
	d := definer{plan.CasesTable}
	return []*Field{
		d.field("name", "name", "Case", "what is written on it."),
		d.field("pieces", "takes_pieces", "Takes, pieces", "how many cables go in; blank is not said.").ifBlank("not said"),
		d.field("most", "takes_kg", "Takes, kg", "how much it may hold; blank is not said.").ifBlank("not said"),
		d.field("weight", "empty_kg", "Empty, kg", "its own weight.").ifBlank("not said"),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

func houseLineFields() []*Field {
	d := definer{plan.HouseLinesTable}
	return []*Field{
		d.field("name", "name", "House line", "what the venue calls it."),
		d.field("kind", "kind", "Kind", "what cable it is.").among(cableKinds("")).by(putCableKind(func(r *plan.HouseLine) *plan.CableKindID { return &r.Kind })),
		d.field("length", "length_m", "Length", "from panel to panel, for instance 45 m or 148 ft."),
		d.field("from_panel", "from_panel", "From panel", "the venue's panel at its near end."),
		d.field("from_position", "from_position", "From position", "where that panel is."),
		d.field("to_panel", "to_panel", "To panel", "the venue's panel at its far end."),
		d.field("to_position", "to_position", "To position", "where that panel is."),
		d.field("condition", "condition", "Condition", "good, suspect or faulty; a faulty one is laid and picked no more.").
			among(conditions).saying(of(func(_ State, r plan.HouseLine) string { return cmp.Or(r.Condition, plan.Good) })).by(markHouseLine),
		d.field("reason", "reason", "Reason", "why it is suspect or faulty."),
		d.field("found_at", "found_at", "Found at", "where that was found."),
		d.field("found_on", "found_on", "Found on", "the day that it was found, for instance 2027-06-18.").day(),
		d.field("measured", "measured_loss_dB", "Measured loss", "its loss at 100 MHz as measured, in dB; it then counts instead of the catalogue's.").ifBlank("as its kind"),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

// conditions are how a reel or a house line is; one of which nobody said anything is good.
func conditions(State, any) []Option {
	return []Option{{plan.Good, plan.Good}, {plan.Suspect, plan.Suspect}, {plan.Faulty, plan.Faulty}}
}

// cableKinds lists the kinds of cable of plan and catalogue; blank, where it is not "", says what none is.
func cableKinds(blank string) func(State, any) []Option {
	return func(s State, _ any) (options []Option) {
		if blank != "" {
			options = append(options, Option{"", blank})
		}
		for _, kind := range catalogue.CableKindsFor(s.Plan) {
			options = append(options, Option{string(kind.ID), kind.Name})
		}
		return options
	}
}

// hardware lists the connecting hardware of the medium that a link runs through; blank says what none is.
func hardware(blank string, link plan.Link) []Option {
	transport, _ := standards.TransportBySlug(standards.TransportSlug(link.Transport))
	return append([]Option{{"", blank}}, hardwareOf(medium.HardwareFor(transport.Media))...)
}

func hardwareOf(rows []standards.Hardware) (options []Option) {
	for _, row := range rows {
		options = append(options, Option{string(row.Slug), row.Name})
	}
	return options
}

// panels lists what a feed-through of a link can be.
func panels(_ State, link plan.Link) []Option { return hardware("none", link) }

// couplers lists what can stand before a cable of a link.
func couplers(s State, segment plan.Segment) []Option {
	link, _ := s.Plan.Link(segment.Link)
	return hardware("the plan's", link)
}

// anyCoupler lists what can join cables of any medium.
func anyCoupler(State, any) (options []Option) {
	for _, m := range medium.All() {
		options = append(options, hardwareOf(standards.HardwareOf(m.Media()))...)
	}
	return options
}

// putCableKind makes a row of another kind of cable, which comes into the plan with it.
func putCableKind[R plan.Row](at func(*R) *plan.CableKindID) func(State, *plan.Edit, plan.Key, string) error {
	return func(_ State, e *plan.Edit, key plan.Key, value string) error {
		if value != "" {
			if err := catalogue.UseCable(e, plan.CableKindID(value)); err != nil && !errors.Is(err, catalogue.ErrUnknown) {
				return err
			}
		}
		return plan.Update(e, key, func(r *R) { *at(r) = plan.CableKindID(value) })
	}
}

func sayQuantity(_ State, r plan.Reel) string { return fmt.Sprint(r.Count()) }

// putTag tags a reel, which is one then.
func putTag(s State, e *plan.Edit, key plan.Key, value string) error {
	reel, _ := e.Now().Reels.Get(key)
	if value != "" && reel.Count() > 1 {
		return fmt.Errorf("this row stands for %d equal ones; a tag is of one: take one out of it first", reel.Count())
	}
	return Of(plan.ReelsTable, "tag").store(s, e, reel, value)
}

// putQuantity sets how many a row stands for: not fewer than lie in links, and one where it has a tag.
func putQuantity(_ State, e *plan.Edit, key plan.Key, value string) error {
	count := 1
	if value != "" {
		var err error
		if count, err = Of(plan.ReelsTable, "count").Whole(value); err != nil && value == "0" {
			err = fmt.Errorf("%w; take the row away where there are none any more", err)
		}
		if err != nil {
			return err
		}
	}
	reel, _ := e.Now().Reels.Get(key)
	switch used := e.Now().UsedReels()[reel.ID]; {
	case count < used:
		return fmt.Errorf("%d of them lie in links", used)
	case count > 1 && reel.Tag != "":
		return fmt.Errorf("%s is one cable with a tag of its own; make a row without a tag for more", reel.Tag)
	}
	if count == 1 {
		count = 0 // which counts as 1, and is left out of the file
	}
	return plan.Update(e, key, func(r *plan.Reel) { r.Quantity = count })
}

// day makes a field of words that may name a day.
func (f *Field) day() *Field {
	f.check = func(text string) error {
		if wrong := plan.NoSuchDay(text); wrong != "" {
			return fmt.Errorf("there is no day %s: write year-month-day, for instance 2027-06-19", wrong)
		}
		return nil
	}
	return f
}

// making lets a name that is in no list yet make the row that it names.
func (f *Field) making(make func(e *plan.Edit, name string) (string, error)) *Field {
	f.makes = make
	return f
}

func makeCase(e *plan.Edit, name string) (string, error) {
	name, err := Of(plan.CasesTable, "name").Words(name)
	if err != nil {
		return "", err
	}
	return string(e.AddCase(plan.Case{Name: name})), nil
}

// markReel marks a reel; of several equal ones one becomes a row of its own. Good forgets what was found.
func markReel(_ State, e *plan.Edit, key plan.Key, value string) error {
	reel, _ := e.Now().Reels.Get(key)
	_, err := e.MarkReel(reel.ID, plan.Mark{Condition: value, Reason: reel.Reason, FoundAt: reel.FoundAt, FoundOn: reel.FoundOn})
	return err
}

func markHouseLine(_ State, e *plan.Edit, key plan.Key, value string) error {
	line, _ := e.Now().HouseLines.Get(key)
	return e.MarkHouseLine(line.ID, plan.Mark{Condition: value, Reason: line.Reason, FoundAt: line.FoundAt, FoundOn: line.FoundOn})
}
