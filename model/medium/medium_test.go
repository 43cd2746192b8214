package medium_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/catalogue"
	"stageloom/model/fields"
	"stageloom/model/medium"
	"stageloom/model/medium/mediumtest"
	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// playground is two pairs of cans: 60 m, which bears one knot, and 120 m, which bears none.
func playground(t *testing.T) *plan.Plan {
	t.Helper()
	t.Cleanup(mediumtest.Register())
	p, err := mediumtest.Plan(60, 120)
	require.NoError(t, err)
	return p
}

// named is a link of a plan, whose ids come in no order.
func named(p *plan.Plan, name string) (link plan.Link) {
	for one := range p.Links.All() {
		if one.Name == name {
			link = one
		}
	}
	return link
}

// strung is the plan with string of 30 m on each link, knotted until it reaches.
func strung(t *testing.T, p *plan.Plan) *plan.Plan {
	t.Helper()
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		for name, count := range map[string]int{"S1": 2, "S2": 4} {
			e.SetSegments(named(p, name).ID, slices.Repeat([]plan.Segment{{Kind: mediumtest.Twine, Length: 30}}, count))
		}
		return nil
	})
	require.NoError(t, err)
	return next
}

func TestAMediumIsBudgetedAndGraded(t *testing.T) {
	p := strung(t, playground(t))
	r := budget.NewReckoner(p)
	good, bad := r.Of(named(p, "S1")), r.Of(named(p, "S2"))

	require.True(t, good.Graded)
	require.Equal(t, "by ear", good.Reference())
	require.InDelta(t, 6+2, good.LossDB, 1e-9, "60 m and a knot")
	require.Equal(t, 1, good.Interfaces, "a knot is one connection")
	require.InDelta(t, 12, good.LimitDB, 0)
	require.InDelta(t, 4, good.MarginDB, 1e-9)
	require.Equal(t, budget.Ample, good.Grade)

	require.InDelta(t, 12+6, bad.LossDB, 1e-9, "120 m and three knots")
	require.Equal(t, budget.Over, bad.Grade)
	require.Equal(t, "over by 6.0 dB by ear", bad.Why())

	t.Run("it has reaches, and no curves", func(t *testing.T) {
		reaches := r.KindReaches(named(p, "S1"))
		require.Len(t, reaches, 1)
		require.InDelta(t, 120, reaches[0].Joins[0].AtLimit, 1e-9)
		require.InDelta(t, 100, reaches[0].Joins[1].AtLimit, 1e-9)
		require.InDelta(t, 90, reaches[0].Joins[1].Wanted, 1e-9)
		_, some := good.Curve()
		require.False(t, some)
		require.False(t, bad.AboveStandard())
		require.Empty(t, r.Line(named(p, "S1")).Parts)
		_, err := r.Advise(named(p, "S1"))
		require.ErrorIs(t, err, budget.ErrNoLine)
	})
	t.Run("a rule of its own grades it, and one of pairs doesn't", func(t *testing.T) {
		link := named(p, "S2")
		link.Rule = "shout"
		require.Equal(t, budget.Ample, r.Of(link).Grade)
		link.Rule = "ieee-link-segment"
		require.InDelta(t, 12, r.Of(link).LimitDB, 0)
	})
	t.Run("cable of another medium has no loss in it", func(t *testing.T) {
		next, err := plan.Do(p, nil, func(e *plan.Edit) error {
			e.SetSegments(named(p, "S1").ID, []plan.Segment{{Kind: "cat6a", Length: 60}})
			return catalogue.UseCable(e, "cat6a")
		})
		require.NoError(t, err)
		b := budget.Of(next, named(next, "S1"))
		require.True(t, b.Unknown())
		require.Equal(t, budget.Uncabled, b.Grade)
	})
}

func TestAMediumThatIsTakenOutGradesNothing(t *testing.T) {
	undo := mediumtest.Register()
	p, err := mediumtest.Plan(60)
	require.NoError(t, err)
	undo()
	b := budget.NewReckoner(p).All()[0]
	require.False(t, b.Graded)
	require.Empty(t, b.Reference())
	require.Equal(t, "at 100 MHz", medium.References(standards.Transports()...))
}

// A plan of string and of data cable is picked for at once: each has the losses of its own medium.
func TestAMediumIsPickedFor(t *testing.T) {
	p, err := plan.Do(playground(t), plan.NewIDSource(4, 4), func(e *plan.Edit) error {
		require.NoError(t, catalogue.UseCable(e, "cat6a"))
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "box", Name: "A", Transport: "aes50", Lockable: true, MetalShell: true})
		near := e.AddDevice(plan.Device{Name: "Box 1", Kind: "box", Y: 90})
		far := e.AddDevice(plan.Device{Name: "Box 2", Kind: "box", X: 50, Y: 90})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 30, Quantity: 4})
		e.AddLink(plan.Link{Name: "L1", Transport: "aes50", From: near, FromPort: "A", To: far, ToPort: "A"})
		return nil
	})
	require.NoError(t, err)
	proposal, err := cabling.Pick(context.Background(), p, cabling.Request{}, nil)
	require.NoError(t, err)
	require.Len(t, proposal.Unserved, 1)
	require.Equal(t, "S2 cannot be reached from all of the stock: over by 6.0 dB by ear", proposal.Unserved[0].String())
	picked, err := plan.Do(p, plan.NewIDSource(5, 5), proposal.Edit)
	require.NoError(t, err)
	for _, b := range budget.NewReckoner(picked).All() {
		if b.Name != "S2" {
			require.Zero(t, b.Missing, b.Name)
			require.Equal(t, budget.Ample, b.Grade, b.Name)
		}
	}
}

func TestAMediumIsChecked(t *testing.T) {
	p := strung(t, playground(t))
	p, err := plan.Do(p, nil, func(e *plan.Edit) error {
		link := named(p, "S1")
		link.Rule = "ieee-link-segment"
		plan.Put(e, link)
		pieces := p.SegmentsOf(link.ID)
		pieces[1].Coupler = "cat6a"
		e.SetSegments(link.ID, pieces)
		return nil
	})
	require.NoError(t, err)
	var said []string
	for _, finding := range assess.Of(p).Findings {
		said = append(said, finding.What+" | "+finding.Remedy)
	}
	all := strings.Join(said, "\n")
	require.Contains(t, all, "S2 is over by 6.0 dB by ear | Do not use it like this.")
	require.Contains(t, all, `S1 names the limit rule "ieee-link-segment", which is not known here: it is graded by the whisper rule`)
	require.Contains(t, all, `S1 names the coupler "cat6a", which is not known here: it counts as a reef knot`)
	for _, word := range []string{"MHz", "fibre", "copper", "Cat 5e"} {
		require.NotContains(t, all, word)
	}
}

func TestALinkOffersTheRulesOfItsMedium(t *testing.T) {
	p := playground(t)
	var offered []string
	for _, option := range fields.Of("links", "rule").Options(fields.State{Plan: p}, named(p, "S1")) {
		offered = append(offered, option.Words)
	}
	require.Equal(t, []string{"the plan's: whisper rule", "whisper rule", "shout rule"}, offered)
}

// The balanced pair answers as pairline does.
func TestThePairIsPairline(t *testing.T) {
	pair := medium.Pair{}
	loss := pairline.Loss{A: 2.2, B: 0.028, C: 0.1}
	require.InDelta(t, loss.At(100), pair.DB(medium.Loss{loss.A, loss.B, loss.C}, standards.Transport{}), 1e-12)
	require.InDelta(t, loss.At(7), pair.Curve(medium.Loss{loss.A, loss.B, loss.C})(7), 0)
	require.InDelta(t, 24, pair.StandardDB(), 0.05, "IEEE 802.3 40.7.2.1, from memory")
	row, err := standards.HardwareBySlug("cat5e")
	require.NoError(t, err)
	require.InDelta(t, 0.4, pair.DB(pair.Joint(row), standards.Transport{}), 1e-12, "0.04·√100, TIA-568-C.2")
	require.Equal(t, "at 100 MHz", medium.References(standards.Transports()...))
	found, known := medium.Of(standards.BalancedPair)
	require.True(t, known)
	require.Equal(t, pair, found)
}

// Cans and bells stand on the same string: what it loses is judged by ear there and by the pull here.
func TestTransportsOfOneMediumHaveReferencesOfTheirOwn(t *testing.T) {
	p, err := plan.Do(strung(t, playground(t)), plan.NewIDSource(6, 6), func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "bell", Name: "Bell", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "bell", Name: "Loop", Transport: mediumtest.Bells})
		near, far := e.AddDevice(plan.Device{Name: "Bell 1", Kind: "bell", Y: 50}), e.AddDevice(plan.Device{Name: "Bell 2", Kind: "bell", X: 120, Y: 50})
		link := e.AddLink(plan.Link{Name: "B1", Transport: mediumtest.Bells, From: near, FromPort: "Loop", To: far, ToPort: "Loop"})
		e.SetSegments(link, slices.Repeat([]plan.Segment{{Kind: mediumtest.Twine, Length: 30}}, 4))
		return nil
	})
	require.NoError(t, err)
	r := budget.NewReckoner(p)
	heard, pulled := r.Of(named(p, "S2")), r.Of(named(p, "B1"))
	require.Equal(t, heard.Loss, pulled.Loss, "the same string")
	require.InDelta(t, 12+6, heard.LossDB, 1e-9)
	require.InDelta(t, 6+3, pulled.LossDB, 1e-9)
	require.InDelta(t, 6+3, pulled.OwnDB, 1e-9)
	last := pulled.Parts[len(pulled.Parts)-1]
	require.InDelta(t, 6+3, last.BeforeDB+last.LossDB, 1e-9, "and so in its parts")
	require.Equal(t, []string{"by ear", "by the pull"}, []string{heard.Reference(), pulled.Reference()})
	require.Equal(t, budget.Over, heard.Grade)
	require.Equal(t, budget.Ample, pulled.Grade)
	require.InDelta(t, 240, r.KindReaches(named(p, "B1"))[0].Joins[0].AtLimit, 1e-9, "12 dB at 0.5 dB every 10 m")
	require.Equal(t, "at 100 MHz or by ear or by the pull", medium.References(standards.Transports()...))
}

func TestHardwareIsChosenAmongThatOfTheMedium(t *testing.T) {
	names := func(rows []standards.Hardware) (all []string) {
		for _, row := range rows {
			all = append(all, row.Name)
		}
		return all
	}
	words := func(options []fields.Option) (all []string) {
		for _, option := range options {
			all = append(all, option.Words)
		}
		return all
	}
	pairs := names(standards.HardwareOf(standards.BalancedPair))
	p := strung(t, playground(t))
	state, data := fields.State{Plan: p}, plan.Link{Transport: "aes50"}
	require.Equal(t, []string{"none", "a reef knot"}, words(fields.Of("links", "from_panel").Options(state, named(p, "S1"))))
	require.Equal(t, append([]string{"none"}, pairs...), words(fields.Of("links", "to_panel").Options(state, data)))
	require.Equal(t, append([]string{"none"}, pairs...), words(fields.Of("links", "to_panel").Options(state, plan.Link{Transport: "fibre"})),
		"where no loss is reckoned it is that of the first medium")
	require.Equal(t, []string{"the plan's", "a reef knot"}, words(fields.Of("segments", "coupler").Options(state, p.SegmentsOf(named(p, "S1").ID)[0])))
	require.Equal(t, append(slices.Clone(pairs), "a reef knot"), words(fields.Of("settings", "coupler").Options(state, p.Settings)), "a plan has cable of all")
}

func TestReach(t *testing.T) {
	require.InDelta(t, 90, medium.Reach(12, 3, 0.1), 1e-9)
	require.Zero(t, medium.Reach(12, 12, 0.1))
	require.True(t, math.IsInf(medium.Reach(12, 3, 0), 1))
}
