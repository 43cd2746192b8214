package checks

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// dead are the inputs and outputs that do not arrive for one cause, by name, and their rows.
type dead struct {
	inputs, outputs []string
	where           []Place
	acts            []plan.ActID // in which any of them is dead
}

func (d *dead) add(names *[]string, name string, place Place) {
	if !slices.Contains(d.where, place) {
		*names, d.where = append(*names, name), append(d.where, place)
	}
}

// words ends a sentence with what is dead: "; 2 inputs are dead: Kick and Hat; 1 output: Monitor 1".
func (d *dead) words() (said string) {
	if d == nil {
		return ""
	}
	if n := len(d.inputs); n > 0 {
		said += fmt.Sprintf("; %s %s dead: %s", words.Counted(n, "input", "inputs"), words.Plural(n, "is", "are"), words.And(d.inputs, fewNamed))
	}
	if n := len(d.outputs); n > 0 {
		be := choose(len(d.inputs) > 0, "", words.Plural(n, " is dead", " are dead"))
		said += fmt.Sprintf("; %s%s: %s", words.Counted(n, "output", "outputs"), be, words.And(d.outputs, fewNamed))
	}
	return said
}

// deadBy gathers what is lost for a cause in any act, by the place where it is lost.
func (s *Subject) deadBy(cause patch.Cause) map[patch.Spot]*dead {
	all := map[patch.Spot]*dead{}
	of := func(at patch.Spot) *dead {
		if all[at] == nil {
			all[at] = &dead{}
		}
		return all[at]
	}
	s.own(func(act *patch.Act, lines []*patch.Line) {
		for _, line := range lines {
			for _, channel := range line.Channels() {
				if channel.Lost.Cause == cause {
					d := of(channel.Lost)
					d.add(&d.inputs, line.Input.Name, inputPlace(line))
					for _, sharer := range s.sharers(act, line) {
						d.acts = union(d.acts, []plan.ActID{sharer.Act.ID})
					}
				}
			}
		}
	})
	for _, act := range s.Patch.Acts {
		for _, line := range act.Outputs {
			if line.Lost.Cause == cause {
				d := of(line.Lost)
				d.add(&d.outputs, line.Output.Name, Place{plan.OutputsTable, line.Output.Key()})
				d.acts = union(d.acts, []plan.ActID{act.Act.ID})
			}
		}
	}
	return all
}

// mixed are devices joined by digital links at more than one sample rate, with nothing between that converts.
type mixed struct {
	links   []plan.LinkID
	devices []plan.DeviceID
	acts    []plan.ActID
	dead    dead
}

// mixedRates gathers what is joined at two sample rates, and what is dead for it.
func (s *Subject) mixedRates() (all []*mixed) {
	join := func(seam patch.Seam, d *dead) {
		one := &mixed{links: []plan.LinkID{seam.Link}, devices: seam.Ends[:], acts: seam.Acts}
		if d != nil {
			one.dead = *d
		}
		all = slices.DeleteFunc(all, func(other *mixed) bool {
			if !slices.ContainsFunc(other.devices, func(id plan.DeviceID) bool { return slices.Contains(one.devices, id) }) {
				return false
			}
			one.take(other)
			return true
		})
		all = append(all, one)
	}
	for _, seam := range s.Patch.Seams() {
		join(seam, nil)
	}
	lost := s.deadBy(patch.RatesApart)
	spots := slices.SortedFunc(maps.Keys(lost), func(a, b patch.Spot) int {
		return cmp.Or(cmp.Compare(a.Link, b.Link), cmp.Compare(a.Device, b.Device), cmp.Compare(a.Beyond, b.Beyond))
	})
	for _, at := range spots {
		join(patch.Seam{Link: at.Link, Ends: [2]plan.DeviceID{at.Device, at.Beyond}, Acts: lost[at].acts}, lost[at])
	}
	for _, one := range all {
		slices.SortFunc(one.links, func(a, b plan.LinkID) int { return words.Natural(s.linkName(a), s.linkName(b)) })
		slices.SortFunc(one.devices, func(a, b plan.DeviceID) int {
			return cmp.Or(cmp.Compare(s.Patch.Rate(a), s.Patch.Rate(b)), words.Natural(s.Patch.Name(a), s.Patch.Name(b)))
		})
		one.links, one.devices = slices.Compact(one.links), slices.Compact(one.devices)
		slices.SortFunc(one.dead.where, func(a, b Place) int { return cmp.Or(cmp.Compare(a.Table, b.Table), cmp.Compare(a.Key, b.Key)) })
	}
	return all
}

func (s *Subject) linkName(id plan.LinkID) string {
	link, _ := s.Plan.Link(id)
	return link.Name
}

func (m *mixed) take(other *mixed) {
	m.links, m.devices = append(other.links, m.links...), append(other.devices, m.devices...)
	m.acts = union(m.acts, other.acts)
	was := other.dead
	for place := range slices.Values(m.dead.where) {
		if !slices.Contains(was.where, place) {
			was.where = append(was.where, place)
		}
	}
	was.inputs = union(was.inputs, m.dead.inputs)
	was.outputs = union(was.outputs, m.dead.outputs)
	m.dead = was
}

func union[T comparable](a, b []T) []T {
	all := slices.Clone(a)
	for _, name := range b {
		if !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	return all
}

// rates are the devices at each rate, the lowest rate first.
func (s *Subject) rates(m *mixed) (rates []int, at map[int][]plan.DeviceID) {
	at = map[int][]plan.DeviceID{}
	for _, id := range m.devices {
		rate := s.Patch.Rate(id)
		if at[rate] == nil {
			rates = append(rates, rate)
		}
		at[rate] = append(at[rate], id)
	}
	return rates, at
}

// ratesApart finds devices that digital links join at more than one sample rate, told once for all that hang together.
func ratesApart(s *Subject) (found []Finding) {
	for _, one := range s.mixedRates() {
		var names []string
		finding := Finding{Severity: Stop, Remedy: "Set one to the other's sample rate on its card, or say there that it converts sample rates."}
		for _, id := range one.links {
			names = append(names, s.linkName(id))
			finding.Where = and(finding.Where, plan.LinksTable, plan.Key(id))
		}
		in := ""
		if acts := s.running(one.acts); len(acts) < len(s.Patch.Acts) {
			finding.Acts, in = acts, s.in(acts)
		}
		said := fmt.Sprintf("%s %s nothing from one to the other%s: ", words.And(names, fewNamed), words.Plural(len(names), "carries", "carry"), in)
		rates, at := s.rates(one)
		for i, rate := range rates {
			runs := choose(i > 0, "", words.Plural(len(at[rate]), " runs", " run"))
			said += fmt.Sprintf("%s%s%s at %s", choose(i > 0, ", ", ""), s.deviceNames(at[rate]), runs, patch.KHz(rate))
		}
		for _, id := range one.devices {
			finding.Where = and(finding.Where, plan.DevicesTable, plan.Key(id))
		}
		finding.What, finding.Where = said+one.dead.words(), append(finding.Where, one.dead.where...)
		found = append(found, finding)
	}
	return found
}

func (s *Subject) deviceNames(ids []plan.DeviceID) string {
	var names []string
	for _, id := range ids {
		names = append(names, s.Patch.Name(id))
	}
	return words.And(names, fewNamed)
}

// oneRate proposes to set all devices to one of the rates, and to say that one device converts.
func oneRate(s *Subject, f Finding) (fixes []Fix) {
	for _, one := range s.mixedRates() {
		if f.Where[0].Key != plan.Key(one.links[0]) {
			continue
		}
		rates, at := s.rates(one)
		for _, rate := range rates {
			others := slices.DeleteFunc(slices.Clone(one.devices), func(id plan.DeviceID) bool { return slices.Contains(at[rate], id) })
			fixes = append(fixes, Fix{Label: fmt.Sprintf("Set %s to %s", s.deviceNames(others), patch.KHz(rate)), Edit: func(e *plan.Edit) error {
				return changeDevices(e, others, func(d *plan.Device) { d.Rate = rateWord(rate) })
			}})
		}
		for _, rate := range rates {
			for _, id := range at[rate] {
				fixes = append(fixes, Fix{Label: s.Patch.Name(id) + " converts sample rates", Edit: func(e *plan.Edit) error {
					return changeDevices(e, []plan.DeviceID{id}, func(d *plan.Device) { d.Converts = true })
				}})
			}
		}
	}
	return fixes
}

// rateWord is a sample rate in hertz as rows hold it, in kHz.
func rateWord(hertz int) string { return strconv.FormatFloat(float64(hertz)/1000, 'f', -1, 64) }

func changeDevices(e *plan.Edit, ids []plan.DeviceID, with func(*plan.Device)) error {
	for _, id := range ids {
		if err := plan.Update(e, plan.Key(id), with); err != nil {
			return err
		}
	}
	return nil
}
