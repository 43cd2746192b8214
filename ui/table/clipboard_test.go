package table_test

import (
	"encoding/csv"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/plan"
	"stageloom/ui/table"
)

func TestABlockGoesToASpreadsheetAndComesBack(t *testing.T) {
	r := newRig(t, "a", "b", "c")
	r.Go(1, 1, false)
	require.Equal(t, "b", r.Copy(), "one cell")
	r.Move(1, 1, true)
	require.Equal(t, "b\t\nc\t", r.Copy(), "selected rows, columns of the stretch")
	r.Go(0, 1, false)
	changed, err := r.Paste("x\tmic\r\ny\tline\r\n")
	require.NoError(t, err)
	require.Equal(t, 4, changed)
	require.Equal(t, []string{"x", "y", "c"}, r.column(1))
	require.Equal(t, []string{"mic", "line", ""}, r.column(2))
	require.Equal(t, []string{"Edit 2 columns of 2 inputs"}, r.steps(), "one step")
}

func TestOneCellFillsTheWholeBlock(t *testing.T) {
	r := newRig(t, "a", "b", "c")
	r.SelectColumn()
	r.Aim(0, 2)
	changed, err := r.Paste("DI\n")
	require.NoError(t, err)
	require.Equal(t, 3, changed)
	require.Equal(t, []string{"DI", "DI", "DI"}, r.column(2))
}

func TestHeadingsFindRowsByNameWhateverTheirOrder(t *testing.T) {
	r := newRig(t, "a", "b", "c")
	r.SelectAll()
	copied := r.CopyWithHeadings()
	require.Equal(t, "No.\tInput\tUse\tLetters\n1\ta\t\t1\n2\tb\t\t1\n3\tc\t\t1", copied)
	changed, err := r.Paste(copied)
	require.NoError(t, err)
	require.Zero(t, changed, "what comes back as it went changes nothing, reckoned columns too")
	r.SetFilter("c")
	changed, err = r.Paste("Letters\tUse\tInput\tNote\n1\tmic\tb\thigh\n1\tDI\ta\t\n")
	require.NoError(t, err)
	require.Equal(t, 3, changed, "columns that are not shown are set too, rows that are filtered out as well")
	r.SetFilter("")
	require.Equal(t, []string{"DI", "mic", ""}, r.column(2))
}

func TestWhatDoesNotFitIsSaidAndNothingIsChanged(t *testing.T) {
	r := newRig(t, "a", "b", "b")
	fixed := r.Source().(*table.List[plan.Input])
	fixed.Add = nil
	for _, c := range []struct {
		name        string
		row, column int
		text, want  string
	}{
		{"an empty clipboard", 0, 0, " \n", "no text on the clipboard"},
		{"too many rows", 1, 0, "5\n6\n7", "3 rows are pasted, but from here on there are only 2"},
		{"too many columns", 0, 2, "mic\t1\tx", "3 columns are pasted, but from here on there are only 2"},
		{"a text where a number belongs", 0, 0, "9\nfirst", "b, No.: it must be a whole number"},
		{"a reckoned column", 0, 3, "9", "it is reckoned from the plan"},
		{"a name that no row has", 0, 0, "Input\tUse\nz\tDI", `line 2: no input is called "z"`},
		{"a name without end", 0, 0, "Input\tUse\n" + strings.Repeat("z", 900) + "\tDI", strconv.Quote(plan.Clipped(strings.Repeat("z", 900)))},
		{"a name that two rows have", 0, 0, "Input\tUse\na\tDI\nb\tmic", `line 3: 2 inputs are called "b"`},
		{"a line longer than its headings", 0, 0, "Input\tUse\na\tDI\tmore", "line 2 has 3 cells under 2 headings"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r.Go(c.row, c.column, false)
			_, err := r.Paste(c.text)
			require.ErrorContains(t, err, c.want)
			require.Empty(t, r.steps())
		})
	}
}

// The clipboard's form is RFC 4180 with tabs for commas, as spreadsheets write it; encoding/csv reads it too.
func TestAnyTextComesThroughTheClipboard(t *testing.T) {
	rapid.Check(t, func(draw *rapid.T) {
		text := rapid.StringMatching(`[a-z"\n ;,]{0,12}[a-z"]`).Draw(draw, "text")
		r := newRig(t, "k"+text, "other")
		r.Go(0, 1, false)
		r.Move(1, 0, true)
		reader := csv.NewReader(strings.NewReader(r.Copy()))
		reader.Comma = '\t'
		lines, err := reader.ReadAll()
		require.NoError(draw, err)
		require.Equal(draw, [][]string{{"k" + text}, {"other"}}, lines)
		copied := r.Copy()
		require.NoError(draw, r.Set(table.Target{Refs: r.Refs(), Column: "name"}, "gone"))
		r.Go(0, 1, false)
		_, err = r.Paste(copied)
		require.NoError(draw, err)
		require.Equal(draw, []string{"k" + text, "other"}, r.column(1))
	})
}

func TestACopiedNameIsNoFormulaElsewhereAndComesBackAsItWas(t *testing.T) {
	r := newRig(t, "a")
	r.Go(0, 1, false)
	_, err := r.Paste("=1+1")
	require.NoError(t, err)
	require.Equal(t, "'=1+1", r.Copy())
	_, err = r.Paste(r.Copy())
	require.NoError(t, err)
	require.Equal(t, "=1+1", r.Cell(0, 1).Text)
}
