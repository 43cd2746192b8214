package sources_test

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
	"stageloom/model/words"
	"stageloom/ui/table"
	"stageloom/ui/table/sources"
)

var figureSaid = regexp.MustCompile(`^[−+-]?[\d,]+(\.\d+)?`)

// read is the figure that a text begins with, with the sign as it is printed.
func read(t *testing.T, text string) float64 {
	t.Helper()
	found := figureSaid.FindString(text)
	require.NotEmpty(t, found, text)
	value, err := strconv.ParseFloat(strings.NewReplacer("−", "-", ",", "").Replace(found), 64)
	require.NoError(t, err)
	return value
}

// rounded is how far what is printed may lie off what is sorted: figures of one link are rounded so that they add up.
const rounded = 0.11

func TestFiguresAreSortedByWhatTheySay(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	sorted := 0
	for _, units := range []words.Units{{}, feet} {
		for _, each := range sources.All() {
			s := pageOf(t, a, each.Name, p.Acts.At(2).ID, units)
			for i, column := range s.Columns() {
				if column.Kind != table.Number || column.Name == "typed" {
					continue // a way as it was typed stands in the unit it was typed in
				}
				look := sheetOf(s)
				at := -1
				for shown := range s.Columns() {
					if !s.Columns()[shown].Aside || shown == i {
						at++
					}
					if shown == i {
						break
					}
				}
				if column.Aside {
					continue
				}
				look.SortBy(at)
				last := math.Inf(-1)
				for row := range look.Len() {
					said := look.Cell(row, at)
					if said.Text == "" || strings.Contains(said.Text, ",") && !strings.Contains(said.Text, " ") {
						continue
					}
					value := read(t, said.Text)
					require.GreaterOrEqual(t, value, last-rounded, "%s of %s", column.Title, each.Name)
					last = value
					sorted++
				}
			}
		}
	}
	require.Greater(t, sorted, 500)
}

func TestAsFarAsFiguresAreKnownTheirOrderIsThatOfTheirTexts(t *testing.T) {
	a := assess.Of(stretched(t, 3))
	for _, units := range []words.Units{{}, feet} {
		s := pageOf(t, a, "links", "", units)
		for i, column := range s.Columns() {
			if column.Kind != table.Number || column.Name == "typed" {
				continue
			}
			for x := range s.Len() {
				for y := range s.Len() {
					one, other := s.Cell(x, i), s.Cell(y, i)
					if one.Text != "" && other.Text != "" && read(t, one.Text) < read(t, other.Text)-rounded {
						require.Less(t, one.Value, other.Value, "%s: %s, %s", column.Title, one.Text, other.Text)
					}
				}
			}
		}
	}
}

// tagged is a plan with reels whose tags and lengths are told apart by number only.
func tagged(t *testing.T) *plan.Plan {
	t.Helper()
	p, err := plan.Do(show(t), plan.NewIDSource(2, 2), func(e *plan.Edit) error {
		for i, metres := range []float64{9, 100, 25, 1000, 5.5} {
			e.AddReel(plan.Reel{Tag: fmt.Sprintf("K-%d", i+8), Kind: "cat6a", Length: metres})
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

func TestASortByLengthCountsAndBlanksStandLast(t *testing.T) {
	s := houseOf(t, tagged(t), "stock")
	look := sheetOf(s)
	words := func(column string) (said []string) {
		for row := range look.Len() {
			for i, c := range s.Columns() {
				if c.Name == column {
					said = append(said, s.Cell(s.row(look.RowName(row)), i).Text)
				}
			}
		}
		return said
	}
	look.SortBy(2)
	require.Equal(t, []string{"5.5 m", "9 m", "20 m", "25 m", "60 m", "100 m", "1000 m"}, words("length"))
	look.SortBy(2)
	require.Equal(t, []string{"1000 m", "100 m", "60 m", "25 m", "20 m", "9 m", "5.5 m"}, words("length"))
	look.SortBy(0)
	require.Equal(t, []string{"K-8", "K-9", "K-10", "K-11", "K-12", "X60-01", ""}, words("tag"), "in natural order, those without tag last")
	look.SortBy(0)
	require.Equal(t, []string{"X60-01", "K-12", "K-11", "K-10", "K-9", "K-8", ""}, words("tag"), "last downwards too")
}

func TestAFilterLeavesTheRowsThatHaveAllItsWords(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	for _, each := range sources.All() {
		s := pageOf(t, a, each.Name, "", words.Units{})
		for _, filter := range []string{"foh", "cat 6", "stage BOX", "m", "ص", "1 2"} {
			look := sheetOf(s)
			look.SetFilter(filter)
			want := 0
			for row := range s.Len() {
				all := ""
				for i := range s.Columns() {
					all += "\n" + strings.ToLower(s.Cell(row, i).Text)
				}
				found := true
				for _, word := range strings.Fields(strings.ToLower(filter)) {
					found = found && strings.Contains(all, word)
				}
				if found {
					want++
				}
			}
			require.Equal(t, want, look.Len(), "%s in %s", filter, each.Name)
			require.Equal(t, s.Len()-want, look.Hidden())
		}
	}
}
