package main

import (
	"fmt"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// link is a line with a name to report it by.
type link struct {
	name string
	line pairline.Line
}

// chains are links worth naming: what crews use, and what is hard on a cascade.
var chains = []struct {
	name, chain  string
	temperatureC float64
}{
	{"one reel of stranded 5e", "cat5e 50", 20},
	{"two reels of stranded 5e", "cat5e 70 + cat5e 45", 20},
	{"low-loss 6A and 5e at 30 °C", "cat6a-own:17.6 70 + cat5e:unscreened 45", 30},
	{"two reels of unlike impedance", "cat5e:85ohm 50 + cat5e:115ohm 50", 20},
	{"short pieces of unlike impedance that ring", "cat5e:85ohm 2 + cat5e:115ohm 2 + cat5e:85ohm 2 + cat5e:115ohm 2", 20},
	{"five kinds at 60 °C", "cat5e:26awg 10 + cat6 20 + cat6a 30 + cat7 40 + cat8 10", 60},
	{"one kilometre of solid 5e", "cat5e:solid 1000", 20},
}

// namedLinks reads the chains, joined by Cat 5e couplers, the worst there are.
func namedLinks() ([]link, error) {
	coupler, err := standards.HardwareBySlug(standards.UnknownCoupler)
	if err != nil {
		return nil, err
	}
	var links []link
	for _, c := range chains {
		chain, err := standards.ParseChain(c.chain)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.name, err)
		}
		line, err := chain.Line(c.temperatureC, coupler)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.name, err)
		}
		links = append(links, link{c.name, line})
	}
	return links, nil
}
