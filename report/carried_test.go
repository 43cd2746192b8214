package report_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/report"
)

// carriedPlan is a field with a stock of its own: a hired reel and a piece of two cables on links, spares of the house, one
// missing, and some that the house does not let out.
func carriedPlan(t *testing.T) *plan.Plan {
	p, err := plan.Do(field(t), plan.NewIDSource(3, 3), func(e *plan.Edit) error {
		for reel := range e.Now().Reels.All() {
			if err := e.RemoveReel(reel.ID); err != nil {
				return err
			}
		}
		plan.Put(e, plan.CableKind{ID: "heavy", Name: "Heavy", Media: "balanced-pair", Weight: plan.Some(10)})
		plan.Put(e, plan.CableKind{ID: "bare", Name: "Bare", Media: "balanced-pair"})
		first := e.AddCase(plan.Case{Name: "Box 1", Pieces: 2, Most: plan.Some(10), Weight: plan.Some(6)})
		second := e.AddCase(plan.Case{Name: "Box 2"})
		laid := e.AddReel(plan.Reel{Tag: "H1", Kind: "heavy", Length: 300, Case: first, Owner: "Lender", Hire: "R-9", Return: "2027-07-01"})
		e.AddReel(plan.Reel{Tag: "O1", Kind: "heavy", Length: 20, Case: first, Owner: "us"})
		e.AddReel(plan.Reel{Tag: "O2", Kind: "heavy", Length: 60.96, Case: first, Owner: "house"})
		e.AddReel(plan.Reel{Kind: "bare", Length: 5, Quantity: 7, Case: second})
		tied := e.AddReel(plan.Reel{Tag: "X1", Kind: "bare", Length: 30, Case: second, TiedInto: "Snake One"})
		e.AddReel(plan.Reel{Tag: "X2", Kind: "bare", Length: 30, Case: second, TiedInto: "snake one "})
		e.AddReel(plan.Reel{Tag: "M1", Kind: "heavy", Length: 10, State: plan.Missing, StateOn: "2027-06-01"})
		e.AddReel(plan.Reel{Tag: "N1", Kind: "heavy", Length: 10, Quantity: 3, Lacking: 2, LackingWhy: "Gala has them"})
		n := 0
		for link := range e.Now().Links.All() {
			switch n {
			case 0:
				e.SetSegments(link.ID, []plan.Segment{{Reel: laid}})
			case 1:
				e.SetSegments(link.ID, []plan.Segment{{Reel: tied}})
			}
			n++
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

func TestTheTruckCarriesWhatTheRowsSay(t *testing.T) {
	p := carriedPlan(t)
	text := chaptersText(t, p, report.TruckList)
	loose := 0
	for segment := range p.Segments.All() {
		if segment.Reel == "" && segment.HouseLine == "" {
			loose++
		}
	}
	require.Contains(t, text, fmt.Sprintf("Box 1 3 %.1f 0", 6+30+2+6.1))
	require.Contains(t, text, "Box 1 is over full: 1 piece too many, 34.1 kg too heavy.")
	require.Contains(t, text, "OVER: 1 piece too many")
	require.Contains(t, text, "Box 2 9 – 9")
	require.Contains(t, text, "Box 2: 9 pieces, weight not known")
	require.Contains(t, text, fmt.Sprintf("No case %d ", 1+loose), "one of three that the house lets the show have, and what is planned by kind and length")
	require.Contains(t, text, fmt.Sprintf("All %d ", 3+9+1+loose))
	require.Contains(t, strings.ToLower(text), "snake one one piece, tied of 2 cables")
}

func TestOnlyWhatIsAnothersIsHiredAndGoesBackToIt(t *testing.T) {
	p := carriedPlan(t)
	text := chaptersText(t, p, report.HireOrder)
	require.Contains(t, text, "Lender, reference R-9, back by 2027-07-01")
	require.Regexp(t, `Heavy 300 1 H1 (\d+) To be hired 1`, text)
	require.NotContains(t, text, "O1")
	require.NotContains(t, text, "O2")
	pull := chaptersText(t, p, report.PullList)
	require.NotRegexp(t, `Hired in or borrowed.*\b(us|house)\b.*Couplers`, pull)

	back := chaptersText(t, p, report.ReturnList)
	require.Regexp(t, `To Lender, reference R-9, back by 2027-07-01 Cable m Number Tags Back Faults found Heavy 300 1 H1 To be given back 1`, back)
	sum := 0
	for _, found := range regexp.MustCompile(`To be given back (\d+)`).FindAllStringSubmatch(back, -1) {
		n, err := strconv.Atoi(found[1])
		require.NoError(t, err)
		sum += n
	}
	require.Equal(t, 3+9+1, sum)
	require.Contains(t, back, fmt.Sprintf("To be given back in all: %d cables, 1 of them hired.", sum))
	require.Contains(t, back, "Not among these: 1 cable that is missing")
	require.Contains(t, back, "60.96", "a length is said as it is")
}

func TestAHiredReelMayBeShorterByWhatItsLinkHasTooMuch(t *testing.T) {
	p := carriedPlan(t)
	text := chaptersText(t, p, report.HireOrder)
	said := regexp.MustCompile(`Heavy 300 1 H1 (\d+)`).FindStringSubmatch(text)
	require.NotNil(t, said, text)
	budget := chaptersText(t, p, report.LinkBudget)
	run := regexp.MustCompile(`(\d+\.\d) \d+\.\d \+ \d+\.\d \+ \d+\.\d(?:, [a-z, ]+)? 300 m Heavy`).FindStringSubmatch(budget)
	require.NotNil(t, run, budget)
	metres, err := strconv.ParseFloat(run[1], 64)
	require.NoError(t, err)
	require.Equal(t, fmt.Sprint(int(math.Floor(300-metres+1e-6))), said[1])
}

// TestWhatMayBeShorterServesAllTheSame makes each hired cable of the demo as short as the order says, all of them together, and
// asks the budgets anew: each link still reaches, with no less margin.
func TestWhatMayBeShorterServesAllTheSame(t *testing.T) {
	p := demo.Weekender()
	before := assess.Of(p)
	text := chaptersText(t, p, report.HireOrder)
	shorter := 0
	p, err := plan.Do(p, plan.NewIDSource(9, 9), func(e *plan.Edit) error {
		for reel := range p.Reels.All() {
			if _, hired := reel.Lender(); !hired || reel.Tag == "" {
				continue
			}
			kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
			line := regexp.MustCompile(regexp.QuoteMeta(fmt.Sprintf("%s %g", kind.Name, reel.Length)) + ` \d+ [^|]*?\b` + reel.Tag + `\b[A-Z0-9, ]*? (\d+|–|on no link)\b`)
			said := line.FindStringSubmatch(text)
			if said == nil {
				continue
			}
			if metres, err := strconv.Atoi(said[1]); err == nil {
				shorter++
				if err := plan.Update(e, reel.Key(), func(r *plan.Reel) { r.Length -= float64(metres) }); err != nil {
					return err
				}
			}
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, shorter, 5, text)
	after := assess.Of(p)
	for _, link := range after.Links() {
		was, _ := before.Budget(link.ID)
		is, _ := after.Budget(link.ID)
		require.Equal(t, was.Measured.Wanting(), is.Measured.Wanting(), link.Name)
		require.LessOrEqual(t, is.Laid, was.Laid, link.Name)
	}
}

// What a link has too much does not make a cable of a piece shorter than its neighbours' links need.
func TestHiredCablesOfOnePieceMayBeShorterAlike(t *testing.T) {
	p, err := plan.Do(carriedPlan(t), plan.NewIDSource(5, 5), func(e *plan.Edit) error {
		for at, length := range []float64{300, 290} {
			id := e.AddReel(plan.Reel{Tag: fmt.Sprintf("P%d", at), Kind: "heavy", Length: length, Owner: "Lender", Hire: "R-10", TiedInto: "Rope"})
			e.SetSegments(e.Now().Links.At(at).ID, []plan.Segment{{Reel: id}})
		}
		return nil
	})
	require.NoError(t, err)
	text := chaptersText(t, p, report.HireOrder)
	said := regexp.MustCompile(`Heavy 300 1 P0 (\d+) .*?Heavy 290 1 P1 (\d+)`).FindStringSubmatch(text)
	require.NotNil(t, said, text)
	require.Equal(t, said[1], said[2])
}

func TestAPieceOfSeveralCablesIsPulledWhole(t *testing.T) {
	p := carriedPlan(t)
	text := chaptersText(t, p, report.PullList)
	require.Regexp(t, `(?i)snake one One piece, tied of 2 cables X1 – Bare 30 1 L\d+ X2 – Bare 30 1 on no link`, text)
	held := text[strings.Index(text, "Held back"):]
	require.NotContains(t, strings.Split(held, "Not there")[0], "X2", "what goes out whole is not held back")
	require.Contains(t, held, "Not there: do not look for these")
	require.Regexp(t, `M1 10 m Heavy 1 missing since 2027-06-01`, held)
	require.Regexp(t, `N1 10 m Heavy 2 Gala has them`, held)
}

func TestTheStrikeCountsSparesAndWhatIsLost(t *testing.T) {
	text := chaptersText(t, carriedPlan(t), report.StrikeSheets)
	require.Contains(t, text, "Box 1 1 2 0 3")
	require.Contains(t, text, "Box 2 1 8 0 9")
	require.Contains(t, text, "No case 0 1 1 2", "one spare, one missing; two never went out")
	require.Contains(t, text, "All cases 2 11 1 14")
}
