package report_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/report"
)

// amount is so many cables and their metres in tenths, so that sums are whole.
type amount struct{ cables, tenths int }

func (a *amount) add(number, tenths int) {
	a.cables, a.tenths = a.cables+number, a.tenths+number*tenths
}

func tenthsOf(metres float64) int { return int(math.Floor(metres*10 + 0.5)) }

var (
	heldRow  = regexp.MustCompile(`(Cat[A-C]|Glass|Snake)(?: \(suspect: test first\))? ([\d.]+) (\d+) (?:Case\w|No case)`)
	hiredRow = regexp.MustCompile(`([\d.]+) m (?:Cat[A-C]|Glass|Snake) (\d+)(?: Lender order)?`)
	caseRow  = regexp.MustCompile(`(Case\w|No case|All cases) (\d+) (\d+) (\d+) (\d+)`)
	pullPart = []string{"Cables by kind and length", "Still missing", "Hired in or borrowed", " Couplers Out", "Adapters and tails", "Ramps and covers", "Held back"}
)

// stocked is a print of what goes out and what comes back, and the amounts that the rows of its plan come to.
type stocked struct {
	*testing.T
	pull, strike string
	owned        amount // all the reels there are
	bad          amount // faulty ones on no link
	reels        amount // reels on links
	house        amount // lines of the venue on links
	plain        amount // cables on links by kind and length alone
	hired        amount // reels on links that are the lender's
}

// newStocked counts over the rows of the plan alone.
func newStocked(t *testing.T, seed uint64) *stocked {
	p := anyPlan(t, seed)
	choice := report.ChoiceOf(p, day)
	choice.Chapters = []report.Chapter{report.PullList, report.StrikeSheets}
	document, done := write(t, assess.Of(p), choice)
	read := readPrint(t, document, done)
	s := &stocked{T: t, pull: read["Pull list"], strike: read["Strike"]}
	onLinks := map[plan.ReelID]int{}
	for segment := range p.Segments.All() {
		switch {
		case segment.Reel != "":
			onLinks[segment.Reel]++
		case segment.HouseLine != "":
			line, _ := p.HouseLines.Get(plan.Key(segment.HouseLine))
			s.house.add(1, tenthsOf(line.Length))
		default:
			s.plain.add(1, tenthsOf(segment.Length))
		}
	}
	for reel := range p.Reels.All() {
		number, used := max(1, reel.Quantity), onLinks[reel.ID]
		s.owned.add(number, tenthsOf(reel.Length))
		s.reels.add(used, tenthsOf(reel.Length))
		if reel.Condition == plan.Faulty {
			s.bad.add(number-used, tenthsOf(reel.Length))
		}
		if reel.Owner != "" {
			s.hired.add(used, tenthsOf(reel.Length))
		}
	}
	return s
}

// canReplace are the links that a cable held back can replace, each with its place: they are no rows.
var canReplace = regexp.MustCompile(`L\d\d at \w+(?:, L\d\d at \w+)*`)

// rows adds up the rows of a part of the pull list that state metres and then a number.
func (s *stocked) rows(pattern *regexp.Regexp, metres int, title string, next ...string) (sum amount) {
	text := canReplace.ReplaceAllString(section(s.pull, title, next...), "")
	require.NotRegexp(s, `L\d\d`, pattern.ReplaceAllString(text, ""), "every row of %q is read", title)
	for _, found := range pattern.FindAllStringSubmatch(text, -1) {
		number, err := strconv.Atoi(found[metres+1])
		require.NoError(s, err)
		sum.add(number, tenths(s.T, found[metres]))
	}
	return sum
}

// The truck holds what the plan owns: every reel goes out for a link, is held back, or is known to be bad; and what the
// strike coils up is what went out and the lines that stay in the venue.
func TestWhatGoesOutIsWhatIsLaidAndComesBack(t *testing.T) {
	for seed := range uint64(8) {
		t.Run(fmt.Sprint("plan ", seed), func(t *testing.T) {
			t.Parallel()
			s := newStocked(t, 300+seed)
			out := s.rows(pulledRow, 4, "Pull list", pullPart...)
			loose := s.rows(pulledRow, 4, pullPart[0], pullPart[1:]...)
			held := s.rows(heldRow, 2, "Held back")
			require.Equal(t, s.reels, out, "reels that go out")
			require.Equal(t, s.plain, loose, "cables by kind and length that go out")
			require.Equal(t, s.owned, amount{out.cables + held.cables + s.bad.cables, out.tenths + held.tenths + s.bad.tenths}, "out, held back and bad")
			require.Equal(t, s.hired, s.rows(hiredRow, 1, pullPart[2], pullPart[3:]...), "hired")
			var up amount
			for _, r := range rowsOf(section(s.strike, "Strike", "Count into the cases")) {
				for _, one := range crewPieces(t, r.rest) {
					up.add(1, one.metres)
				}
			}
			require.Equal(t, amount{out.cables + loose.cables + s.house.cables, out.tenths + loose.tenths + s.house.tenths}, up, "taken up")
			s.countedBack()
		})
	}
}

// countedBack adds up the strike's count into the cases: what was laid and what was not, by case and in all, as printed and over
// the rows.
func (s *stocked) countedBack() {
	var sum [4]int
	for _, found := range caseRow.FindAllStringSubmatch(section(s.strike, "Count into the cases", "Faulty and suspect"), -1) {
		var read [4]int
		for i := range read {
			var err error
			read[i], err = strconv.Atoi(found[i+2])
			require.NoError(s, err)
		}
		require.Equal(s, read[3], read[0]+read[1]+read[2], "as printed: %s", found[0])
		if found[1] == "All cases" {
			require.Equal(s, sum, read, "the sum as printed")
			require.Equal(s, s.reels.cables, read[0], "laid")
			require.Equal(s, s.owned.cables, read[3], "all that the show has went out, spares as well")
			return
		}
		for i := range sum {
			sum[i] += read[i]
		}
	}
	require.Zero(s, s.owned.cables, "the sum is printed")
}
