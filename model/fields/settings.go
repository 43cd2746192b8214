package fields

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

func settingsFields() []*Field {
	d := definer{Settings}
	list := []*Field{
		d.field("name", "name", "Plan", "what the show is called on every page."),
		d.field("site", "site", "Site", "where it is."),
		d.field("revision", "revision", "Revision letter", "that of the revision issued last, or the first that the plan will be issued under."),
		d.field("date", "date", "Show date", "the first day of the show, for instance 2026-07-03.").ifBlank("2026-07-03").day(),
		d.field("out", "stock_out_on", "Stock leaves on", "the day from which the show has what it takes of the house's stock, for instance 2026-07-01; blank from now on.").ifBlank("now").day(),
		d.field("back", "stock_back_on", "Stock is back on", "the last day on which the show has it, for instance 2026-07-05; blank until it is given back.").ifBlank("when given back").day(),
		d.field("exposure", "exposure", "Exposure", "where things lie that do not say so: indoors, shade or sun; it decides how warm cable is.").worded(exposures("")),
		d.field("temperature", "temperature_C", "Cable temperature", "of all cable; blank is by place.").ifBlank("by place"),
		d.field("air", "worst_air_C", "Worst air", "the warmest air that is expected; blank takes the usual figures for shade and sun.").ifBlankBy(sunBlank),
		d.field("margin", "wanted_margin_dB", "Wanted margin", "margin that every link should have, 1 to 20 dB; blank is 1.5 or 3 dB.").ifBlank("1.5 or 3 dB"),
		d.field("slack", "slack_percent", "Slack along the way", "share of each way added along it; blank is 0 to 10 % by where its metres come from.").ifBlank("0 to 10 % by source"),
		d.field("slack_end", "slack_end_m", "Slack at each end", "added at each end; blank is by what stands there.").ifBlank("by what stands there"),
		d.field("detour", "straight_way_factor", "Straight way times", "how much longer than straight a way is taken for that nobody drew, 1 to 3."),
		d.field("coupler", "coupler", "Coupler", "what joins two cables where nothing else is said.").among(anyCoupler),
		d.field("north", "north_degrees", "North, from the top", "clockwise in degrees."),
		d.field("rate", "sample_rate_kHz", "Sample rate", "of the audio; links carry half the channels at twice the rate.").worded(map[string]string{
			"": "48 kHz unless told", "44.1": "44.1 kHz", "48": "48 kHz", "88.2": "88.2 kHz", "96": "96 kHz",
		}),
		d.field("paper", "print_paper", "Paper", "the size that is printed on."),
		d.field("grey", "print_grey", "Print in grey", "yes: without colours."),
		d.made("contacts", "Contacts", "whom the crew can ring, one a line: name, role, phone.", Note, sayContacts, putContacts),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
	for _, transport := range standards.Transports() {
		if transport.Graded() {
			list = append(list, d.transportRule(transport))
		}
	}
	return list
}

// transportRule makes the field of the rule that a transport's loss is held to in the plan.
func (d definer) transportRule(transport standards.Transport) *Field {
	id := plan.TransportID(transport.Slug)
	own := "its own: " + ruleName(plan.RuleID(transport.Rule))
	said := func(s State, _ any) string {
		row, found := s.Plan.TransportRules.Get(plan.Key(id))
		if !found {
			return ""
		}
		return ruleName(row.Rule)
	}
	put := func(_ State, e *plan.Edit, _ plan.Key, value string) error {
		if value == "" {
			plan.Drop[plan.TransportRule](e, plan.Key(id))
			return nil
		}
		plan.Put(e, plan.TransportRule{Transport: id, Rule: plan.RuleID(value)})
		return nil
	}
	return d.made("rule_"+string(id), "Limit rule for "+transport.Name, "what its loss is held to.", Choice, said, put).
		among(func(State, any) []Option { return append([]Option{{"", own}}, limitRules(transport.Media)...) })
}

func sunBlank(s State, _ any) string {
	return "sun is " + s.Units.Degrees(standards.DefaultTemperatureC(standards.Sun, nil))
}

// sayContacts are the people the crew can ring, one a line: name, role, phone.
func sayContacts(s State, _ any) string {
	var lines []string
	for contact := range s.Plan.Contacts.All() {
		line := strings.Join([]string{contact.Name, contact.Role, contact.Phone}, ", ")
		lines = append(lines, strings.TrimRight(line, ", "))
	}
	return strings.Join(lines, "\n")
}

// putContacts reads the contacts, one a line; a line keeps the row that stood in its place.
func putContacts(_ State, e *plan.Edit, _ plan.Key, text string) error {
	var contacts []plan.Contact
	for n, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		parts := append(strings.SplitN(line, ",", 3), "", "")
		contact := plan.Contact{Name: strings.TrimSpace(parts[0]), Role: strings.TrimSpace(parts[1]), Phone: strings.TrimSpace(parts[2])}
		if contact.Name == "" {
			return fmt.Errorf("line %d has no name before its first comma", n+1)
		}
		for id, text := range map[string]string{"name": contact.Name, "role": contact.Role, "phone": contact.Phone} {
			if reason := Of(plan.ContactsTable, id).column.Check(text); reason != "" {
				return fmt.Errorf("line %d: the %s %s", n+1, id, reason)
			}
		}
		contacts = append(contacts, contact)
	}
	e.SetContacts(contacts)
	return nil
}

func cableKindFields() []*Field {
	d := definer{plan.CableKindsTable}
	return []*Field{
		d.field("name", "name", "Kind of cable", "what it is called.").when(of(own)).by(putOwn("name")),
		d.field("own_figure", "own_figure_dB_per_100m", "Maker's loss figure", "its loss at 100 MHz and 20 °C in dB per 100 m; it then counts instead of its category's.").
			when(of(own)).ifBlankBy(of(categoryName)).by(putOwnFigure),
		d.field("near_end", "near_end", "Near end", "a plug or a socket.").when(of(own)).among(ends).saying(of(func(_ State, r plan.CableKind) string { return cmp.Or(r.NearEnd, "plug") })).by(putOwn("near_end")),
		d.field("far_end", "far_end", "Far end", "a plug or a socket.").when(of(own)).among(ends).saying(of(func(_ State, r plan.CableKind) string { return cmp.Or(r.FarEnd, "plug") })).by(putOwn("far_end")),
		d.field("form", "form", "Form", "drum, coil, loom or tail.").when(of(own)).by(putOwn("form")),
		d.field("weight", "mass_kg_per_100m", "Weight of 100 m", "of the cable alone, in kg.").ifBlank("not said").when(of(own)).by(putOwn("weight")),
		d.field("lockable", "lockable", "Locking", "yes: its connectors lock.").when(of(own)).by(putOwn("lockable")),
		d.field("metal_shell", "metal_shell", "Metal shell", "yes: its connectors wear a metal shell, which not every port takes.").when(of(own)).by(putOwn("metal_shell")),
		d.field("note", "note", "Note", "anything the crew should know.").when(of(own)).by(putOwn("note")),
	}
}

// ends are how a cable ends; one of which nothing is said ends in a plug.
func ends(State, any) []Option { return []Option{{"", "plug"}, {"socket", "socket"}} }

// own reports whether a kind is the user's own; one of the catalogue stays as it is.
func own(_ State, kind plan.CableKind) bool { return kind.Own }

func categoryName(_ State, kind plan.CableKind) string {
	if category, err := standards.CableBySlug(standards.CableSlug(kind.Category)); err == nil {
		return "as " + category.Name
	}
	return "none: it has no category"
}

// putOwn changes a kind of the user's own.
func putOwn(id string) func(State, *plan.Edit, plan.Key, string) error {
	return func(s State, e *plan.Edit, key plan.Key, value string) error {
		kind, _ := e.Now().CableKinds.Get(key)
		if !kind.Own {
			return fmt.Errorf("%s is a kind of the catalogue: make one of your own like it", kind.Name)
		}
		return Of(plan.CableKindsTable, id).store(s, e, kind, value)
	}
}

// putOwnFigure keeps a maker's figure that the kind's category can have.
func putOwnFigure(s State, e *plan.Edit, key plan.Key, value string) error {
	kind, _ := e.Now().CableKinds.Get(key)
	if value != "" {
		figure, err := Of(plan.CableKindsTable, "own_figure").figure(s, value)
		if err != nil {
			return err
		}
		category, unknown := standards.CableBySlug(standards.CableSlug(kind.Category))
		if unknown != nil {
			return errors.New("only data cable has a loss at 100 MHz: leave the figure blank")
		}
		if wrong := category.CheckOwnFigure(figure); wrong != nil {
			return fmt.Errorf("the %w, at 100 MHz and 20 °C", wrong)
		}
	}
	return putOwn("own_figure")(s, e, key, value)
}
