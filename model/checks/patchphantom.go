package checks

import (
	"cmp"
	"fmt"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// phantomBlocked finds inputs whose 48 V cannot come to them: switched behind an isolated output, at a socket that has none,
// or isolated on every leg.
func phantomBlocked(s *Subject) []Finding {
	var sights []sight
	s.own(func(act *patch.Act, lines []*patch.Line) {
		for _, line := range lines {
			if !line.Patched() || !line.Input.Phantom || len(line.Legs) == 0 || patch.BearingOf(line.Input) == patch.Suffers {
				continue
			}
			finding := s.blocked(act, line)
			if finding.What == "" {
				continue
			}
			finding.Where = []Place{inputPlace(line), {plan.DevicesTable, plan.Key(line.At.Device)}}
			for _, sharer := range s.sharers(act, line) {
				sights = append(sights, sight{finding, sharer, ""})
			}
		}
	})
	return s.once(sights)
}

func (s *Subject) blocked(act *patch.Act, line *patch.Line) Finding {
	atSplitter := s.Patch.Supplies(line.At.Device)
	open, able := atSplitter, atSplitter && s.Patch.Phantom(line.At)
	for i := range line.Legs {
		leg := &line.Legs[i]
		if leg.Isolated && leg.Phantom != "" {
			return Finding{
				Severity: Stop,
				What:     fmt.Sprintf("48 V for %s is switched by %s at %s, behind an isolated output: it does not come through", line.Input.Name, s.Patch.Name(leg.Phantom), s.Patch.SocketWords(leg.Socket)),
				Remedy:   s.directly(act, line),
			}
		}
		if !leg.Isolated {
			open, able = true, able || s.Patch.Phantom(leg.Socket)
		}
	}
	able = able || len(s.Patch.Feeds(act, line)) > 0
	switch {
	case !open && !able:
		return Finding{
			Severity: Stop, What: fmt.Sprintf("%s wants 48 V, and every split from it is isolated", line.Input.Name),
			Remedy: "Give it a direct split to one box, or a splitter or box at the microphone that supplies 48 V.",
		}
	case !able:
		return Finding{
			Severity: Stop, What: fmt.Sprintf("%s wants 48 V, and %s has none", line.Input.Name, s.Patch.SocketWords(line.Legs[0].Socket)),
			Remedy: "Plug it into a microphone input, or put a supply of 48 V between.",
		}
	}
	return Finding{}
}

// directly says who can switch 48 V for an input over a direct way, and so whom to ask.
func (s *Subject) directly(act *patch.Act, line *patch.Line) string {
	feeds := s.Patch.Feeds(act, line)
	if len(feeds) == 0 {
		return "Switch it on the direct side of the splitter, or in the splitter where it is active."
	}
	feed := feeds[0]
	if feed.Switch != "" && feed.Switch != feed.Socket.Device {
		return fmt.Sprintf("Ask %s to switch it at %s, from where it comes through, and name it as owner there.", s.Patch.Name(feed.Switch), s.Patch.SocketWords(feed.Socket))
	}
	return fmt.Sprintf("Switch it at %s, from where it comes through, and name the owner there.", s.Patch.SocketWords(feed.Socket))
}

// phantomMissing finds condensers and active DI boxes that are not marked as wanting 48 V. One that runs on a battery, as its
// source or note says, is worth knowing alone. Common practice, no source.
func phantomMissing(s *Subject) (found []Finding) {
	for input := range s.Plan.Inputs.All() {
		if input.Phantom || patch.BearingOf(input) != patch.Needs {
			continue
		}
		finding := Finding{
			Severity: Warn, Where: []Place{{plan.InputsTable, input.Key()}},
			What:   fmt.Sprintf("%s (%s) is not marked as wanting 48 V", input.Name, patch.TypeWords(input)),
			Remedy: "Mark it 48 V, or say in its note that it runs on a battery.",
			many:   "of a type that needs 48 V are not marked as wanting it", item: input.Name, noun: "inputs",
		}
		if onBattery(input) {
			finding.Severity = Note
			finding.What = fmt.Sprintf("%s (%s) has no 48 V and runs on a battery", input.Name, patch.TypeWords(input))
			finding.Remedy = "Put a fresh battery in, and have a spare at hand."
			finding.many = "have no 48 V and run on batteries"
		}
		found = append(found, finding)
	}
	return found
}

// onBattery reports whether source or note say that an input runs on a battery.
func onBattery(input plan.Input) bool {
	said := strings.ToLower(input.Source + " " + input.Note)
	for _, word := range []string{"battery", "batterie", "batteries", "akku", "pile"} {
		for _, one := range strings.FieldsFunc(said, func(sign rune) bool { return strings.ContainsRune(" ,.;:()/-+\n", sign) }) {
			if one == word {
				return true
			}
		}
	}
	return false
}

// giveIt marks an input as wanting 48 V.
func giveIt(s *Subject, f Finding) []Fix { return markPhantom(s, f, "Mark it 48 V", true) }

// takeIt marks an input as wanting none.
func takeIt(s *Subject, f Finding) []Fix {
	return markPhantom(s, f, "Mark it as wanting no 48 V", false)
}

func markPhantom(s *Subject, f Finding, label string, wants bool) []Fix {
	input, found := s.Plan.Inputs.Get(f.Where[0].Key)
	if f.Where[0].Table != plan.InputsTable || !found || input.Phantom == wants {
		return nil
	}
	return []Fix{{Label: label, all: label, Edit: func(e *plan.Edit) error {
		return plan.Update(e, input.Key(), func(i *plan.Input) { i.Phantom = wants })
	}}}
}

// phantomArrives finds 48 V that comes to what must not have it, or does not need it: since it is marked so itself, or since
// another input has it on the same preamp.
func phantomArrives(s *Subject) []Finding {
	var sights []sight
	s.own(func(act *patch.Act, lines []*patch.Line) {
		for _, line := range lines {
			finding, told := s.marked(act, line)
			if !told {
				continue
			}
			for _, sharer := range s.sharers(act, line) {
				sights = append(sights, sight{finding, sharer, ""})
			}
		}
	})
	for _, act := range s.Patch.Acts {
		sights = append(sights, s.parallel(act)...)
	}
	return s.once(sights)
}

// marked is the finding of an input that is marked as wanting 48 V against its type.
func (s *Subject) marked(act *patch.Act, line *patch.Line) (Finding, bool) {
	bearing, of := patch.BearingOf(line.Input), patch.TypeWords(line.Input)
	if line.Struck || !line.Input.Phantom || bearing != patch.Suffers && bearing != patch.Bears {
		return Finding{}, false
	}
	finding := Finding{Severity: Warn, Where: []Place{inputPlace(line)}, Remedy: "Mark it as wanting no 48 V."}
	fed := s.Patch.Fed(act, line)
	switch {
	case bearing == patch.Bears:
		finding.What = fmt.Sprintf("%s (%s) is marked as wanting 48 V, and does without", line.Input.Name, of)
		return finding, true
	case len(fed) == 0:
		finding.What = fmt.Sprintf("%s (%s) is marked as wanting 48 V, which can damage it", line.Input.Name, of)
		return finding, true
	}
	finding.Severity = Stop
	finding.Where = append(finding.Where, Place{plan.DevicesTable, plan.Key(fed[0].Socket.Device)})
	finding.What = fmt.Sprintf("48 V comes to %s (%s), which it can damage: from %s", line.Input.Name, of, s.Patch.FeedWords(fed[0]))
	finding.Remedy = "Mark it as wanting no 48 V, and switch 48 V off there before it is plugged."
	return finding, true
}

// fed are the preamps that give 48 V in an act, each with an input that wants it there.
func (s *Subject) fed(act *patch.Act) map[patch.Socket]*patch.Line {
	on := map[patch.Socket]*patch.Line{}
	for _, line := range act.Lines {
		for _, feed := range s.Patch.Fed(act, line) {
			on[feed.Socket] = line
		}
	}
	return on
}

// parallel finds inputs of an act that suffer from 48 V which another has on the same preamp.
func (s *Subject) parallel(act *patch.Act) (sights []sight) {
	on := s.fed(act)
	for _, line := range act.Lines {
		if line.Input.Phantom || patch.BearingOf(line.Input) != patch.Suffers {
			continue
		}
		for _, feed := range s.Patch.Feeds(act, line) {
			if other := on[feed.Socket]; other != nil {
				sights = append(sights, sight{Finding{
					Severity: Stop, Where: []Place{inputPlace(line), inputPlace(other), {plan.DevicesTable, plan.Key(feed.Socket.Device)}},
					What: fmt.Sprintf("48 V for %s at %s comes to %s (%s) too, which it can damage", other.Input.Name,
						s.Patch.FeedWords(feed), line.Input.Name, patch.TypeWords(line.Input)),
					Remedy: "Plug one of the two into another preamp before 48 V is switched on.",
				}, act, ""})
				break
			}
		}
	}
	return sights
}

// undecided is the note that two preamps can give an input its 48 V and nobody is named.
func (s *Subject) undecided(line *patch.Line, fed []patch.Feed) (finding Finding, rest string) {
	var at, who []string
	for _, feed := range fed {
		at, who = append(at, s.Patch.SocketWords(feed.Socket)), append(who, cmp.Or(s.Patch.Name(feed.Switch), s.Patch.Name(feed.Socket.Device)))
	}
	return Finding{
		Severity: Note, Where: []Place{inputPlace(line), {plan.DevicesTable, plan.Key(line.At.Device)}},
		What:   fmt.Sprintf("Nobody is named to switch 48 V for %s", line.Input.Name),
		Remedy: fmt.Sprintf("Ask %s, and name one of them; two supplies on one microphone work against each other.", words.And(who, fewNamed)),
	}, fmt.Sprintf(", and it can come from %s", words.And(at, fewNamed))
}
