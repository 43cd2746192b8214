package medium_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/demo/demotest"
	"stageloom/model/medium"
	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// seamed is a link of a large plan: its line as pairline has it, and the same parts as a medium is asked about them.
type seamed struct {
	link   plan.Link
	on     standards.Transport
	lossDB float64
	line   pairline.Line
	parts  []seamedPart
}

// seamedPart is a cable with its length and temperature, or a joint.
type seamedPart struct {
	cable                *medium.Cable
	length, temperatureC float64
	joint                standards.Hardware
}

// seamedLinks are the graded links of a plan whose cables are all known.
func seamedLinks(r *budget.Reckoner, p *plan.Plan) (all []seamed) {
	for link := range p.Links.All() {
		b := r.Of(link)
		if !b.Graded || !b.HasMargin() {
			continue
		}
		one := seamed{link: link, on: *r.Transport(link.Transport), lossDB: b.LossDB, line: r.Line(link)}
		for _, part := range one.line.Parts {
			switch part := part.(type) {
			case pairline.Segment:
				cool := part
				cool.TemperatureC = pairline.ReferenceTemperatureC
				metre := cool.PerMetre()
				cable := medium.Cable{Known: true, PerMetre: medium.Loss{metre.A, metre.B, metre.C}, Screened: part.Screened}
				one.parts = append(one.parts, seamedPart{cable: &cable, length: part.Length, temperatureC: part.TemperatureC})
			case pairline.Interface:
				one.parts = append(one.parts, seamedPart{joint: standards.Hardware{Figures: part}})
			}
		}
		all = append(all, one)
	}
	return all
}

// through is the loss of a link's parts as its medium has it.
func (l *seamed) through(m medium.Medium) float64 {
	var loss medium.Loss
	for i := range l.parts {
		if part := &l.parts[i]; part.cable != nil {
			loss = loss.Plus(part.cable.PerMetre.Times(m.Warm(part.temperatureC, part.cable.Screened) * part.length))
		} else {
			loss = loss.Plus(m.Joint(part.joint))
		}
	}
	return m.DB(loss, l.on)
}

// What the seam costs: all links of a large plan by pairline alone, the same parts through the medium, and whole budgets,
// which measure ways, lay cables and grade as well. Both sums are the budget's own.
func BenchmarkTheSeam(b *testing.B) {
	p := demotest.Large(1)
	r := budget.NewReckoner(p)
	links := seamedLinks(r, p)
	require.Greater(b, len(links), 500)
	m, known := medium.Of(standards.BalancedPair)
	require.True(b, known)
	for i := range links {
		require.InDelta(b, links[i].lossDB, links[i].line.Loss().At(pairline.GradeMHz), 1e-9, links[i].link.Name)
		require.InDelta(b, links[i].lossDB, links[i].through(m), 1e-9, links[i].link.Name)
	}
	const rounds = 20 // of what is short beside a budget
	var direct, through, budgets time.Duration
	sum := 0.0
	for b.Loop() {
		start := time.Now()
		for range rounds {
			for i := range links {
				sum += links[i].line.Loss().At(pairline.GradeMHz)
			}
		}
		alone := time.Now()
		for range rounds {
			for i := range links {
				sum += links[i].through(m)
			}
		}
		asked := time.Now()
		for i := range links {
			sum += r.Of(links[i].link).LossDB
		}
		direct += alone.Sub(start) / rounds
		through += asked.Sub(alone) / rounds
		budgets += time.Since(asked)
	}
	require.Positive(b, sum)
	b.ReportMetric(float64(through)/float64(direct), "medium/pairline")
	b.ReportMetric(float64(budgets)/float64(direct), "budget/pairline")
	b.ReportMetric(100*float64(through)/float64(budgets), "medium-%-of-budget")
}
