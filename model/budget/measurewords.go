package budget

import (
	"fmt"
	"strconv"
	"strings"
)

// doubt stands behind a typed length of which an end moved since.
const doubt = "doubtful: an end moved since"

// Words say in few words where the metres have come from: "guess", "paced", "paced, doubtful".
func (m Measured) Words() string {
	if m.Doubtful {
		return m.Source.String() + ", doubtful"
	}
	return m.Source.String()
}

// Sum says of what the run is the sum: "82.2 m way, a guess: 71.4 m straight × 1.15, + 14.3 m slack". Lengths are in the
// words of a printer; give it a budget as printed.
func (b Budget) Sum(metres func(float64) string) string {
	parts := []string{b.wayWords(metres)}
	if b.Rises > 0 {
		parts = append(parts, metres(b.Rises)+" rises")
	}
	return strings.Join(append(parts, metres(b.Slack)+" slack"), " + ")
}

// wayWords says the way with its source.
func (b Budget) wayWords(metres func(float64) string) string {
	m := b.Measured
	said := metres(b.Way) + " way"
	switch {
	case m.Source == Unknown && m.Within:
		return said + " within one position"
	case m.Source == Unknown:
		return "a way that nobody gave"
	case m.Sketched:
		return said + " (a guess along three points)"
	case m.Source == Guess:
		return fmt.Sprintf("%s (a guess: %s straight × %s)", said, metres(m.exact[0]/m.Factor), share(m.Factor))
	case m.Doubtful:
		return fmt.Sprintf("%s (%s, %s)", said, m.Source, doubt)
	}
	return fmt.Sprintf("%s (%s)", said, m.Source)
}

func share(value float64) string { return strconv.FormatFloat(value, 'f', -1, 64) }

// SlackWhy says which slack was taken and why: "10 % of a guess; 3 m at a stage box and 5 m at a console".
func (b Budget) SlackWhy(metres func(float64) string) string {
	m := b.Measured
	along, ends := m.PercentWhy(), m.EndsWhy(metres)
	if m.PercentBy == m.EndsBy && m.PercentBy != BySite {
		along = strings.TrimSuffix(along, whose[m.PercentBy])
	}
	return along + "; " + ends
}

var whose = map[Origin]string{ByPlan: ", the plan's", ByLink: ", the link's own"}

// PercentWhy says which share of the way was taken as slack and why.
func (m Measured) PercentWhy() string {
	said := share(m.Percent) + " % of the way"
	switch {
	case m.PercentBy != BySite:
		return said + whose[m.PercentBy]
	case m.Within:
		return "within one position nothing along the way"
	case m.Source == Unknown:
		return "nothing along a way that nobody gave"
	case m.Source == Taped:
		return "nothing along a taped way"
	}
	return share(m.Percent) + " % of " + [...]string{
		Guess: "a guess", Drawn: "a drawn way", Found: "a found way", Paced: "a paced way", Told: "what the venue says", Typed: "a typed length",
	}[m.Source]
}

// EndsWhy says how much was left at the ends and why.
func (m Measured) EndsWhy(metres func(float64) string) string {
	switch {
	case m.EndsBy != BySite:
		return metres(m.Ends[0]) + " at each end" + whose[m.EndsBy]
	case m.Within:
		return metres(nearEnd) + " at each end"
	case m.Stands[0] == m.Stands[1] && m.Stands[0] == Anything:
		return metres(m.Ends[0]) + " at each end"
	case m.Stands[0] == m.Stands[1]:
		return fmt.Sprintf("%s at each %s", metres(m.Ends[0]), m.Stands[0])
	}
	return fmt.Sprintf("%s and %s", m.endWhy(0, metres), m.endWhy(1, metres))
}

func (m Measured) endWhy(end int, metres func(float64) string) string {
	if m.Stands[end] == Anything {
		return metres(m.Ends[end]) + " at the " + [...]string{"near", "far"}[end] + " end"
	}
	return metres(m.Ends[end]) + " at the " + m.Stands[end].String()
}
