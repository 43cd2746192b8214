package picking_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picking"
)

// plain is a problem of lines with one loss for each tenth of a metre, one sort of ends and joints of 400.
func plain(lines []picking.Line, perUnit []int, links ...picking.Link) *picking.Problem {
	p := &picking.Problem{Lines: lines, Links: links, Joints: [][]picking.Joint{{{Fits: true, Loss: []int{400}}}}}
	for i := range p.Links {
		if p.Links[i].Usable != nil {
			continue
		}
		for n, line := range lines {
			p.Links[i].Usable = append(p.Links[i].Usable, picking.Usable{Line: n, Loss: []int{line.Length * perUnit[n]}, First: []int{}, Last: []int{}})
		}
	}
	return p
}

func TestWhyALinkIsUnserved(t *testing.T) {
	short := []picking.Line{{Length: 100, Count: 2}}
	for _, c := range []struct {
		sentence string
		problem  *picking.Problem
		wanted   []picking.Verdict
	}{
		{
			"no kind may be on it", plain(short, []int{10}, picking.Link{Need: 50, Priority: 1, Usable: []picking.Usable{}}),
			[]picking.Verdict{{Link: 0, Reason: picking.NoKind}},
		},
		{
			"the joins allowed do not reach", plain(short, []int{10}, picking.Link{Need: 320, Priority: 1, MaxJoins: 3}),
			[]picking.Verdict{{Link: 0, Reason: picking.TooShort, Short: 120}},
		},
		{
			"it loses too much", plain(short, []int{10}, picking.Link{Need: 150, Priority: 1, MaxJoins: 3, Limit: []int{2100}}),
			[]picking.Verdict{{Link: 0, Reason: picking.OverLimit, Over: 300}},
		},
		{
			"its ends do not fit", plain(short, []int{10}, picking.Link{Need: 80, Priority: 1, MaxJoins: 3, Usable: []picking.Usable{{Line: 0, Loss: []int{}, First: []int{}}}}),
			[]picking.Verdict{{Link: 0, Reason: picking.Unfit}},
		},
		{
			"more important links hold the reels", plain(short, []int{10}, picking.Link{Need: 80, Priority: 1}, picking.Link{Need: 80, Priority: 5}, picking.Link{Need: 80, Priority: 3}),
			[]picking.Verdict{{Link: 0, Reason: picking.CrowdedOut, By: []int{2, 1}}},
		},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			a := picking.Pick(context.Background(), c.problem, nil)
			require.Equal(t, c.wanted, picking.Explain(c.problem, a))
		})
	}
}

// Between cables that stay, the same line may be usable in more than one way.
func TestALineThatIsUsableInTwoWays(t *testing.T) {
	lines := []picking.Line{{Length: 100, Count: 2}}
	p := plain(lines, []int{10}, picking.Link{Need: 80, Priority: 1, MaxJoins: 3, Limit: []int{900}, Usable: []picking.Usable{
		{Line: 0, Loss: []int{1000}, First: []int{}},
		{Line: 0, Loss: []int{1000}, First: []int{50}, Last: []int{50}},
	}})
	a := picking.Pick(context.Background(), p, nil)
	require.Equal(t, []picking.Verdict{{Link: 0, Reason: picking.OverLimit, Over: 200}}, picking.Explain(p, a))
}

// A link is crowded out exactly when it can be served alone.
func TestEveryUnservedLinkIsExplained(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	reasons, together := map[picking.Reason]int{}, 0
	for range 2000 {
		p := random(r)
		a := picking.Pick(context.Background(), p, nil)
		for _, v := range picking.Explain(p, a) {
			reasons[v.Reason]++
			alone := *p
			alone.Links, alone.Apart, alone.Spares, alone.Wholes = []picking.Link{p.Links[v.Link]}, nil, nil, nil
			served := bruteBest(&alone)[picking.Unserved] == 0
			if served && v.Reason == picking.OverLimit {
				overTogether(t, p, v)
				together++
				continue
			}
			require.Equal(t, served, v.Reason == picking.CrowdedOut, "%+v", v)
			switch v.Reason {
			case picking.CrowdedOut:
				require.NotEmpty(t, v.By)
				require.NotContains(t, v.By, v.Link)
			case picking.TooShort:
				require.Positive(t, v.Short)
			case picking.OverLimit:
				raised := alone
				raised.Links = []picking.Link{alone.Links[0]}
				raised.Links[0].Limit = append([]int{}, alone.Links[0].Limit...)
				for f := range raised.Links[0].Limit {
					if raised.Links[0].Limit[f] > 0 {
						raised.Links[0].Limit[f] += v.Over
					}
				}
				require.Zero(t, bruteBest(&raised)[picking.Unserved], "so much more would do")
				for f := range raised.Links[0].Limit {
					if raised.Links[0].Limit[f] > 0 {
						raised.Links[0].Limit[f]--
					}
				}
				require.Positive(t, bruteBest(&raised)[picking.Unserved], "and no less")
			}
		}
	}
	require.Positive(t, together, "wholes that are over come up")
	for _, reason := range []picking.Reason{picking.NoKind, picking.TooShort, picking.Unfit, picking.OverLimit, picking.CrowdedOut} {
		require.Positive(t, reasons[reason], "reason %d comes up", reason)
	}
}

// overTogether makes sure that a link which could be served alone is over with the other pieces of its whole, by so much and
// no less, however much stock there is.
func overTogether(t *testing.T, p *picking.Problem, v picking.Verdict) {
	t.Helper()
	q := *p
	q.Apart, q.Spares, q.Links = nil, nil, []picking.Link{p.Links[0], p.Links[1]}
	q.Lines = append(append([]picking.Line{}, p.Lines...), p.Lines...) // each link has the whole stock for itself
	q.Links[1].Before, q.Links[1].Usable = nil, nil
	for _, u := range p.Links[1].Usable {
		u.Line += len(p.Lines)
		q.Links[1].Usable = append(q.Links[1].Usable, u)
	}
	for more, served := range map[int]bool{0: false, v.Over - 1: false, v.Over: true} {
		raised := q
		raised.Wholes = []picking.Whole{{Links: []int{0, 1}, Limit: p.Wholes[0].Limit + more}}
		require.Equal(t, served, bruteBest(&raised)[picking.Unserved] == 0, "%d more of %d", more, v.Over)
	}
}

// The fewest reels to hire are compared with adding reels one more at a time.
func TestTheSmallestHireServesAll(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	hires := 0
	for range 800 {
		p := random(r)
		p.Spares = nil
		for i := range p.Lines {
			p.Lines[i].Case = 0
		}
		hired, a := picking.Hire(context.Background(), p)
		require.True(t, a.Proved)
		total := 0
		with := *p
		with.Lines = append([]picking.Line{}, p.Lines...)
		for _, use := range hired {
			total += use.Count
			with.Lines[use.Line].Count += use.Count
		}
		plenty := *p
		plenty.Lines = append([]picking.Line{}, p.Lines...)
		for i := range plenty.Lines {
			plenty.Lines[i].Count += 12
		}
		least := bruteBest(&plenty)[picking.Unserved]
		require.Equal(t, least, bruteBest(&with)[picking.Unserved], "hired %v", hired)
		if total == 0 {
			continue
		}
		hires++
		require.False(t, servedWith(p, total-1, 0, least), "%d are enough, %v were hired: %+v", total-1, hired, p)
	}
	require.Greater(t, hires, 100)
}

// servedWith reports whether so many more reels, of any lines from one on, leave no more than least unserved.
func servedWith(p *picking.Problem, more, from, least int) bool {
	if more == 0 {
		return bruteBest(p)[picking.Unserved] == least
	}
	for line := from; line < len(p.Lines); line++ {
		with := *p
		with.Lines = append([]picking.Line{}, p.Lines...)
		with.Lines[line].Count++
		if servedWith(&with, more-1, line, least) {
			return true
		}
	}
	return false
}
