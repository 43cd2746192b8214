package budget

import (
	"sync"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Tables names the tables of a plan that a budget reads, beside its settings.
func Tables() []string {
	return []string{
		plan.TransportRulesTable, plan.LevelsTable, plan.PositionsTable, plan.KindsTable, plan.KindPortsTable, plan.DevicesTable, plan.CableKindsTable, plan.ReelsTable, plan.HouseLinesTable, plan.LinksTable,
		plan.LinkPointsTable, plan.SegmentsTable, plan.ActConsolesTable,
	}
}

// Same reports whether two plans have the same budgets because they share every table that budgets read.
func Same(a, b *plan.Plan) bool {
	if a.Settings != b.Settings {
		return false
	}
	for _, name := range Tables() {
		if table, found := plan.TableNamed(name); !found || !table.Same(a, b) {
			return false
		}
	}
	return true
}

// Reckoner holds what all links of one plan have in common, made ready once. It may be used by several goroutines.
type Reckoner struct {
	plan       *plan.Plan
	media      []*ready
	cables     map[plan.CableKindID]*cable
	transports []transport
	rules      []rule
	nothing    *cable             // stands for a kind that the plan does not hold
	site       map[string]float64 // °C by exposure
	passages   passages
	standing   map[plan.KindID]Standing
	ground     func() Ground           // gathered at the first look
	standsAt   func(plan.DeviceID) end // where devices stand while they are dragged; nil elsewhere
}

// transport is a transport with the rule that grades it in this plan; its medium is nil where none has a limit for it.
type transport struct {
	id     plan.TransportID
	row    standards.Transport
	medium *ready
	scale  scale
	rule   rule
	ruleBy Origin
}

type rule struct {
	id      plan.RuleID
	media   standards.Media
	limitDB float64
}

// NewReckoner makes a plan ready for reckoning.
func NewReckoner(p *plan.Plan) *Reckoner {
	r := &Reckoner{plan: p}
	r.readyMedia()
	kinds := make([]cable, p.CableKinds.Len())
	r.cables = make(map[plan.CableKindID]*cable, len(kinds))
	for i := range kinds {
		kinds[i] = r.newCable(p.CableKinds.At(i))
		r.cables[kinds[i].id] = &kinds[i]
	}
	nothing := r.newCable(plan.CableKind{})
	r.nothing = &nothing
	r.readyStanding()
	r.readySite()
	r.readyTransports()
	r.readyPassages()
	r.ground = sync.OnceValue(r.gatherGround)
	return r
}

func (r *Reckoner) readySite() {
	var air *float64
	if r.plan.Settings.Air.Set {
		air = &r.plan.Settings.Air.Value
	}
	r.site = map[string]float64{}
	for _, where := range []standards.Surroundings{standards.Indoors, standards.Shade, standards.Sun} {
		r.site[string(where)] = standards.DefaultTemperatureC(where, air)
	}
}

func (r *Reckoner) readyTransports() {
	for _, row := range standards.LimitRules() {
		r.rules = append(r.rules, rule{plan.RuleID(row.Slug), row.Media, tidy(row.LimitDB())})
	}
	for _, row := range standards.Transports() {
		t := transport{id: plan.TransportID(row.Slug), row: row, ruleBy: ByTransport}
		if limit, found := r.ruleOf(plan.RuleID(row.Rule), row.Media); found {
			t.rule, t.medium = limit, r.mediumOf(row.Media)
			if t.medium != nil {
				t.scale = scaleOf(t.medium.Medium, row)
			}
			if own, found := r.plan.TransportRules.Get(plan.Key(row.Slug)); found {
				if chosen, known := r.ruleOf(own.Rule, row.Media); known {
					t.rule, t.ruleBy = chosen, ByPlan
				}
			}
		}
		r.transports = append(r.transports, t)
	}
}

// ruleOf finds a limit rule of a medium.
func (r *Reckoner) ruleOf(id plan.RuleID, media standards.Media) (rule, bool) {
	for _, known := range r.rules {
		if known.id == id && known.media == media {
			return known, true
		}
	}
	return rule{}, false
}

func (r *Reckoner) transportOf(id plan.TransportID) *transport {
	for i := range r.transports {
		if r.transports[i].id == id {
			return &r.transports[i]
		}
	}
	return &transport{id: id, row: standards.Transport{Name: string(id)}}
}

// kindOf returns a cable kind of the plan.
func (r *Reckoner) kindOf(id plan.CableKindID) *cable {
	if kind, found := r.cables[id]; found {
		return kind
	}
	return r.nothing
}

// leadKind returns the kind of an inner lead or a tail on a line of a medium.
func (r *Reckoner) leadKind(id plan.CableKindID, m *ready) *cable {
	if id == "" {
		return &m.noLead
	}
	return r.kindOf(id)
}

// Of reckons one link of a plan. For many links make one Reckoner.
func Of(p *plan.Plan, link plan.Link) Budget { return NewReckoner(p).Of(link) }

// Of reckons a link, which need not be in the plan yet; its ends must be.
func (r *Reckoner) Of(link plan.Link) Budget {
	return r.whole(&link, &chain{reckoner: r})
}

// All reckons every link of the plan, in the order of the table of links.
func (r *Reckoner) All() []Budget {
	p := r.plan
	budgets := make([]Budget, p.Links.Len())
	parts := &chain{reckoner: r, parts: make([]Part, 0, 2*p.Segments.Len()+2*p.Links.Len())}
	for i := range budgets {
		link := p.Links.At(i)
		budgets[i] = r.own(&link, parts)
	}
	if r.passages.through != nil {
		all := &pieces{budgets: budgets, place: make(map[plan.LinkID]int, len(budgets)), link: func(i int) *plan.Link {
			link := p.Links.At(i)
			return &link
		}}
		for i := range budgets {
			all.place[budgets[i].Link] = i
		}
		r.wholes(all)
	}
	return budgets
}

// whole reckons a link between its devices as the plan has it, and the electrical line that it is part of.
func (r *Reckoner) whole(link *plan.Link, c *chain) Budget {
	b := r.own(link, c)
	r.complete(&b, link, r.once())
	return b
}

// own reckons a link by itself between its devices as the plan has it.
func (r *Reckoner) own(link *plan.Link, c *chain) Budget {
	return r.reckon(link, r.end(link.From), r.end(link.To), r.plan.SegmentsOf(link.ID), r.plan.PointsOf(link.ID), c)
}

// reckon fills a budget of a link by itself from its ends, segments and way points.
func (r *Reckoner) reckon(link *plan.Link, from, to end, segments []plan.Segment, points []plan.LinkPoint, c *chain) Budget {
	t := r.transportOf(link.Transport)
	b := Budget{
		Link: link.ID, Name: link.Name, Transport: link.Transport, TransportName: t.row.Name,
		Distance: t.row.StatedDistance, Fill: link.FillKind, Tested: link.Done == plan.Tested, Faulty: r.faulty(segments),
	}
	if t.medium != nil {
		b.Graded, b.Medium = true, t.medium.Medium
	}
	if link.FillKind != "" {
		b.FillName = r.kindOf(link.FillKind).name
	}
	b.measure(r, link, from, to, points)
	r.settle(&b, link, t, from, to)
	c.build(&b, link, segments)
	if b.Graded {
		b.ownLoss, b.ownLimitDB, b.ownWantedDB = b.Loss, b.LimitDB, b.WantedDB
		b.LossDB = t.scale.dB(b.Loss)
		b.OwnDB = b.LossDB
		b.MarginDB = tidy(b.LimitDB - b.LossDB)
	}
	b.grade()
	return b
}

// faulty reports whether a cable is faulty: a reel, or a house line.
func (r *Reckoner) faulty(segments []plan.Segment) bool {
	for i := range segments {
		if reel, found := r.plan.Reels.Get(plan.Key(segments[i].Reel)); found && reel.Condition == plan.Faulty {
			return true
		}
		if line, found := r.plan.HouseLines.Get(plan.Key(segments[i].HouseLine)); found && line.Condition == plan.Faulty {
			return true
		}
	}
	return false
}
