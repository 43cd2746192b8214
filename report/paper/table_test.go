package paper_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/report/paper"
)

// table prints a table alone on an upright A4 page.
func table(t *testing.T, table paper.Table) []sheet {
	t.Helper()
	return sheets(t, write(t, draw(func(b *paper.Book) { b.Table(table) })))
}

// links are rows L0001, L0002 … with a length.
func links(n int) (rows []paper.Row) {
	for i := range n {
		rows = append(rows, paper.Texts(fmt.Sprintf("L%04d", i+1), fmt.Sprintf("row %d", i+1)))
	}
	return rows
}

var twoColumns = []paper.Column{{Head: "Link", Face: paper.Mono}, {Head: "Length m", Align: paper.Right}}

func TestTwoThousandRows(t *testing.T) {
	pages := table(t, paper.Table{Title: "Links", Columns: twoColumns, Rows: links(2000)})
	require.Greater(t, len(pages), 50)
	next := 1
	for i, page := range pages {
		words := page.words()
		title := "Links"
		if i > 0 {
			title = "Links, continued"
		}
		require.Contains(t, words, title)
		require.Contains(t, words, "Link", "the heads are repeated")
		require.Contains(t, words, "Length m")
		for _, word := range words {
			if strings.HasPrefix(word, "row ") {
				require.Equal(t, fmt.Sprintf("row %d", next), word)
				require.InDelta(t, page.find(t, word).y, page.find(t, fmt.Sprintf("L%04d", next)).y, 0.01, "a row stands on one baseline")
				next++
			}
		}
	}
	require.Equal(t, 2001, next, "no row is lost or doubled")
}

func TestNoRowsSaySo(t *testing.T) {
	page := table(t, paper.Table{Columns: twoColumns, Empty: "No links yet."})[0]
	page.find(t, "No links yet.")
	page.find(t, "Link")
}

func TestRowsAreNeverSplit(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("sixteen letters. ", 60))
	var rows []paper.Row
	for i := range 40 {
		rows = append(rows, paper.Texts(fmt.Sprintf("from %d", i), long, fmt.Sprintf("to %d", i)))
	}
	pages := table(t, paper.Table{
		Columns: []paper.Column{{Head: "From"}, {Head: "Pieces", Width: paper.Fill(1), Lines: 20}, {Head: "To"}},
		Rows:    rows,
	})
	require.Greater(t, len(pages), 3)
	for number, page := range pages {
		begun, pieces := 0, 0
		for _, word := range page.words() {
			if strings.HasPrefix(word, "from ") {
				begun++
			}
			pieces += strings.Count(word, "sixteen")
		}
		require.Equal(t, begun*60, pieces, "page %d carries whole rows only", number+1)
	}
}

func TestACellThatIsTooLongIsCutAndSaid(t *testing.T) {
	document, print := writeWith(t, setup(), draw(func(b *paper.Book) {
		b.Table(paper.Table{
			Columns: []paper.Column{{Head: "From", Width: paper.Fill(1)}, {Head: "To"}},
			Rows:    []paper.Row{paper.Texts(strings.Repeat("W", 10_000), "tower"), paper.Texts("short", "stage")},
		})
	}))
	page := sheets(t, document)[0]
	cut := 0
	for _, word := range page.words() {
		if strings.HasPrefix(word, "W") {
			cut++
		}
	}
	require.Equal(t, paper.MostLines, cut)
	require.Len(t, print.Notices, 1)
	require.Contains(t, print.Notices[0], "too long for its cell")
}

func TestAColumnThatDoesNotWrapIsCut(t *testing.T) {
	page := table(t, paper.Table{
		Columns: []paper.Column{{Head: "Name", Width: paper.Fixed(30), NoWrap: true}},
		Rows:    []paper.Row{paper.Texts("Broadcast van behind the hedge")},
	})[0]
	require.True(t, slices.ContainsFunc(page.words(), func(word string) bool {
		return strings.HasPrefix(word, "Broadcast") && strings.HasSuffix(word, "…")
	}))
}

func TestTotalsStayWithTheLastRow(t *testing.T) {
	perPage := 0
	for n := 20; n < 60; n++ {
		rows := append(links(n), paper.Row{Kind: paper.Total, Cells: []paper.Cell{{Text: "All"}, {Text: "the sum"}}})
		pages := table(t, paper.Table{Columns: twoColumns, Rows: rows, BlankRows: 2})
		last := pages[len(pages)-1]
		last.find(t, "All")
		last.find(t, fmt.Sprintf("L%04d", n))
		if len(pages) == 1 {
			perPage = n
		}
	}
	require.Greater(t, perPage, 20)
	require.Less(t, perPage, 59, "the rows have to pass the end of a page for this to tell anything")
}

func TestGroups(t *testing.T) {
	t.Run("a group's head is repeated on the next page", func(t *testing.T) {
		pages := table(t, paper.Table{Columns: twoColumns, Rows: append([]paper.Row{paper.GroupRow("Route 1")}, links(90)...)})
		require.Greater(t, len(pages), 2)
		pages[0].find(t, "Route 1")
		pages[1].find(t, "Route 1, continued")
		pages[2].find(t, "Route 1, continued")
	})
	t.Run("a group's head never stands last on a page", func(t *testing.T) {
		for n := 20; n < 45; n++ {
			rows := append(links(n), paper.GroupRow("Route 2"), paper.Texts("L9999", "last"))
			pages := table(t, paper.Table{Columns: twoColumns, Rows: rows})
			for _, page := range pages {
				if slices.Contains(page.words(), "Route 2") {
					page.find(t, "L9999")
				}
			}
		}
	})
	t.Run("a new group at the top of a page does not repeat the old one", func(t *testing.T) {
		for n := 20; n < 45; n++ {
			rows := append([]paper.Row{paper.GroupRow("Route 1")}, links(n)...)
			rows = append(rows, paper.GroupRow("Route 2"), paper.Texts("L9999", "last"))
			for _, page := range table(t, paper.Table{Columns: twoColumns, Rows: rows}) {
				words := page.words()
				if slices.Contains(words, "Route 1, continued") {
					require.True(t, slices.ContainsFunc(words, func(word string) bool { return strings.HasPrefix(word, "row ") }))
				}
			}
		}
	})
}

func TestFiguresStandBelowEachOther(t *testing.T) {
	page := table(t, paper.Table{
		Columns: []paper.Column{{Head: "Link"}, {Head: "Loss dB", Align: paper.Right}},
		Rows:    []paper.Row{paper.Texts("L01", "8.5"), paper.Texts("L02", "123.5"), paper.Texts("L03", "−0.5")},
	})[0]
	end := func(text string) float64 { return page.find(t, text).x + paper.WidthOf(paper.Regular, text, 11) }
	require.InDelta(t, end("123.5"), end("8.5"), 0.01)
	require.InDelta(t, end("123.5"), end("−0.5"), 0.01)
}

func TestHairlinesAreDrawnAfterTheFills(t *testing.T) {
	page := table(t, paper.Table{Columns: twoColumns, Rows: links(12)})[0]
	lastFill := strings.LastIndex(page.content, "0.949 g") // grey 242 of 255
	firstHairline := strings.Index(page.content, "0.647 G")
	require.Positive(t, lastFill)
	require.Greater(t, firstHairline, lastFill)
}

func TestBlankRowsAreLeftForThePen(t *testing.T) {
	height := func(blank int) float64 {
		page := sheets(t, write(t, draw(func(b *paper.Book) {
			b.Table(paper.Table{Columns: twoColumns, Rows: links(3), BlankRows: blank})
			b.Paragraph("below")
		})))[0]
		return page.find(t, "below").y
	}
	require.GreaterOrEqual(t, height(2)-height(0), 2*8.0, "a row to write in is at least 8 mm high")
}

func TestColumnWidths(t *testing.T) {
	if testing.Short() {
		t.Skip("a document written alone shares nothing: for the run without -short")
	}
	columns := func(widths ...paper.Width) []float64 {
		table := paper.Table{Rows: []paper.Row{{}}}
		for i, width := range widths {
			table.Columns = append(table.Columns, paper.Column{Head: fmt.Sprintf("H%d", i), Width: width})
			table.Rows[0].Cells = append(table.Rows[0].Cells, paper.Cell{Text: fmt.Sprintf("cell %d", i)})
		}
		page := sheets(t, write(t, draw(func(b *paper.Book) { b.Table(table) })))[0]
		var begins []float64
		for i := range widths {
			begins = append(begins, page.find(t, fmt.Sprintf("H%d", i)).x)
		}
		return begins
	}
	const across = 210 - 15 - 8 - 2*3.5
	t.Run("a fixed column is as wide as it says", func(t *testing.T) {
		at := columns(paper.Fixed(40), paper.Fixed(25), paper.Fill(1))
		require.InDelta(t, 40, at[1]-at[0], 0.01)
		require.InDelta(t, 25, at[2]-at[1], 0.01)
	})
	t.Run("shares divide what is left", func(t *testing.T) {
		at := columns(paper.Fixed(30), paper.Fill(2), paper.Fill(1), paper.Fixed(30))
		require.Greater(t, at[2]-at[1], 1.6*(at[3]-at[2]))
		require.InDelta(t, across-30, at[3]-at[0], 0.01)
	})
	t.Run("columns that fit are spread over the page", func(t *testing.T) {
		at := columns(paper.Fit(0), paper.Fit(0), paper.Fit(0))
		require.InDelta(t, across/3, at[1]-at[0], 2)
	})
}

func TestATableWithoutColumnsDrawsNothing(t *testing.T) {
	page := table(t, paper.Table{Title: "Links", Rows: links(3)})[0]
	require.NotContains(t, page.words(), "L0001")
}

// Any table stays within the frame, loses no row and keeps its columns apart.
func TestAnyTable(t *testing.T) {
	texts := rapid.OneOf(
		rapid.StringOfN(rapid.SampledFrom([]rune("abW 1-/")), 0, 40, -1),
		rapid.StringN(0, 300, -1),
	)
	rapid.Check(t, func(r *rapid.T) {
		columns := rapid.SliceOfN(rapid.Custom(func(r *rapid.T) paper.Column {
			return paper.Column{
				Head:   texts.Draw(r, "head"),
				Align:  paper.Align(rapid.IntRange(0, 2).Draw(r, "align")),
				Face:   rapid.SampledFrom(paper.Faces).Draw(r, "face"),
				NoWrap: rapid.Bool().Draw(r, "no wrap"),
				Width:  rapid.SampledFrom([]paper.Width{{}, paper.Fit(30), paper.Fixed(25), paper.Fill(1), paper.Fill(2)}).Draw(r, "width"),
			}
		}), 1, 9).Draw(r, "columns")
		rows := rapid.SliceOfN(rapid.Custom(func(r *rapid.T) paper.Row {
			row := paper.Texts(rapid.SliceOfN(texts, 0, 10).Draw(r, "cells")...)
			row.Kind = paper.RowKind(rapid.IntRange(0, 2).Draw(r, "kind"))
			return row
		}), 0, 30).Draw(r, "rows")
		blank := rapid.IntRange(0, 3).Draw(r, "blank")
		reader := paper.Reader(rapid.IntRange(0, 1).Draw(r, "reader"))
		pages := sheets(t, write(t, paper.Chapter{Name: "Sheet", Reader: reader, Draw: func(b *paper.Book) error {
			b.Table(paper.Table{Title: "T", Columns: columns, Rows: rows, BlankRows: blank, Empty: "none"})
			return nil
		}}))
		for _, page := range pages {
			for _, set := range page.texts {
				require.GreaterOrEqual(r, set.x, 15.0, "%q", set.text)
				require.LessOrEqual(r, set.x, page.width-8, "%q", set.text)
				require.LessOrEqual(r, set.y, page.height-8, "%q", set.text)
			}
		}
	})
}

func BenchmarkSixtyLargePages(b *testing.B) {
	row := paper.Texts("L0001", "SB03 Stage left", "FH01 FOH tower", "Cat 6A 60 m + Cat 5e 18.5 m + Cat 6A 40 m", "118.5", "2", "12.4", "24.0", "11.6")
	rows := slices.Repeat([]paper.Row{row}, 2500)
	for i := range rows {
		rows[i] = paper.Row{Cells: append(slices.Clone(row.Cells), paper.Cell{Badge: &paper.Badge{Grade: paper.Ample, Text: fmt.Sprint(i % 20)}})}
	}
	columns := []paper.Column{
		{Head: "Link", Face: paper.Mono},
		{Head: "From"},
		{Head: "To"},
		{Head: "Segments", Width: paper.Fill(1)},
		{Head: "Run m", Align: paper.Right},
		{Head: "Couplers", Align: paper.Right},
		{Head: "Loss dB", Align: paper.Right},
		{Head: "Limit dB", Align: paper.Right},
		{Head: "Margin dB", Align: paper.Right},
		{Head: "Grade", Align: paper.Centre},
	}
	chapter := paper.Chapter{Name: "Links", Reader: paper.Engineer, Format: &large, Draw: func(book *paper.Book) error {
		book.Table(paper.Table{Title: "Links", Columns: columns, Rows: rows, BlankRows: 2})
		return nil
	}}
	s := setup()
	s.Uncompressed = false
	b.ReportAllocs()
	for b.Loop() {
		benchmarkPages, benchmarkBytes = printed(b, s, chapter)
	}
	b.ReportMetric(float64(benchmarkPages), "pages")
	b.ReportMetric(float64(benchmarkBytes)/1000, "kB")
}

func TestOneRowDoesNotStandAloneOnTheLastPage(t *testing.T) {
	whole := 0
	for n := range 60 {
		pages := table(t, paper.Table{Title: "Links", Columns: twoColumns, Rows: links(n + 20)})
		if len(pages) == 1 {
			whole = n + 20
			continue
		}
		rows := 0
		for _, word := range pages[len(pages)-1].words() {
			if strings.HasPrefix(word, "row ") {
				rows++
			}
		}
		require.GreaterOrEqual(t, rows, 2, "%d rows, of which %d fill a page", n+20, whole)
	}
	require.Positive(t, whole)
}

func TestATableIsSetCloserToStandOnOnePage(t *testing.T) {
	pages := func(n int, onePage bool) int {
		return len(table(t, paper.Table{Title: "Links", Columns: twoColumns, Rows: links(n), OnePage: onePage, BlankRows: 2}))
	}
	fits := 1
	for pages(fits+1, false) == 1 {
		fits++
	}
	require.Equal(t, 1, pages(fits+1, true))
	require.Equal(t, 1, pages(fits+4, true))
	require.Equal(t, pages(2*fits+5, false), pages(2*fits+5, true), "what fits on no page stays as it was")
}

func TestATitleThatIsTooLongWraps(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("Travelling ", 14)) + " Orchestra"
	words := strings.Join(table(t, paper.Table{Title: long, Columns: twoColumns, Rows: links(2)})[0].words(), " ")
	require.Contains(t, words, long)
	require.NotContains(t, words, "…")
}
