package budget

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"stageloom/model/medium"
	"stageloom/model/plan"
)

// Whole is one electrical line from active port to active port, through the passive devices on its way: panels, drops. Its
// pieces are links, and the tail by which a guest plugs in. A limit is asked of the whole, so each link that is a piece has
// the loss, the margin and the grade of the whole. Steps run the way that the first of its
// links in the table does. It is shared: read it, never write it.
type Whole struct {
	Steps []Step
	// Run, Laid and Missing are metres of all its pieces; Length is its cable from end to end, assumed pieces included.
	Run, Laid, Missing, Length float64
	// Unknown and Lacking tell that a piece has a cable of unknown loss, or misses metres of no wanted kind.
	Unknown, Lacking bool
	// Faulty tells that a piece has a faulty cable, Untested that a link of it was not tested on site.
	Faulty, Untested bool

	medium   *ready
	scale    scale
	loss     medium.Loss
	limitDB  float64
	rule     plan.RuleID
	ruleBy   Origin
	wantedDB float64
	wantedBy Origin
}

// Step is one step of a whole: a link, the way through a passive device, or the tail of a guest.
type Step struct {
	// Link and Name are those of a link; blank for what is none.
	Link plan.LinkID
	Name string
	// Device is the passive device that is passed, or the guest's console.
	Device plan.DeviceID
	// Guest tells that the step is the tail of a guest in an act, of this kind of cable.
	Guest    bool
	Act      plan.ActID
	TailKind plan.CableKindID
	// Reversed tells that the link's near end lies towards the far end of the whole.
	Reversed bool
	// Run and Length are metres, Length of cable with what is assumed; LossDB is the step's own, at the medium's reference.
	Run, Length, LossDB float64
	// Interfaces counts the mated connections of a passive device.
	Interfaces int
	// Lacks is the metres that a link misses.
	Lacks float64

	joints [2]medium.Joint
	// printed and printedLack are Length and Lacks as pages print them.
	printed, printedLack float64
}

// Passive reports whether the step goes through a passive device.
func (s Step) Passive() bool { return s.Link == "" && !s.Guest }

// Pieces counts the links and tails of a whole.
func (w *Whole) Pieces() (n int) {
	for _, step := range w.Steps {
		if !step.Passive() {
			n++
		}
	}
	return n
}

// Links are the links of a whole, in its order.
func (w *Whole) Links() (links []plan.LinkID) {
	for _, step := range w.Steps {
		if step.Link != "" {
			links = append(links, step.Link)
		}
	}
	return links
}

// ownBudgets gives the reckoning of a piece by itself.
type ownBudgets func(id plan.LinkID) *Budget

// complete gives a link's own budget what the whole has that it is part of, with the budgets of the others by themselves.
// Without a passive device at either end it does nothing.
func (r *Reckoner) complete(b *Budget, link *plan.Link, others ownBudgets) {
	if w := r.wholeAround(b, link, others); w != nil {
		w.give(b)
	}
}

// once gives the budgets of the plan's links by themselves, each reckoned at its first asking.
func (r *Reckoner) once() ownBudgets {
	known := map[plan.LinkID]*Budget{}
	return func(id plan.LinkID) *Budget {
		if known[id] == nil {
			link, _ := r.plan.Link(id)
			b := r.own(&link, &chain{reckoner: r})
			known[id] = &b
		}
		return known[id]
	}
}

// wholeAround puts the whole around a link together from its own budget and those of the others.
func (r *Reckoner) wholeAround(b *Budget, link *plan.Link, others ownBudgets) *Whole {
	if !b.Graded || r.passages.through == nil || link.IsSpare() {
		return nil
	}
	return r.wholeOf(link, func(id plan.LinkID) *Budget {
		if id == link.ID {
			return b
		}
		return others(id)
	})
}

// pieces are links reckoned by themselves, together: those of a plan, or those that a drag stretches.
type pieces struct {
	budgets []Budget
	link    func(i int) *plan.Link
	place   map[plan.LinkID]int
	others  ownBudgets // those that are not among them
}

// own is the budget of a link by itself.
func (p *pieces) own(id plan.LinkID) *Budget {
	if i, here := p.place[id]; here {
		return &p.budgets[i]
	}
	return p.others(id)
}

// wholes puts the wholes of pieces together, each once, and gives every piece what its whole has.
func (r *Reckoner) wholes(p *pieces) {
	for i := range p.budgets {
		if p.budgets[i].Whole != nil {
			continue
		}
		w := r.wholeAround(&p.budgets[i], p.link(i), p.own)
		if w == nil {
			continue
		}
		for _, id := range w.Links() {
			if at, here := p.place[id]; here {
				w.give(&p.budgets[at])
			}
		}
	}
}

// wholeOf puts the whole of a link together; nil where both its ends are active.
func (r *Reckoner) wholeOf(link *plan.Link, own ownBudgets) *Whole {
	near, far := portAt{link.From, link.FromPort}, portAt{link.To, link.ToPort}
	passed := map[plan.LinkID]bool{link.ID: true}
	before := r.behind(link.Transport, near, passed)
	behind := r.behind(link.Transport, far, passed)
	if len(before)+len(behind) == 0 {
		return nil
	}
	reverse(before)
	t := r.transportOf(link.Transport)
	w := &Whole{medium: t.medium, scale: t.scale, Steps: append(append(before, Step{Link: link.ID, Name: link.Name}), behind...)}
	w.turn()
	plugs := make([][2]*medium.Hardware, len(w.Steps)) // of each piece, as the whole runs
	for i := range w.Steps {
		switch step := &w.Steps[i]; {
		case step.Link != "":
			b := own(step.Link)
			w.addLink(step, b)
			plugs[i] = r.plugsOf(b, w.medium, step.Reversed)
		case step.Guest:
			w.addTail(step, r)
			plug := r.leadKind(step.TailKind, w.medium).plug
			plugs[i] = [2]*medium.Hardware{plug, plug}
		}
	}
	for i := range w.Steps {
		if w.Steps[i].Passive() {
			w.addPassive(i, plugs, r)
		}
	}
	return w
}

// plugsOf are the plugs at the two ends of a link, as its whole runs; nil where it has no cable.
func (r *Reckoner) plugsOf(b *Budget, m *ready, reversed bool) (plugs [2]*medium.Hardware) {
	for i := range b.Parts {
		part := &b.Parts[i]
		if part.What != Cable && part.What != Lead {
			continue
		}
		plug := r.kindOf(part.Kind).plug
		if part.What == Lead {
			plug = r.leadKind(part.Kind, m).plug
		}
		if plugs[0] == nil {
			plugs[0] = plug
		}
		plugs[1] = plug
	}
	if reversed {
		plugs[0], plugs[1] = plugs[1], plugs[0]
	}
	return plugs
}

// reverse turns steps round.
func reverse(steps []Step) {
	slices.Reverse(steps)
	for i := range steps {
		steps[i].Reversed = steps[i].Link != "" && !steps[i].Reversed
	}
}

// turn lays a whole so that the first of its links in the table runs from its near to its far end, whichever it was asked of.
func (w *Whole) turn() {
	first := -1
	for i, step := range w.Steps {
		if step.Link != "" && (first < 0 || step.Link < w.Steps[first].Link) {
			first = i
		}
	}
	if w.Steps[first].Reversed {
		reverse(w.Steps)
	}
}

// addLink adds a piece: its loss at its own temperature, and the stricter of limits and wanted margins.
func (w *Whole) addLink(step *Step, b *Budget) {
	step.Run, step.Length, step.LossDB, step.Lacks = b.Run, b.Length(), w.scale.dB(b.ownLoss), b.Missing
	shown := Budget{Measured: b.Measured, Laid: b.Laid, Missing: b.Missing, Fill: b.Fill, Parts: b.Parts}.Printed(1)
	step.printed, step.printedLack = shown.Length(), shown.Missing
	if first := w.rule == ""; first || b.ownLimitDB < w.limitDB {
		w.limitDB, w.rule, w.ruleBy = b.ownLimitDB, b.Rule, b.RuleBy
	}
	if b.ownWantedDB > w.wantedDB {
		w.wantedDB, w.wantedBy = b.ownWantedDB, b.WantedBy
	}
	w.Run, w.Laid, w.Missing, w.Length = w.Run+b.Run, w.Laid+b.Laid, w.Missing+b.Missing, w.Length+b.Length()
	w.Unknown = w.Unknown || b.ownUnknown()
	w.Lacking = w.Lacking || b.lacksKind()
	w.Faulty, w.Untested = w.Faulty || b.Faulty, w.Untested || !b.Tested
	w.loss = w.loss.Plus(b.ownLoss)
}

// addTail adds a guest's tail: without a kind it counts as the poorest there is.
func (w *Whole) addTail(step *Step, r *Reckoner) {
	console, _ := r.plan.Device(step.Device)
	step.Name = console.Name
	if step.Length == 0 {
		return
	}
	loss, kind := medium.Loss{}, r.leadKind(step.TailKind, w.medium)
	if kind.medium == w.medium {
		loss = kind.at(step.Length, r.siteOf(step.Device))
	}
	step.LossDB = w.scale.dB(loss)
	w.Unknown = w.Unknown || !kind.knownIn(w.medium)
	w.Run, w.Laid, w.Length, w.loss = w.Run+step.Run, w.Laid+step.Length, w.Length+step.Length, w.loss.Plus(loss)
}

// addPassive adds the two connections of a passive device, each as poor as the poorer of its sides; one whose hardware is
// not known counts as the poorest, and a loose end as good as the device.
func (w *Whole) addPassive(i int, plugs [][2]*medium.Hardware, r *Reckoner) {
	step := &w.Steps[i]
	device, _ := r.plan.Device(step.Device)
	step.Name, step.Interfaces = device.Name, 2
	kind, _ := r.plan.Kinds.Get(plan.Key(device.Kind))
	body := w.medium.hardwareOf(kind.Hardware)
	loss := medium.Loss{}
	for side, other := range [2]int{i - 1, i + 1} {
		joint := medium.Joint{body, body}
		if other >= 0 && other < len(plugs) && plugs[other][1-side] != nil {
			joint[1] = plugs[other][1-side]
		}
		step.joints[side] = joint
		loss = loss.Plus(joint.Poorer().Loss)
	}
	step.LossDB = w.scale.dB(loss)
	w.loss = w.loss.Plus(loss)
}

// siteOf is the cable temperature where a device stands, in °C.
func (r *Reckoner) siteOf(id plan.DeviceID) float64 {
	if r.plan.Settings.Temperature.Set {
		return r.plan.Settings.Temperature.Value
	}
	at := r.end
	if r.standsAt != nil {
		at = r.standsAt
	}
	return r.site[at(id).exposure]
}

// give gives a piece what the whole has.
func (w *Whole) give(b *Budget) {
	b.Whole = w
	b.Loss, b.LimitDB, b.Rule, b.RuleBy, b.WantedDB, b.WantedBy = w.loss, w.limitDB, w.rule, w.ruleBy, w.wantedDB, w.wantedBy
	b.LossDB = w.scale.dB(b.Loss)
	b.MarginDB = tidy(b.LimitDB - b.LossDB)
	b.grade()
}

// PartOf reports whether the link is one piece of several of an electrical line.
func (b Budget) PartOf() bool { return b.Whole != nil && b.Whole.Pieces() > 1 }

// RestDB is what the line loses beside the link itself: other links, tails, passive devices; dB at the medium's reference.
func (b Budget) RestDB() float64 { return tidy(b.LossDB - b.OwnDB) }

// Around are the steps of the line before the near end of the link and behind its far end, as the link runs.
func (b Budget) Around() (before, behind []Step) {
	if b.Whole == nil {
		return nil, nil
	}
	steps := slices.Clone(b.Whole.Steps)
	at := func() int { return slices.IndexFunc(steps, func(s Step) bool { return s.Link == b.Link }) }
	if steps[at()].Reversed {
		reverse(steps)
	}
	return steps[:at():at()], steps[at()+1:]
}

// Tenths prints the losses of a whole's steps in tenths of a dB so that they add up to its loss as LossTenths prints it:
// each is rounded down, and what the sum lacks goes to those that lost most by it.
func (w *Whole) Tenths() []string {
	tenths, order := make([]int, len(w.Steps)), make([]int, len(w.Steps))
	left := int(math.Ceil(w.scale.dB(w.loss)*10 - almost))
	rest := func(i int) float64 { return w.Steps[i].LossDB*10 - float64(tenths[i]) }
	for i := range w.Steps {
		tenths[i], order[i] = int(w.Steps[i].LossDB*10+almost), i
		left -= tenths[i]
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rest(b), rest(a)) })
	for _, i := range order[:max(0, min(left, len(order)))] {
		tenths[i]++
	}
	printed := make([]string, len(tenths))
	for i, n := range tenths {
		printed[i] = fmt.Sprintf("%d.%d", n/10, n%10)
	}
	return printed
}
