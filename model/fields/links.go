package fields

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/standards"
	"stageloom/model/words"
)

func linkFields() []*Field {
	d := definer{plan.LinksTable}
	return []*Field{
		d.field("name", "name", "Link", "what it is called on plan and labels."),
		d.field("transport", "transport", "Transport", "what goes over it, of what both its ports take.").among(of(transports)).saying(of(sayTransport)).valued(of(func(_ State, r plan.Link) string { return string(r.Transport) })).alone(),
		d.field("fill", "fill_kind", "Wanted kind", "the kind its missing metres are reckoned as and picked from; blank is none.").
			among(of(fittingKinds("none: what is missing stays uncabled"))).
			by(putCableKind(func(r *plan.Link) *plan.CableKindID { return &r.FillKind })),
		d.made("typed", "Way as typed", "the length of the way as somebody gave it, for instance 62 m, paced; it stands for what the plan measures. Blank takes it back.",
			Figure, of(sayTyped), putTyped).ifBlankBy(of(measured)).sortedBy(of(func(_ State, r plan.Link) float64 { return r.TypedWay })),
		d.field("rise_from", "rise_from_m", "Rise at near end", "up or down there, for instance 4 m or 12 ft.").ifBlankBy(nought),
		d.field("rise_to", "rise_to_m", "Rise at far end", "up or down there, for instance 4 m or 12 ft.").ifBlankBy(nought),
		d.field("slack", "slack_percent", "Slack along the way", "share of the way added along it; blank is the plan's, or 0 to 10 % by where its metres come from.").ifBlankBy(of(slackAlong)),
		d.field("slack_end", "slack_end_m", "Slack at each end", "added at each end; blank is the plan's, or by what stands there.").ifBlankBy(of(slackAtEnds)),
		d.field("temperature", "temperature_C", "Cable temperature", "of its cable, for instance 30 °C or 86 °F; blank is by plan and place.").when(of(graded)).ifBlankBy(of(temperatureBy)),
		d.field("wanted", "wanted_margin_dB", "Wanted margin", "margin it should have, 1 to 20 dB; blank is the plan's.").when(of(graded)).ifBlankBy(of(marginBy)),
		d.field("rule", "limit_rule", "Limit rule", "what its loss is held to; blank is the plan's.").among(of(rules)).when(of(graded)),
		d.field("most_joins", "max_joins", "Most joins", "the most joints it may have, 1 to 31; blank is no bound.").ifBlank("any number"),
		d.field("priority", "priority", "Priority", "0 to 9 for the picking of cables; higher is served first.").ifBlank("0: as any other"),
		d.made("partner", "Partner", "the link that is main where this is backup, or backup where this is main.", Choice, of(sayPartner), putPartner).among(of(partners)).
			valued(of(func(_ State, r plan.Link) string { return string(r.Partner) })).alone(),
		d.made("role", "Role", "main or backup of its partner.", Choice, of(sayRole), putRole).among(roles).
			when(of(func(_ State, r plan.Link) bool { return r.Partner != "" })).alone(),
		d.field("stands_for", "stands_for", "Stands in for", "what a laid spare is there for; blank is any link of its transport between its ends.").
			among(of(standIns)).saying(of(sayStandIn)).valued(of(func(_ State, r plan.Link) string { return string(r.StandsFor) })).
			when(of(func(_ State, r plan.Link) bool { return r.IsSpare() })).by(putStandIn).alone(),
		d.field("from_panel", "from_panel", "Panel at near end", "hardware of a feed-through in front of the device; it counts as two connections.").among(of(panels)),
		d.field("from_lead", "from_lead_m", "Lead at near end", "the inner lead from that panel to the device.").ifBlank("no inner lead"),
		d.field("from_lead_kind", "from_lead_kind", "Lead's kind at near end", "what cable the inner lead is.").
			among(of(fittingKinds(poorest))).by(putCableKind(func(r *plan.Link) *plan.CableKindID { return &r.FromLeadKind })),
		d.field("to_panel", "to_panel", "Panel at far end", "hardware of a feed-through in front of the device; it counts as two connections.").among(of(panels)),
		d.field("to_lead", "to_lead_m", "Lead at far end", "the inner lead from that panel to the device.").ifBlank("no inner lead"),
		d.field("to_lead_kind", "to_lead_kind", "Lead's kind at far end", "what cable the inner lead is.").
			among(of(fittingKinds(poorest))).by(putCableKind(func(r *plan.Link) *plan.CableKindID { return &r.ToLeadKind })),
		d.field("loom", "loom", "Loom", "the loom that it is laid in."),
		d.field("colour", "tape_colour", "Tape colour", "of the tape at both ends."),
		d.field("phase", "lay_phase", "Lay phase", "in which phase it is laid, 1 to 99.").ifBlank("none"),
		d.field("drum", "drum_end", "Drum end", "the end at which what is left on the drum stays.").worded(map[string]string{"from": "near end", "to": "far end"}),
		d.field("power", "power_W", "Power to the far end", "what the device there draws over it, 0 to 100 W.").ifBlank("none"),
		d.field("from_theirs", "from_their_name", "Their name at the near end", "what the other party calls the near end."),
		d.field("to_theirs", "to_their_name", "Their name at the far end", "what the other party calls the far end."),
		d.field("done", "done_on_site", "On site", "what is done of it on site: laid, joined or tested, each with those before it.").
			worded(map[string]string{"": "nothing"}).by(func(_ State, e *plan.Edit, key plan.Key, value string) error {
			return e.SetDone(plan.LinkID(key), value)
		}),
		d.field("note", "note", "Note", "anything the crew should know."),
	}
}

// poorest is what holds for an inner lead of which nobody said what cable it is.
const poorest = "not stated: the poorest"

// sortedBy gives the figure that the field sorts by.
func (f *Field) sortedBy(number func(State, any) float64) *Field {
	f.number = number
	return f
}

func nought(s State, _ any) string { return s.Units.Metres(0) }

// graded reports whether a link carries a grade; what decides none is no field.
func graded(s State, r plan.Link) bool {
	transport, err := standards.TransportBySlug(standards.TransportSlug(r.Transport))
	return err == nil && transport.Graded()
}

func sayTransport(_ State, link plan.Link) string { return transportName(link.Transport) }

func transportName(id plan.TransportID) string {
	if transport, err := standards.TransportBySlug(standards.TransportSlug(id)); err == nil {
		return transport.Name
	}
	return string(id)
}

// transports are the transports that both ports of a link take.
func transports(s State, link plan.Link) (options []Option) {
	for _, id := range catalogue.TransportsFor(s.Plan, link) {
		options = append(options, Option{string(id), transportName(id)})
	}
	return options
}

// fittingKinds are the kinds of cable that carry a link's transport, and the one that stands there.
func fittingKinds(blank string) func(State, plan.Link) []Option {
	return func(s State, link plan.Link) []Option {
		options := []Option{{"", blank}}
		transport, _ := standards.TransportBySlug(standards.TransportSlug(link.Transport))
		for _, kind := range catalogue.CableKindsFor(s.Plan) {
			if budget.Fits(kind, transport.Media) || kind.ID == link.FillKind || kind.ID == link.FromLeadKind || kind.ID == link.ToLeadKind {
				options = append(options, Option{string(kind.ID), kind.Name})
			}
		}
		return options
	}
}

// rules are the limit rules that a link on a transport may be held to; the first is the plan's own.
func rules(s State, link plan.Link) []Option {
	transport, err := standards.TransportBySlug(standards.TransportSlug(link.Transport))
	if err != nil || !transport.Graded() {
		return []Option{{"", "no grade, no rule"}}
	}
	own := plan.RuleID(transport.Rule)
	if row, found := s.Plan.TransportRules.Get(plan.Key(link.Transport)); found {
		own = row.Rule
	}
	return append([]Option{{"", "the plan's: " + ruleName(own)}}, limitRules(transport.Media)...)
}

// limitRules are the limit rules of a medium.
func limitRules(media standards.Media) (options []Option) {
	for _, rule := range standards.LimitRulesOf(media) {
		options = append(options, Option{string(rule.Slug), rule.Name})
	}
	return options
}

func ruleName(id plan.RuleID) string {
	if rule, err := standards.LimitRuleBySlug(standards.RuleSlug(id)); err == nil {
		return rule.Name
	}
	return string(id)
}

// slackAlong says which share of the way is taken as slack while the link has none of its own.
func slackAlong(s State, link plan.Link) string {
	link.SlackPercent = plan.Optional{}
	return s.reckoner.Of(link).Measured.PercentWhy()
}

// slackAtEnds says what is added at the ends while the link says nothing.
func slackAtEnds(s State, link plan.Link) string {
	link.SlackEnd = plan.Optional{}
	return s.reckoner.Of(link).Measured.EndsWhy(s.Units.Metres)
}

func temperatureBy(s State, link plan.Link) string {
	link.Temperature = plan.Optional{}
	b := s.reckoner.Of(link)
	if b.TemperatureBy == budget.ByPlan {
		return s.Units.Degrees(b.TemperatureC) + ", the plan's"
	}
	return s.Units.Degrees(b.TemperatureC) + ", by place"
}

func marginBy(s State, link plan.Link) string {
	link.WantedMargin = plan.Optional{}
	b := s.reckoner.Of(link)
	if b.WantedBy == budget.ByPlan {
		return quantity.PrintDecibels(b.WantedDB, 1) + ", the plan's"
	}
	return quantity.PrintDecibels(b.WantedDB, 1) + ", by default"
}

// partners are the links of the same transport that could be main or backup with a link: those between the same devices
// first, then those that share one, then the others.
func partners(s State, link plan.Link) []Option {
	type candidate struct {
		link  plan.Link
		apart int
	}
	var candidates []candidate
	for other := range s.Plan.Links.All() {
		if other.ID == link.ID || other.Transport != link.Transport && other.ID != link.Partner || other.IsSpare() {
			continue
		}
		apart := 2
		for _, end := range []plan.DeviceID{other.From, other.To} {
			if end == link.From || end == link.To {
				apart--
			}
		}
		candidates = append(candidates, candidate{other, apart})
	}
	slices.SortFunc(candidates, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.apart, b.apart), words.Natural(a.link.Name, b.link.Name))
	})
	options := []Option{{"", "none"}}
	for _, c := range candidates {
		options = append(options, Option{string(c.link.ID), c.link.Name + aside + betweenDevices(s.Plan, c.link)})
	}
	return options
}

// betweenDevices says which devices a link joins.
func betweenDevices(p *plan.Plan, link plan.Link) string {
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	return from.Name + " → " + to.Name
}

func sayPartner(s State, link plan.Link) string {
	partner, found := s.Plan.Link(link.Partner)
	if !found {
		return ""
	}
	return partner.Name + aside + betweenDevices(s.Plan, partner)
}

func putPartner(_ State, e *plan.Edit, key plan.Key, value string) error {
	link, _ := e.Now().Links.Get(key)
	if value == "" {
		e.Unpair(link.ID)
		return nil
	}
	return pair(e, link.ID, plan.LinkID(value), cmp.Or(link.Role, "main"))
}

// roles are what a link can be of its partner.
func roles(State, any) []Option { return []Option{{"main", "main"}, {"backup", "backup"}} }

// RoleWord is a link's role as it is read: main, backup, laid spare.
func RoleWord(role string) string {
	if role == plan.Spare {
		return "laid spare"
	}
	return role
}

func sayRole(_ State, link plan.Link) string { return RoleWord(link.Role) }

func putRole(_ State, e *plan.Edit, key plan.Key, value string) error {
	link, _ := e.Now().Links.Get(key)
	if link.Partner == "" {
		return fmt.Errorf("%s has no partner: choose that first", link.Name)
	}
	return pair(e, link.ID, link.Partner, value)
}

func pair(e *plan.Edit, link, partner plan.LinkID, role string) error {
	if role == "backup" {
		return e.Pair(partner, link)
	}
	return e.Pair(link, partner)
}

// measured says what holds of a way while no length is typed.
func measured(s State, link plan.Link) string {
	link.TypedWay = 0
	b := s.reckoner.Of(link)
	if b.Measured.Source == budget.Unknown {
		return "for instance 62 m, paced"
	}
	return s.Units.Needed(b.Printed(s.Units.Unit()).Way) + ", " + b.Measured.Words()
}

func sayStandIn(s State, spare plan.Link) string {
	link, _ := s.Plan.Link(spare.StandsFor)
	return link.Name
}

func putStandIn(_ State, e *plan.Edit, key plan.Key, value string) error {
	return e.StandIn(plan.LinkID(key), plan.LinkID(value))
}

// standIns are what a laid spare may stand in for: any link of its transport between its ends, or one that is named; those
// that it could take over stand first.
func standIns(s State, spare plan.Link) []Option {
	free := spare
	free.StandsFor = ""
	options := []Option{{"", AnyBetween(s.Plan, free)}}
	var rest []Option
	for _, link := range slices.SortedFunc(s.Plan.Links.All(), func(a, b plan.Link) int { return words.Natural(a.Name, b.Name) }) {
		option := Option{string(link.ID), link.Name + aside + betweenDevices(s.Plan, link)}
		switch {
		case link.IsSpare():
		case s.Plan.CanTakeOver(link, spare):
			options = append(options, option)
		default:
			option.Words += aside + "ends elsewhere"
			rest = append(rest, option)
		}
	}
	return append(options, rest...)
}

// AnyBetween says what a spare that names no link stands in for.
func AnyBetween(p *plan.Plan, spare plan.Link) string {
	var names []string
	for _, link := range p.StandsInFor(spare) {
		names = append(names, link.Name)
	}
	slices.Sort(names)
	if len(names) == 0 {
		return "any between its ends: none"
	}
	return "any between its ends: " + strings.Join(names, ", ")
}
