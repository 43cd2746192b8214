package report_test

import (
	"cmp"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/report"
)

// Figures that stand on several pages are read from the pages by a parser of its own and compared: a figure is one figure,
// in tenths for the engineer and for the crew in whole metres, rounded up, and whole dB, rounded down.
func TestAFigureReadsTheSameOnEveryPage(t *testing.T) {
	plans := 100
	if testing.Short() {
		plans = 10
	}
	for seed := range plans {
		t.Run(fmt.Sprint("plan ", seed), func(t *testing.T) {
			t.Parallel()
			p := anyPlan(t, uint64(seed))
			choice := report.ChoiceOf(p, day)
			if seed%4 == 3 { // what one position needs
				position, _ := p.Device(p.Links.At(0).From)
				choice.Position = position.Position
			}
			choice.Packs = []report.Pack{report.Prep, report.Lay, report.Engineer, report.Strike}
			a := assess.Of(p)
			document, done := write(t, a, choice)
			c := &compared{T: t, plan: a, read: readPrint(t, document, done), whole: choice.Position == ""}
			c.lines = budgetOf(t, c.read["Engineer: Link budget"])
			c.ownFigures()
			c.totals()
			c.schedule()
			c.drawings()
			c.joins()
			c.stock()
			c.fronts()
			c.onPlan()
			c.findings()
			if c.whole {
				c.workbook()
			}
		})
	}
}

// compared is one print as it is compared: with the engineer's budget, page by page.
type compared struct {
	*testing.T
	plan  *assess.Assessment
	read  chapters
	whole bool // all links are printed
	lines map[string]line
	// pulled and loose are the rows of the pull list.
	pulled, loose []stockRow
}

func (c *compared) same(wanted, read any, words ...string) {
	c.Helper()
	if fmt.Sprint(wanted) != fmt.Sprint(read) {
		c.Errorf("%s: %v in the budget, and here %v", strings.Join(words, ", "), wanted, read)
	}
}

func whole(tenths int) string { return fmt.Sprint((tenths + 9) / 10) }

// length is a figure as a page prints it: tenths as such, or whole metres rounded up.
func (c *compared) length(wanted int, read string, words ...string) {
	c.Helper()
	if read == whole(wanted) {
		return
	}
	c.same(wanted, tenths(c.T, read), words...)
}

// badge is the margin in whole dB, or the word that stands in its place.
func (c *compared) badge(link, read string, words ...string) {
	c.Helper()
	l := c.lines[link]
	wanted := ""
	switch {
	case l.grade == "to lay" || l.grade == "faulty":
		wanted = l.grade
	case l.margin != "":
		wanted = budget.WholeDB(float64(tenths(c.T, l.margin)) / 10)
	}
	if l.grade == "to be tested" {
		wanted += " test"
	}
	c.same(wanted, read, append(words, link)...)
}

// ownFigures checks the budget in itself: its sums, and what the model says.
func (c *compared) ownFigures() {
	for _, link := range c.plan.Links() {
		l, printed := c.lines[link.Name]
		if !printed {
			require.False(c, c.whole, link.Name)
			continue
		}
		b, _ := c.plan.Budget(link.ID)
		c.same(l.way+l.rises+l.slack, l.run, "way, rises and slack", link.Name)
		if l.missing > 1 {
			c.same(l.run-l.laid, l.missing, "run less laid", link.Name)
		} else {
			require.LessOrEqual(c, l.run-l.laid, 3+len(l.pieces), "nothing is missing of %s but what is rounded", link.Name)
		}
		sum := 0
		for _, p := range l.pieces {
			sum += p.metres
		}
		c.same(l.laid, sum, "cables in order", link.Name)
		c.same(l.joins, max(0, len(l.pieces)-1), "joins", link.Name)
		if l.margin != "" {
			c.same(tenths(c.T, l.limit)-tenths(c.T, l.loss), tenths(c.T, l.margin), "limit less loss", link.Name)
			c.same(budget.LossTenths(b.LossDB), l.loss, "loss of the model", link.Name)
		}
		c.same(b.HasMargin(), l.margin != "", "has a margin", link.Name)
		c.wholeLine(link.Name)
		c.same(strings.Replace(string(b.Standing()), "over", "over limit", 1), l.grade, "standing", link.Name)
	}
}

// wholeLine checks that the metres of a line through panels are those of its pieces.
func (c *compared) wholeLine(name string) {
	found := wholePart.FindStringSubmatch(c.lines[name].part)
	if found == nil {
		return
	}
	sum := 0
	for _, one := range strings.Split(found[1], " + ") {
		l, printed := c.lines[one]
		if !printed {
			return
		}
		sum += l.laid
		if b, _ := c.plan.Budget(c.linkNamed(one)); b.Assumed() {
			sum += l.missing
		}
	}
	c.same(sum, tenths(c.T, found[2]), "metres of the line", name)
}

var (
	totalRow  = regexp.MustCompile(`(\d+) links?(?:, (\d+\.\d) m still missing)? (\d+\.\d) (\d+) `)
	usedRow   = regexp.MustCompile(`(Cat[A-C]|Glass|Snake) (\d+) (\d+\.\d) (\d+\.\d) `)
	couplers  = regexp.MustCompile(`(\d+) × (8P8C, Cat \w+ hardware|[\w -]+|8P8C)`)
	coupleRow = regexp.MustCompile(`(8P8C|LC duplex|multi-pin) (–|Cat \w+ hardware) (\d+)`)
)

// totals are the sums of the rows that are printed above them, and couplers are the joints of plugs.
func (c *compared) totals() {
	text := c.read["Engineer: Link budget"] + " "
	total := totalRow.FindStringSubmatch(text)
	require.NotNil(c, total)
	var sum line
	for _, l := range c.lines {
		sum.laid, sum.missing, sum.joins = sum.laid+l.laid, sum.missing+l.missing, sum.joins+l.joins
	}
	c.same(len(c.lines), total[1], "links in all")
	if total[2] != "" || sum.missing > 0 {
		c.same(sum.missing, tenths(c.T, cmp.Or(total[2], "0")), "missing in all")
	}
	c.same(sum.laid, tenths(c.T, total[3]), "laid in all")
	c.same(sum.joins, total[4], "joins in all")
	used := section(text, "Cable used", "Couplers: ")
	laid, missing, count := 0, 0, 0
	for _, found := range usedRow.FindAllStringSubmatch(used, -1) {
		n, _ := strconv.Atoi(found[2])
		laid, missing, count = laid+tenths(c.T, found[3]), missing+tenths(c.T, found[4]), count+n
	}
	pieces, assumed := 0, 0
	for name, l := range c.lines {
		pieces += len(l.pieces)
		if b, _ := c.plan.Budget(c.linkNamed(name)); b.Assumed() {
			assumed += l.missing
		}
	}
	c.same(pieces, count, "cables used")
	c.same(sum.laid, laid, "metres of cable used")
	c.same(assumed, missing, "metres missing of a kind")
	budgetSays, pullSays := 0, 0
	for _, found := range couplers.FindAllStringSubmatch(section(text, "Couplers: "), -1) {
		n, _ := strconv.Atoi(found[1])
		budgetSays += n
	}
	for _, found := range coupleRow.FindAllStringSubmatch(section(c.read["Prep: Pull list"], " Couplers Out", "Adapters", "Ramps", "Held back"), -1) {
		n, _ := strconv.Atoi(found[3])
		pullSays += n
	}
	c.same(sum.joins, budgetSays, "couplers under the budget")
	c.same(sum.joins, pullSays, "couplers pulled")
}

func (c *compared) linkNamed(name string) (id plan.LinkID) {
	for _, link := range c.plan.Links() {
		if link.Name == name {
			return link.ID
		}
	}
	return ""
}

var (
	shortWords  = regexp.MustCompile(`([\d.]+) m too short`)
	togoWords   = regexp.MustCompile(`uncabled: ([\d.]+) m to go`)
	overWords   = regexp.MustCompile(`over limit by ([\d.]+) dB`)
	testFormRow = "Engineer: Site tests"
)

// schedule compares the crew's rows and the form of tests.
func (c *compared) schedule() {
	rows := rowsOf(c.read["Lay: Cable schedule"])
	c.same(len(c.lines), len(rows), "links of the schedule")
	for _, r := range rows {
		l := c.lines[r.link]
		cables, run, rest := figureIn(r.rest)
		c.length(l.run, run, "run of the schedule", r.link)
		c.same(told(l.pieces), told(crewPieces(c.T, cables)), "pieces of the schedule", r.link)
		if l.missing == 0 {
			c.badge(r.link, badgeIn(rest), "badge of the schedule")
		}
		c.watch(r.link, rest, "schedule")
	}
	for _, r := range rowsOf(c.read[testFormRow]) {
		if c.lines[r.link].missing == 0 {
			c.badge(r.link, badgeIn(r.rest), "badge of the test form")
		}
	}
	for _, r := range rowsOf(section(c.read["Strike: Strike"], "Strike", "Count into the cases")) {
		c.same(told(c.lines[r.link].pieces), told(crewPieces(c.T, r.rest)), "pieces that are taken up", r.link)
	}
}

// watch compares what the crew is told of a link beside its figures.
func (c *compared) watch(link, text string, words string) {
	l := c.lines[link]
	said := append(shortWords.FindStringSubmatch(text), togoWords.FindStringSubmatch(text)...)
	if l.missing > 0 && words == "schedule" {
		require.NotEmpty(c, said, "%s misses metres in the budget: %s", link, text)
	}
	if len(said) > 0 {
		c.length(l.missing, said[1], "missing in the "+words, link)
	}
	if found := overWords.FindStringSubmatch(text); found != nil {
		c.same(-tenths(c.T, l.margin), tenths(c.T, found[1]), "over limit in the "+words, link)
	}
	if found := wholePart.FindStringSubmatch(text); found != nil {
		wanted := wholePart.FindStringSubmatch(l.part)
		require.NotNil(c, wanted, link)
		c.same(wanted[1], found[1], "the line in the "+words, link)
		c.length(tenths(c.T, wanted[2]), found[2], "metres of the line in the "+words, link)
	}
}

var drawingStart = regexp.MustCompile(`(L\d\d)(?: (?:red|MAIN|BACKUP|red MAIN|red BACKUP))?(?: ([+−]\d+ test|[+−]\d+|to lay|faulty))? run ([\d.]+) m(?: \([a-z, ]+\))?, cable ([\d.]+) m(?:, ([\d.]+) m too short)?`)

func (c *compared) drawings() {
	for _, found := range drawingStart.FindAllStringSubmatch(c.read["Lay: Run drawings"], -1) {
		l := c.lines[found[1]]
		c.length(l.run, found[3], "run of the drawing", found[1])
		c.same(l.laid, tenths(c.T, found[4]), "cable of the drawing", found[1])
		if l.missing > 0 {
			c.length(l.missing, cmp.Or(found[5], "0"), "missing in the drawing", found[1])
		} else {
			c.badge(found[1], found[2], "badge of the drawing")
		}
	}
}

var (
	joinLabel = regexp.MustCompile(`JOIN (\d+)A (L\d\d) (.*?) at ([\d.]+) m of the cable`)
	joinDrawn = regexp.MustCompile(`join (\d+) at ([\d.]+) m`)
)

// joins compares where cables are joined: on labels, drawings and sheets of looms.
func (c *compared) joins() {
	at := func(l line, number int) (metres int) {
		for _, p := range l.pieces[:number] {
			metres += p.metres
		}
		return metres
	}
	labels := map[string]int{}
	for _, found := range joinLabel.FindAllStringSubmatch(c.read["Prep: Labels"], -1) {
		number, _ := strconv.Atoi(found[1])
		labels[found[2]] = max(labels[found[2]], number)
		require.LessOrEqual(c, number, len(c.lines[found[2]].pieces))
		c.same(at(c.lines[found[2]], number), tenths(c.T, found[4]), "join on its label", found[2])
	}
	for name, l := range c.lines {
		c.same(l.joins, labels[name], "labels of joins", name)
	}
	text := c.read["Lay: Run drawings"]
	starts := drawingStart.FindAllStringSubmatchIndex(text, -1)
	for i, start := range starts {
		end := len(text)
		if i+1 < len(starts) {
			end = starts[i+1][0]
		}
		name := text[start[2]:start[3]]
		for _, found := range joinDrawn.FindAllStringSubmatch(text[start[0]:end], -1) {
			number, _ := strconv.Atoi(found[1])
			c.same(at(c.lines[name], number), tenths(c.T, found[2]), "join on its drawing", name)
		}
	}
	for _, r := range rowsOf(section(c.read["Lay: Looms"], "What lies in it")) {
		l := c.lines[r.link]
		cables, first, rest := figureIn(r.rest)
		c.same(told(l.pieces), told(crewPieces(c.T, cables)), "pieces in a loom", r.link)
		places := strings.Fields(first + " " + rest)
		for number := 1; number <= l.joins; number++ {
			require.LessOrEqual(c, number, len(places), r.rest)
			c.same(at(l, number), tenths(c.T, strings.TrimSuffix(places[number-1], ",")), "join in a loom", r.link)
		}
	}
}
