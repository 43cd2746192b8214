// Command cascades prints links and what package pairline reckons for them as JSON, so that general tools can reckon the
// same links from the same inputs and be compared.
//
//	cascades -seed 7 -random 12
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"time"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// partInput is a part as other tools are given it: raw inputs, nothing reckoned.
type partInput struct {
	Kind         string     `json:"kind"` // "cable" or "connection"
	Name         string     `json:"name"`
	LossFigures  [3]float64 `json:"loss_dB_per_100m,omitzero"` // k1, k2, k3 of a cable
	Length       float64    `json:"length_m,omitzero"`
	StrandFactor float64    `json:"strand_factor,omitzero"`
	UnitFactor   float64    `json:"unit_factor,omitzero"`
	Temperature  float64    `json:"temperature_C"`
	Screened     bool       `json:"screened"`
	Impedance    float64    `json:"impedance_ohm,omitzero"`
	K            float64    `json:"k_dB,omitzero"`
	ReturnLoss   float64    `json:"return_loss_dB_at_1MHz,omitzero"`
}

// figures are what package pairline reckons at one frequency.
type figures struct {
	Freq           float64 `json:"freq_MHz"`
	Loss           float64 `json:"loss_dB"`
	ReturnLossNear float64 `json:"return_loss_near_dB"`
	ReturnLossFar  float64 `json:"return_loss_far_dB"`
}

// linkRow is one link with its inputs and figures.
type linkRow struct {
	Name    string      `json:"name"`
	Parts   []partInput `json:"parts"`
	Figures []figures   `json:"figures"`
}

// timing is how long one sweep of one link takes here, for a ratio within one run.
type timing struct {
	Link    string  `json:"link"`
	Points  int     `json:"points"`
	Seconds float64 `json:"sweep_s"`
}

func main() {
	seed := flag.Uint64("seed", 7, "seed of the random links")
	random := flag.Int("random", 12, "number of random links")
	flag.Parse()
	if err := run(*seed, *random); err != nil {
		fmt.Fprintln(os.Stderr, "cascades:", err)
		os.Exit(1)
	}
}

func run(seed uint64, random int) error {
	links, err := namedLinks()
	if err != nil {
		return err
	}
	source := rand.New(rand.NewPCG(seed, seed))
	for i := range random {
		links = append(links, link{fmt.Sprintf("random link %d of seed %d", i+1, seed), randomLine(source)})
	}
	var out struct {
		Links  []linkRow `json:"links"`
		Timing timing    `json:"timing"`
	}
	for _, l := range links {
		if err := l.line.Validate(); err != nil {
			return fmt.Errorf("%s: %w", l.name, err)
		}
		out.Links = append(out.Links, row(l))
	}
	out.Timing = clock(links[len(links)-1])
	return json.NewEncoder(os.Stdout).Encode(out)
}

// row gives a link's inputs and its figures at round and at odd frequencies.
func row(l link) linkRow {
	r := linkRow{Name: l.name}
	for _, part := range l.line.Parts {
		r.Parts = append(r.Parts, input(part))
	}
	for _, response := range l.line.Responses([]float64{1, 2.718, 4, 10, 16, 31.25, 47.11, 62.5, 100}) {
		r.Figures = append(r.Figures, figures{
			response.FreqMHz, response.LossDB, response.ReturnLossNearDB, response.ReturnLossFarDB,
		})
	}
	return r
}

func input(part pairline.Part) partInput {
	switch p := part.(type) {
	case pairline.Segment:
		return partInput{
			Kind: "cable", Name: p.Cable.Name, LossFigures: [3]float64{p.Cable.K1, p.Cable.K2, p.Cable.K3},
			Length: p.Length, StrandFactor: p.StrandFactor, UnitFactor: p.UnitFactor,
			Temperature: p.TemperatureC, Screened: p.Screened, Impedance: p.Impedance,
		}
	case pairline.Interface:
		return partInput{Kind: "connection", Name: p.Name, K: p.K, ReturnLoss: p.ReturnLossDB}
	default:
		panic(fmt.Sprintf("a line holds a part of unknown type %T", part))
	}
}

// clock takes the best of several sweeps.
func clock(l link) timing {
	grid := pairline.LogGrid(pairline.CascadePoints)
	best := time.Hour
	for range 20 {
		start := time.Now()
		l.line.Responses(grid)
		best = min(best, time.Since(start))
	}
	return timing{Link: l.name, Points: len(grid), Seconds: best.Seconds()}
}

// randomLine joins one to six cables of random kind, build and temperature by couplers of random hardware; every third
// has a panel with an inner lead in front.
func randomLine(source *rand.Rand) pairline.Line {
	var line pairline.Line
	between := func(low, high float64) float64 { return low + (high-low)*source.Float64() }
	hardware := func() pairline.Interface {
		all := standards.AllHardware()
		return all[source.IntN(len(all))].Figures
	}
	cable := func(longest float64) pairline.Segment {
		cables, conductors := standards.Cables(), standards.Conductors()
		built := standards.Reel(cables[source.IntN(len(cables))])
		built.Conductor = conductors[source.IntN(len(conductors))]
		built.Screened = source.IntN(2) == 0
		built.Impedance = between(85, 115)
		segment := built.Segment(between(0.3, longest), between(-10, 60))
		segment.UnitFactor = between(0.85, 1.2)
		return segment
	}
	if source.IntN(3) == 0 {
		line.Parts = append(line.Parts, hardware(), cable(2), hardware())
	}
	for i := range 1 + source.IntN(6) {
		if i > 0 {
			line.Parts = append(line.Parts, hardware(), hardware())
		}
		line.Parts = append(line.Parts, cable(60))
	}
	return line
}
