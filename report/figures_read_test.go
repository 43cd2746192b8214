package report_test

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/report"
)

// chapters are the words of a print by chapter, each in one line: "Lay: Cable schedule", "Lay pack".
type chapters map[string]string

var strip = regexp.MustCompile(`(?s)^.*?\nPage\n\d+ of \d+\n`)

// readPrint reads a print with another program and knows nothing of how it was made.
func readPrint(t *testing.T, document []byte, done report.Printed) chapters {
	t.Helper()
	pages, read := pagesOf(t, document), chapters{}
	require.Len(t, pages, done.Pages)
	for i, entry := range done.Entries {
		end := done.Pages
		if i+1 < len(done.Entries) {
			end = done.Entries[i+1].Page - 1
		}
		var words []string
		for _, page := range pages[entry.Page-1 : end] {
			words = append(words, strings.Fields(strip.ReplaceAllString(page, ""))...)
		}
		read[entry.Name] = strings.Join(words, " ")
	}
	return read
}

// row is a row of a table that begins with a link: its name, and the words behind its two ends.
type row struct{ link, rest string }

var rowStart = regexp.MustCompile(`(L\d\d)(?: (?:red|MAIN|BACKUP|red MAIN|red BACKUP))? (?:Box|Drop)\w, port \w+ (?:and )?(?:Box|Drop)\w, port \w+ ?`)

// rowsOf parts a table into its rows.
func rowsOf(text string) (rows []row) {
	starts := rowStart.FindAllStringSubmatchIndex(text, -1)
	for i, at := range starts {
		end := len(text)
		if i+1 < len(starts) {
			end = starts[i+1][0]
		}
		rows = append(rows, row{text[at[2]:at[3]], strings.TrimSpace(text[at[1]:end])})
	}
	return rows
}

// section is what stands from a title up to the next of some titles.
func section(text, title string, next ...string) string {
	_, behind, found := strings.Cut(text, title)
	if !found {
		return ""
	}
	end := len(behind)
	for _, one := range next {
		if at := strings.Index(behind, one); at >= 0 {
			end = min(end, at)
		}
	}
	return behind[:end]
}

// tenths reads a printed figure as tenths, so that sums are whole.
func tenths(t *testing.T, figure string) int {
	t.Helper()
	value, err := strconv.ParseFloat(strings.NewReplacer("−", "-", "+", "").Replace(figure), 64)
	require.NoError(t, err, figure)
	return int(math.Round(value * 10))
}

// line is a link as the engineer's budget tells it.
type line struct {
	run, way, rises, slack, laid, missing int // tenths of a metre
	joins                                 int
	loss, limit, margin, grade            string
	pieces                                []piece
	part                                  string
}

// piece is one cable as it is printed: its metres in tenths, its kind where that is told, and its tag.
type piece struct {
	metres    int
	kind, tag string
}

var (
	budgetRun   = regexp.MustCompile(`^(\d+\.\d) (\d+\.\d) \+ (\d+\.\d) \+ (\d+\.\d)(?:, [a-z, ]+)? (.*)$`)
	budgetTail  = regexp.MustCompile(`(?:^| )(\d+\.\d) (\d+)((?: \d+\.\d)*)(?: ([+−]\d+\.\d))?(?: (ample|enough|to be tested|tight|over limit|faulty|to lay|uncabled))?(?: |$)`)
	missingPart = regexp.MustCompile(`([\d.]+) m missing`)
	wholePart   = regexp.MustCompile(`part of ((?:L\d\d|the tail of \w+)(?: \+ L\d\d)*), ([\d.]+) m in all`)
	pieceWords  = regexp.MustCompile(`([\d.]+) m (Cat[A-C]|Glass|Snake)(?: \(([^)]*)\))?`)
	reelWords   = regexp.MustCompile(`(T\d\d) ([\d.]+) m`)
	tagWord     = regexp.MustCompile(`T\d\d`)
)

// budgetOf reads the engineer's budget.
func budgetOf(t *testing.T, text string) map[string]line {
	t.Helper()
	lines := map[string]line{}
	for _, r := range rowsOf(section(text, "Link budget", "Cable used")) {
		run := budgetRun.FindStringSubmatch(r.rest)
		require.NotNil(t, run, "%s: %s", r.link, r.rest)
		tail := budgetTail.FindStringSubmatchIndex(run[5])
		require.NotNil(t, tail, "%s: %s", r.link, run[5])
		word := func(i int) string {
			if tail[2*i] < 0 {
				return ""
			}
			return run[5][tail[2*i]:tail[2*i+1]]
		}
		l := line{run: tenths(t, run[1]), way: tenths(t, run[2]), rises: tenths(t, run[3]), slack: tenths(t, run[4]), laid: tenths(t, word(1)), margin: word(4), grade: word(5)}
		l.joins, _ = strconv.Atoi(word(2))
		switch figures := strings.Fields(word(3)); len(figures) {
		case 1:
			l.limit = figures[0]
		case 2:
			l.loss, l.limit = figures[0], figures[1]
		}
		cables := run[5][:tail[0]]
		if found := missingPart.FindStringSubmatch(cables); found != nil {
			l.missing = tenths(t, found[1])
		}
		if found := wholePart.FindString(cables); found != "" {
			l.part = found
		}
		for _, p := range pieceWords.FindAllStringSubmatch(cables, -1) {
			l.pieces = append(l.pieces, piece{tenths(t, p[1]), p[2], tagWord.FindString(p[3])})
		}
		require.NotContains(t, lines, r.link, "a link has one row")
		lines[r.link] = l
	}
	return lines
}

// crewPieces reads the pieces of a link as the crew is told them: those with a tag have no kind.
func crewPieces(t *testing.T, text string) (pieces []piece) {
	t.Helper()
	for _, one := range strings.Split(text, " + ") {
		if tagged := reelWords.FindStringSubmatch(one); tagged != nil {
			pieces = append(pieces, piece{tenths(t, tagged[2]), "", tagged[1]})
		} else if plain := pieceWords.FindStringSubmatch(one); plain != nil {
			pieces = append(pieces, piece{tenths(t, plain[1]), plain[2], tagWord.FindString(plain[3])})
		}
	}
	return pieces
}

// told are the metres, kinds and tags of pieces, with the kind left out where a tag tells it.
func told(pieces []piece) []piece {
	pieces = slices.Clone(pieces)
	for i := range pieces {
		if pieces[i].tag != "" {
			pieces[i].kind = ""
		}
	}
	return pieces
}

var barePlace = regexp.MustCompile(`^[\d.]+,?$`)

// figureIn parts words at the first figure that is not the length of a cable: it has no metre behind it.
func figureIn(text string) (before, figure, behind string) {
	words := strings.Fields(text)
	for i, word := range words {
		if barePlace.MatchString(word) && (i+1 == len(words) || words[i+1] != "m") {
			return strings.Join(words[:i], " "), word, strings.Join(words[i+1:], " ")
		}
	}
	return text, "", ""
}

var badgeStart = regexp.MustCompile(`^(?:[a-z, ]+?)? ?([+−]\d+ test|[+−]\d+|to lay|faulty)(?: |$)`)

// badgeIn reads the badge that stands first, behind words that say where a run has its metres from.
func badgeIn(text string) string {
	if found := badgeStart.FindStringSubmatch(text); found != nil {
		return found[1]
	}
	return ""
}

// stockRow is a row of the pull list: so many equal cables, and for which links.
type stockRow struct {
	box, tag, kind string
	metres, number int
	links          string
}

var pulledRow = regexp.MustCompile(`(?:(Case\w|No case) )?(?:(T\d\d) )?(Cat[A-C]|Glass|Snake) ([\d.]+) (\d+) (L\d\d(?:, L\d\d)*)`)

// pulledRows reads rows of the pull list, by case where that is told.
func pulledRows(t *testing.T, text string) (rows []stockRow) {
	t.Helper()
	box := ""
	for _, found := range pulledRow.FindAllStringSubmatch(text, -1) {
		if found[1] != "" {
			box = found[1]
		}
		number, err := strconv.Atoi(found[5])
		require.NoError(t, err)
		rows = append(rows, stockRow{box, found[2], found[3], tenths(t, found[4]), number, found[6]})
	}
	return rows
}
