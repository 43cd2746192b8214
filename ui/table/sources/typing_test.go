package sources_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table/sources"
)

// someRows are the first rows of a table, some between and the last.
func someRows(s page) (rows []int) {
	for row := 0; row < s.Len(); row += max(1, s.Len()/6) {
		rows = append(rows, row)
	}
	if s.Len() > 0 {
		rows = append(rows, s.Len()-1)
	}
	return rows
}

func TestWhatStandsInACellCanBeTypedAgainAndChangesNothing(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	typed := 0
	for _, units := range []words.Units{{}, feet} {
		for _, act := range []plan.ActID{"", p.Acts.At(2).ID} {
			for _, each := range sources.All() {
				if act != "" && !each.Acts {
					continue
				}
				s := pageOf(t, a, each.Name, act, units)
				for _, row := range someRows(s) {
					for _, column := range s.Columns() {
						if s.Setter(s.at[column.Name]) == nil || each.Name == "cables" && (column.Name == "kind" || column.Name == "length") {
							continue // a reel's figures are not the link's to change
						}
						next, err := s.types(row, column.Name, s.says(row, column.Name))
						require.NoError(t, err, "%q as %s of %s", s.says(row, column.Name), column.Title, s.RowName(row))
						if act == "" && column.Name != "holds" { // an act says what it shows; a socket behind a splitter takes the input itself
							require.True(t, plan.Equal(p, next), "%q as %s of %s", s.says(row, column.Name), column.Title, s.RowName(row))
						}
						typed++
					}
				}
			}
		}
	}
	require.Greater(t, typed, 800)
}

// anyID is an id as the file has it.
var anyID = regexp.MustCompile(`\b[a-z]-[2-9a-z]{5}\b`)

func TestAnyTextInAnyCellLandsAsItIsOrIsRefusedWithASentence(t *testing.T) {
	p := show(t)
	a := assess.Of(p)
	landed, refused := 0, 0
	for _, typed := range []string{"§ nonsense", "قناة 🎤", strings.Repeat("wörter ", 400), "-7.25", "1e300"} {
		for _, each := range sources.All() {
			s := pageOf(t, a, each.Name, p.Acts.At(0).ID, words.Units{})
			for row := range min(s.Len(), 2) {
				for i, column := range s.Columns() {
					if s.Setter(i) == nil {
						continue
					}
					cell := each.Name + ", " + column.Title + ": " + typed[:min(len(typed), 20)]
					next, err := s.types(row, column.Name, typed)
					if err != nil {
						refused++
						require.NotEmpty(t, err.Error(), cell)
						require.Less(t, len([]rune(err.Error())), 600, cell)
						require.NotRegexp(t, anyID, err.Error(), cell)
						require.Nil(t, next, cell)
						continue
					}
					landed++
					after := pageOf(t, assess.Of(next), each.Name, p.Acts.At(0).ID, words.Units{})
					at := after.of(s.Ref(row))
					if column.Kind == 0 && column.Name != "note" && column.Name != "reason" {
						require.Equal(t, strings.Join(strings.Fields(typed), " "), after.says(at, column.Name), cell)
					}
					require.NotEqual(t, s.says(row, column.Name), after.says(at, column.Name), cell)
				}
			}
		}
	}
	require.Greater(t, landed, 80)
	require.Greater(t, refused, 80)
}

func TestBlankTakesBackWhatWasTyped(t *testing.T) {
	p := show(t)
	blanked := 0
	for _, each := range sources.All() {
		s := houseOf(t, p, each.Name)
		for i, column := range s.Columns() {
			if s.Setter(i) == nil || s.says(0, column.Name) == "" {
				continue
			}
			next, err := s.types(0, column.Name, " ")
			if err != nil {
				require.NotRegexp(t, anyID, err.Error())
				continue
			}
			after := houseOf(t, next, each.Name)
			if after.says(0, column.Name) != s.says(0, column.Name) {
				blanked++
				if column.Name == "count" {
					require.Equal(t, "1", after.says(0, "count"), "a row of the stock is one cable where nobody counts")
					continue
				}
				require.Empty(t, after.says(0, column.Name), "%s of %s", column.Title, each.Name)
			}
		}
	}
	require.Greater(t, blanked, 20)
}

func TestChoicesOfACellAreWhatItTakes(t *testing.T) {
	p := show(t)
	a := assess.Of(p)
	taken := 0
	for _, each := range sources.All() {
		s := pageOf(t, a, each.Name, p.Acts.At(0).ID, words.Units{})
		for row := range min(s.Len(), 3) {
			for i, column := range s.Columns() {
				for _, choice := range s.Choices(row, i) {
					next, err := s.types(row, column.Name, choice)
					if err != nil {
						require.NotContains(t, err.Error(), "is none of", "%s of %s offers %s", column.Title, s.RowName(row), choice)
						continue
					}
					after := pageOf(t, assess.Of(next), each.Name, p.Acts.At(0).ID, words.Units{})
					if after.Len() != s.Len() {
						continue // one of several equal ones is marked in a row of its own
					}
					told := after.says(after.of(s.Ref(row)), column.Name)
					require.True(t, strings.HasPrefix(choice, told), "%s of %s: %q is told as %q", column.Title, s.RowName(row), choice, told)
					taken++
				}
			}
		}
	}
	require.Greater(t, taken, 40)
}

func TestLengthsTypedInFeetAreShownInFeetAndStandInMetres(t *testing.T) {
	p := show(t)
	a := assess.Of(p)
	for _, c := range []struct {
		sheet, row, column, typed, said string
		metres                          float64
	}{
		{"stock", "X60-01", "length", "100", "100 ft", 30.48},
		{"stock", "X60-01", "length", "30.48 m", "100 ft", 30.48},
		{"stock", "X60-01", "nominal", "3 m", "9.8 ft", 3},
		{"links", "L1", "rise_from", "12.5", "12.5 ft", 3.81},
		{"links", "L1", "slack_end", "-0", "0 ft", 0},
		{"house lines", "H1", "length", "1000 ft", "1000 ft", 304.8},
		{"positions", "Stage left", "width", "20", "20 ft", 6.096},
		{"devices", "FOH", "x", "-33", "−33 ft", -10.0584},
	} {
		s := pageOf(t, a, c.sheet, "", feet)
		next, err := s.types(s.row(c.row), c.column, c.typed)
		require.NoError(t, err, c.typed)
		after := pageOf(t, assess.Of(next), c.sheet, "", feet)
		row := after.row(c.row)
		require.Equal(t, c.said, after.says(row, c.column))
		require.InDelta(t, c.metres, after.Cell(row, after.at[c.column]).Value, 5e-4, "a foot is 0.3048 m: %s", c.typed)
	}
}
