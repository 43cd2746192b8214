package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"stageloom/model/standards"
)

// leastJoins is how many joins the table of reaches goes to at least.
const leastJoins = 3

// kindReach is how far one kind of cable goes with 0, 1, 2, … joins.
type kindReach struct {
	cable   standards.Construction
	byJoins []standards.Reach
}

// withoutLengths reports whether a chain names kinds of cable and no length, or nothing at all.
func withoutLengths(chain string) bool {
	for term := range strings.SplitSeq(chain, "+") {
		if len(strings.Fields(term)) > 1 {
			return false
		}
	}
	return true
}

// reachAlone answers where there is nothing to grade: the kinds named, or the usual reel of every category.
func (c *reckonCommand) reachAlone(a *answer, chain string) error {
	kinds, err := kindsOf(chain)
	if err != nil {
		return err
	}
	// Any chain will do to look up what the flags name.
	question, err := c.question("cat6a 1")
	if err != nil {
		return err
	}
	setting, err := standards.Settle(question)
	if err != nil {
		return err
	}
	reaches, err := reachesByJoins(setting, kinds, leastJoins)
	if err != nil {
		return err
	}
	if c.JSON {
		return a.json(settingKeys(setting, reaches, reachSources(setting, kinds)))
	}
	printReaches(&a.page, setting, reaches)
	if c.Sources {
		a.blank()
		printSources(&a.page, reachSources(setting, kinds))
	}
	return nil
}

func kindsOf(chain string) ([]standards.Construction, error) {
	var kinds []standards.Construction
	if chain == "" {
		for _, category := range standards.Cables() {
			kinds = append(kinds, standards.Reel(category))
		}
		return kinds, nil
	}
	for i, term := range strings.Split(chain, "+") {
		term = strings.TrimSpace(term)
		if term == "" {
			return nil, &standards.ChainError{Err: errors.New(`there is no cable beside a "+"; write, for instance, cat6a + cat5e`)}
		}
		kind, err := standards.ParseConstruction(term)
		if err != nil {
			return nil, fmt.Errorf("chain, cable %d, %q: %w", i+1, term, err)
		}
		kinds = append(kinds, kind)
	}
	return kinds, nil
}

// reachesByJoins reckons how far each kind goes with no join up to joins, and up to leastJoins at least.
func reachesByJoins(setting standards.Setting, kinds []standards.Construction, joins int) ([]kindReach, error) {
	var found []kindReach
	for _, kind := range kinds {
		next := kindReach{cable: kind}
		for n := range max(joins, leastJoins) + 1 {
			reach, err := standards.ReachOf(kind, setting.TemperatureC, setting.Coupler, n, setting.Rule, setting.WantedMarginDB)
			if err != nil {
				return nil, err
			}
			next.byJoins = append(next.byJoins, reach)
		}
		found = append(found, next)
	}
	return found, nil
}

func printReaches(p *page, setting standards.Setting, reaches []kindReach) {
	p.hang("", fmt.Sprintf("Reach for %s, under %s at 100 MHz (%s: %s); computed in closed form", conditions(setting, 1),
		decibels(setting.Rule.LimitDB()), setting.Rule.Name, status(setting.Rule.Status)))
	p.blank()
	p.line("%s%s%s%s", left("", 44), right("joins", 6), right("to the limit", 14), right(decibels(setting.WantedMarginDB)+" in hand", 16))
	for _, kind := range reaches {
		name := wrap(kind.cable.Label(), 42)
		for i, reach := range kind.byJoins {
			p.line("%s%s%s%s", left("  "+nth(name, i), 44), right(fmt.Sprint(reach.Couplers), 6), right(reachMetres(reach.Length), 14), right(reachMetres(reach.Wanted), 16))
		}
	}
	if stated := setting.Transport.StatedDistance; stated > 0 {
		p.blank()
		p.hang("", fmt.Sprintf("Past %.0f m a run is outside what %s states, whatever its loss.", stated, setting.Transport.Name))
	}
}

// reachMetres rounds a reach down: what is printed is reached.
func reachMetres(length float64) string { return metres(math.Floor(length*10+1e-6) / 10) }
