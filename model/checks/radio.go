package checks

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// sender is an input or an output that radio carries.
type sender struct {
	place            Place
	id, right, words string
	channel, carrier string
	frequency        float64
}

// senders are those of an act that it has, inputs first.
func senders(act *patch.Act) (all []sender) {
	for _, line := range act.Lines {
		if in := line.Input; !line.Struck {
			all = append(all, sender{inputPlace(line), string(in.ID), string(in.Right), fmt.Sprintf("%d %s", in.Number, in.Name), in.RFChannel, in.Transmitter, in.Frequency})
		}
	}
	for _, line := range act.Outputs {
		if out := line.Output; !line.Struck {
			all = append(all, sender{Place{plan.OutputsTable, out.Key()}, string(out.ID), string(out.Right), fmt.Sprintf("output %d %s", out.Number, out.Name), out.RFChannel, out.Pack, out.Frequency})
		}
	}
	return all
}

// name is what a sender is called: its RF channel where it has one.
func (s sender) name() string {
	if s.channel == "" {
		return s.words
	}
	return fmt.Sprintf("%s (%s)", s.channel, s.words)
}

// one reports whether two are one radio way: the sides of a pair, or one RF channel in two rows.
func (s sender) one(other sender) bool {
	return s.right == other.id || other.right == s.id || s.channel != "" && plan.Folded(s.channel) == plan.Folded(other.channel) && s.place.Table == other.place.Table
}

// sameFrequency finds radio ways of one act on one frequency. Whether a frequency may be used, and what mixes of several do, is
// coordination, which nothing here asks.
func sameFrequency(s *Subject) []Finding {
	return s.twiceInAct(func(one sender) string {
		if one.frequency == 0 {
			return ""
		}
		return strconv.FormatFloat(one.frequency, 'f', -1, 64) + " MHz"
	}, func(key string, several []sender) Finding {
		return Finding{
			Severity: Stop, What: fmt.Sprintf("%s %s: %s", key, times(len(several)), words.And(senderNames(several, sender.name), fewNamed)),
			Remedy: "Give each its own frequency from your coordination, within your licence.",
		}
	})
}

// sameTransmitter finds transmitters, and in-ear packs, that two rows of one act have.
func sameTransmitter(s *Subject) []Finding {
	return s.twiceInAct(func(one sender) string {
		if one.carrier == "" {
			return ""
		}
		return one.place.Table + " " + plan.Folded(one.carrier)
	}, func(_ string, several []sender) Finding {
		return Finding{
			Severity: Warn, What: fmt.Sprintf("%s %s: %s", several[0].carrier, times(len(several)), words.And(senderNames(several, func(one sender) string { return one.words }), fewNamed)),
			Remedy: "Give each its own, or one of them another name.",
		}
	})
}

func times(count int) string {
	if count == 2 {
		return "twice"
	}
	return fmt.Sprintf("%d times", count)
}

func senderNames(several []sender, name func(sender) string) (names []string) {
	for _, one := range several {
		names = append(names, name(one))
	}
	return names
}

// twiceInAct finds what several radio ways of an act have in common.
func (s *Subject) twiceInAct(keyOf func(sender) string, tell func(string, []sender) Finding) []Finding {
	var sights []sight
	for _, act := range s.Patch.Acts {
		same, order := map[string][]sender{}, []string(nil)
		for _, one := range senders(act) {
			key := keyOf(one)
			if key == "" || slices.ContainsFunc(same[key], one.one) {
				continue
			}
			if same[key] == nil {
				order = append(order, key)
			}
			same[key] = append(same[key], one)
		}
		for _, key := range order {
			several := same[key]
			if len(several) < 2 {
				continue
			}
			finding := tell(key, several)
			for _, one := range several {
				finding.Where = append(finding.Where, one.place)
			}
			sights = append(sights, sight{finding, act, ""})
		}
	}
	return s.once(sights)
}

// typeWords is a type of an input as tables say it.
func typeWords(use string) string { return strings.ReplaceAll(use, "_", " ") }
