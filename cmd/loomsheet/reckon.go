package main

import (
	"fmt"
	"strings"

	"stageloom/model/quantity"
	"stageloom/model/standards"
)

// reckonCommand reckons a chain of cables without a plan.
type reckonCommand struct {
	Chain []string `arg:"" optional:"" help:"Cables joined by \"+\", e.g. \"cat6a 70 + cat5e 45\"; see above."`

	Transport filled `default:"aes50" placeholder:"NAME" help:"What runs over it: aes50 (unless stated), 100base-tx or 1000base-t."`
	Temp      filled `placeholder:"TEMPERATURE" help:"Temperature of the cable, e.g. 20, \"86 °F\"; 30 °C unless stated, and then more is wanted in hand."`
	Coupler   filled `default:"cat6a" placeholder:"NAME" help:"Hardware of the couplers: cat5e, cat6 or cat6a (unless stated)."`
	Wanted    filled `placeholder:"DB" help:"Margin wanted in hand, 1 to 20 dB."`
	Rule      filled `placeholder:"NAME" help:"Another limit rule than the transport's: aes50-field, ieee-link-segment, channel-cat5e, channel-cat6 or channel-cat6a."`
	Reach     bool   `help:"How far each kind of cable goes, by joins. The lengths, or the whole chain, may be left out then."`
	Sources   bool   `help:"Where the figures come from."`
	JSON      bool   `name:"json" help:"Print for other programs; \"loomsheet schema reckon\" tells the keys."`
}

// Help follows the flags in --help.
func (reckonCommand) Help() string {
	return "How a chain is written:\n\n" + asWritten(standards.ChainGrammar)
}

// Run reckons and lays out what comes of it.
func (c *reckonCommand) Run(a *answer) error {
	chain := strings.TrimSpace(strings.Join(c.Chain, " "))
	if c.Reach && withoutLengths(chain) {
		return c.reachAlone(a, chain)
	}
	question, err := c.question(chain)
	if err != nil {
		return err
	}
	reckoning, err := standards.Reckon(question)
	if err != nil {
		return err
	}
	result := reckonResult{Reckoning: reckoning, wantedBy: c.wantedBy(reckoning.Setting)}
	if c.Reach {
		if result.reaches, err = reachesByJoins(reckoning.Setting, constructionsOf(reckoning.Chain), len(reckoning.Chain.Cables)-1); err != nil {
			return err
		}
	}
	if c.JSON {
		return a.json(result.keys())
	}
	result.print(&a.page, c.Sources)
	return nil
}

// question reads the flags.
func (c *reckonCommand) question(chain string) (standards.Question, error) {
	question := standards.Question{
		Chain: chain, Transport: standards.TransportSlug(slug(c.Transport)),
		Coupler: standards.HardwareSlug(slug(c.Coupler)), Rule: standards.RuleSlug(slug(c.Rule)),
	}
	if c.Temp != "" {
		celsius, err := quantity.ReadTemperature(string(c.Temp), quantity.Metric)
		if err != nil {
			return question, fmt.Errorf("--temp: %w", err)
		}
		question.TemperatureC = &celsius
	}
	if c.Wanted != "" {
		decibels, err := quantity.ReadDecibels(string(c.Wanted))
		if err != nil {
			return question, fmt.Errorf("--wanted: %w", err)
		}
		if decibels < standards.LeastWantedMarginDB { // Reckon takes 0 as not stated
			return question, fmt.Errorf("--wanted: the margin is %s; write %d dB or more", quantity.PrintDecibels(decibels, 1), standards.LeastWantedMarginDB)
		}
		question.WantedMarginDB = decibels
	}
	return question, nil
}

// wantedBy says why this margin is wanted.
func (c *reckonCommand) wantedBy(setting standards.Setting) string {
	usual := standards.DefaultTemperatureC(standards.Indoors, nil)
	switch {
	case c.Wanted != "":
		return "in hand, as --wanted says"
	case !setting.TemperatureStated:
		return "in hand, since no temperature was given"
	case setting.TemperatureC < usual:
		return fmt.Sprintf("in hand, since the cable may be warmer than %s: %s is usual", temperature(setting.TemperatureC), temperature(usual))
	}
	return "in hand"
}

// slug writes a name as the tables do, whatever the case it was typed in.
func slug(name filled) string { return strings.ToLower(strings.TrimSpace(string(name))) }

// constructionsOf gives each construction of a chain once.
func constructionsOf(chain standards.Chain) []standards.Construction {
	var found []standards.Construction
	seen := map[standards.Construction]bool{}
	for _, cable := range chain.Cables {
		if !seen[cable.Construction] {
			seen[cable.Construction] = true
			found = append(found, cable.Construction)
		}
	}
	return found
}
