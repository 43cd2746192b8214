package text

import (
	"fmt"
	"math"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// NewLine is a house line that is being made: what was typed, and what is guessed from.
type NewLine struct {
	Name   string
	Kind   plan.CableKindID
	Length string
	// Guess says where kind and length come from; blank where neither is known.
	Guess string
}

// NewLineFrom begins a house line with a free name, and from a selected link with its kind of cable and its run: a guess, and
// said to be one.
func NewLineFrom(p *plan.Plan, id plan.LinkID, units words.Units) NewLine {
	line := NewLine{Name: freeLineName(p)}
	link, found := p.Link(id)
	if !found {
		return line
	}
	line.Kind = link.FillKind
	for _, segment := range p.SegmentsOf(id) {
		line.Kind = kindOf(p, segment).ID
	}
	line.Length = units.Metres(math.Ceil(budget.Of(p, link).Run))
	line.Guess = "A guess from " + link.Name + ": its kind of cable and its run. Ask the venue for both, or measure."
	return line
}

// freeLineName is the first of H01, H02, … that no house line bears.
func freeLineName(p *plan.Plan) string {
	taken := map[string]bool{}
	for line := range p.HouseLines.All() {
		taken[strings.ToUpper(strings.TrimSpace(line.Name))] = true
	}
	for n := 1; ; n++ {
		if name := fmt.Sprintf("H%02d", n); !taken[name] {
			return name
		}
	}
}

// Line is the house line, or why it cannot be made yet.
func (n NewLine) Line(units words.Units) (plan.HouseLine, error) {
	name, err := fields.Of(plan.HouseLinesTable, "name").Words(n.Name)
	line := plan.HouseLine{Name: name, Kind: n.Kind}
	if err != nil {
		return line, err
	}
	if line.Name == "" {
		return line, fmt.Errorf("write what the venue calls it")
	}
	if line.Kind == "" {
		return line, fmt.Errorf("choose which kind of cable it is: ask the venue")
	}
	if strings.TrimSpace(n.Length) == "" {
		return line, fmt.Errorf("write its length from panel to panel, such as %s", units.Metres(45))
	}
	length, err := fields.Of(plan.HouseLinesTable, "length").Parse(units, n.Length)
	if err != nil {
		return line, err
	}
	line.Length = length
	return line, nil
}
