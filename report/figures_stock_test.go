package report_test

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
	"stageloom/report"
)

var missingRow = regexp.MustCompile(`(L\d\d) ([\d.]+) (?:Cat[A-C]|Glass|Snake|any that fits)`)

// stock compares what is pulled and counted back with the cables of the budget, by kind, length and case.
func (c *compared) stock() {
	pull := c.read["Prep: Pull list"]
	titles := []string{"Cables by kind and length", "Still missing", "Hired in or borrowed", " Couplers Out", "Adapters and tails", "Ramps and covers", "Held back"}
	c.pulled = pulledRows(c.T, section(pull, "Pull list", titles...))
	c.loose = pulledRows(c.T, section(pull, titles[0], titles[1:]...))
	wanted, read := map[string]int{}, map[string]int{}
	houseless := c.houseless()
	for _, l := range c.lines {
		for _, p := range l.pieces {
			wanted[fmt.Sprint(p.metres, p.kind, p.tag)]++
		}
	}
	for key, count := range houseless {
		wanted[key] -= count
	}
	boxes := map[string]int{}
	for _, r := range slices.Concat(c.pulled, c.loose) {
		read[fmt.Sprint(r.metres, r.kind, r.tag)] += r.number
	}
	for _, r := range c.pulled {
		boxes[r.box] += r.number
	}
	for key := range wanted {
		if wanted[key] == 0 {
			delete(wanted, key)
		}
	}
	c.same(wanted, read, "cables pulled")
	count := section(c.read["Strike: Strike"], "Count into the cases", "Faulty and suspect")
	counted := map[string]int{}
	for _, found := range regexp.MustCompile(`(Case\w|No case) (\d+)`).FindAllStringSubmatch(count, -1) {
		if found[2] != "0" { // of that case only spares went out
			counted[found[1]], _ = strconv.Atoi(found[2])
		}
	}
	c.same(boxes, counted, "cables counted back")
	missing := map[string]string{}
	for _, found := range missingRow.FindAllStringSubmatch(section(pull, titles[1], titles[2:]...), -1) {
		missing[found[1]] = found[2]
	}
	for name, l := range c.lines {
		if l.missing > 0 || missing[name] != "" {
			c.length(l.missing, cmp.Or(missing[name], "0"), "still missing", name)
		}
	}
}

// houseless are the pieces that are no cables of the crew: lines of the house.
func (c *compared) houseless() map[string]int {
	lines := map[string]int{}
	for _, link := range c.plan.Links() {
		if _, printed := c.lines[link.Name]; !printed {
			continue
		}
		for i, segment := range c.plan.Plan.SegmentsOf(link.ID) {
			if segment.HouseLine != "" {
				p := c.lines[link.Name].pieces[i]
				lines[fmt.Sprint(p.metres, p.kind, p.tag)]++
			}
		}
	}
	return lines
}

var (
	frontGrades = regexp.MustCompile(`(\d+) links?: ([^.]*)\. (\d+) m of cable with (\d+) joins?`)
	gradeCount  = regexp.MustCompile(`(\d+) (ample|enough|to be tested|tight|over limit|faulty|to lay|uncabled|without a loss budget)`)
	legendEntry = regexp.MustCompile(`(ample|enough|to be tested|tight|over limit|faulty|to lay|uncabled|without a loss budget)[a-z, ]*: (\d+) links?`)
	planLabel   = regexp.MustCompile(`(L\d\d)(?: ([+−]\d+ test|[+−]\d+|to lay|faulty))?(?: (?:too short|misses|to lay) ([\d.]+) m)?`)
)

// fronts compares the counts of the front pages with the rows of the tables. They tell of the whole plan.
func (c *compared) fronts() {
	for name, text := range c.read {
		if !strings.HasSuffix(name, " pack") || !c.whole {
			continue
		}
		front := frontGrades.FindStringSubmatch(text)
		require.NotNil(c, front, text)
		wanted, read := map[string]int{}, map[string]int{}
		var sum line
		short, bare := 0, 0
		for _, l := range c.lines {
			if l.grade == "" {
				l.grade = "without a loss budget"
			}
			wanted[l.grade]++
			sum.laid, sum.joins = sum.laid+l.laid, sum.joins+l.joins
			if l.laid == 0 {
				bare++
			} else if l.missing > 0 {
				short++
			}
		}
		for _, found := range gradeCount.FindAllStringSubmatch(front[2], -1) {
			read[found[2]], _ = strconv.Atoi(found[1])
		}
		c.same(wanted, read, "links by grade", name)
		c.same(len(c.lines), front[1], "links", name)
		c.same(whole(sum.laid), front[3], "metres of cable", name)
		c.same(sum.joins, front[4], "joins", name)
		c.counted(text, `(\d+) links? (?:is|are) too short`, short, name)
		c.counted(text, `(\d+) links? ha(?:s|ve) no cable yet`, bare, name)
		c.counted(text, `(\d+) links? (?:is|are) over limit`, wanted["over limit"], name)
		stops := 0
		if found := regexp.MustCompile(`must not be used \((\d+)\)`).FindStringSubmatch(c.read["Engineer: Findings"]); found != nil {
			stops, _ = strconv.Atoi(found[1])
		}
		c.counted(text, `(\d+) findings? stops? the show`, stops, name)
	}
}

func (c *compared) counted(text, pattern string, wanted int, words string) {
	read := 0
	if found := regexp.MustCompile(pattern).FindStringSubmatch(text); found != nil {
		read, _ = strconv.Atoi(found[1])
	}
	c.same(wanted, read, pattern, words)
}

// onPlan compares labels and legend of the plan's pages. The legend counts all links, and all are drawn.
func (c *compared) onPlan() {
	text := c.read["Lay: Plan"]
	if !c.whole {
		return
	}
	counts, read := map[string]int{}, map[string]int{}
	for _, l := range c.lines {
		if l.grade == "" {
			l.grade = "without a loss budget"
		}
		counts[strings.Replace(l.grade, "to lay", "to lay", 1)]++
	}
	drawing, _, _ := strings.Cut(text, "when printed at 100 %")
	for _, found := range legendEntry.FindAllStringSubmatch(strings.ReplaceAll(text, "cable to lay", "to lay"), -1) {
		read[found[1]], _ = strconv.Atoi(found[2])
	}
	c.same(counts, read, "legend of the plan")
	for _, found := range planLabel.FindAllStringSubmatch(drawing, -1) {
		l := c.lines[found[1]]
		if found[2] != "" && l.grade != "to lay" && l.grade != "faulty" {
			c.badge(found[1], found[2]+map[bool]string{true: " test"}[l.grade == "to be tested"], "label on the plan")
		}
		if found[3] != "" {
			c.length(l.missing, found[3], "missing on the plan", found[1])
		}
	}
}

var (
	foundShort = regexp.MustCompile(`(L\d\d) is ([\d.]+) m too short: ([\d.]+) m laid for a run of ([\d.]+) m`)
	foundBare  = regexp.MustCompile(`(L\d\d) has no cable yet: ([\d.]+) m to go`)
	foundOver  = regexp.MustCompile(`(L\d\d) is over by ([\d.]+) dB`)
	foundTight = regexp.MustCompile(`(L\d\d) is tight[^:]*: ([\d.]+) dB in hand`)
)

// findings compares the figures that findings tell.
func (c *compared) findings() {
	text := c.read["Engineer: Findings"]
	for _, found := range foundShort.FindAllStringSubmatch(text, -1) {
		if l, printed := c.lines[found[1]]; printed {
			c.same([]int{l.missing, l.laid, l.run}, []int{tenths(c.T, found[2]), tenths(c.T, found[3]), tenths(c.T, found[4])}, "finding: missing, laid, run", found[1])
		}
	}
	for _, found := range foundBare.FindAllStringSubmatch(text, -1) {
		if l, printed := c.lines[found[1]]; printed {
			c.same(l.missing, tenths(c.T, found[2]), "finding: to go", found[1])
		}
	}
	for _, found := range foundOver.FindAllStringSubmatch(text, -1) {
		if l, printed := c.lines[found[1]]; printed && l.margin != "" {
			c.same(-tenths(c.T, l.margin), tenths(c.T, found[2]), "finding: over", found[1])
		}
	}
	for _, found := range foundTight.FindAllStringSubmatch(text, -1) {
		if l, printed := c.lines[found[1]]; printed && l.margin != "" {
			c.same(tenths(c.T, l.margin), tenths(c.T, found[2]), "finding: in hand", found[1])
		}
	}
}

// workbook compares the sheets of the spreadsheet, which shows figures to the tenth.
func (c *compared) workbook() {
	sheets := map[string][]map[string]exchange.Cell{}
	for _, sheet := range report.Spreadsheet(c.plan).Sheets {
		for _, cells := range sheet.Rows {
			one := map[string]exchange.Cell{}
			for i, column := range sheet.Columns {
				one[column.Head] = cells[i]
			}
			sheets[sheet.Name] = append(sheets[sheet.Name], one)
		}
	}
	dB := func(figure string) string {
		figure = strings.TrimPrefix(strings.TrimSuffix(figure, ".0"), "+")
		return strings.Replace(figure, "−", "-", 1)
	}
	metres := func(tenths int) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", float64(tenths)/10), ".0") }
	for _, r := range sheets["Links"] {
		name := r["Link"].String()
		l := c.lines[name]
		for head, wanted := range map[string]string{
			"Run m": metres(l.run), "Laid m": metres(l.laid), "Missing m": metres(l.missing), "Joins": fmt.Sprint(l.joins),
			"Loss dB": dB(l.loss), "Limit dB": dB(l.limit), "Margin dB": dB(l.margin),
		} {
			c.same(wanted, r[head].String(), "workbook, "+head, name)
		}
		c.same(l.grade, r["Grade"].String(), "workbook, grade", name)
		c.same(l.part, strings.ReplaceAll(r["Line"].String(), "\u00a0", " "), "workbook, line", name)
	}
	pieces := map[string][]string{}
	for _, r := range sheets["Cables"] {
		if r["Assumed"].String() == "" {
			pieces[r["Link"].String()] = append(pieces[r["Link"].String()], r["Length m"].String())
		}
	}
	var onPaper, inSheet []string
	for _, r := range slices.Concat(c.pulled, c.loose) {
		onPaper = append(onPaper, fmt.Sprintf("%s, %s, %s, %d", r.tag, r.kind, metres(r.metres), r.number))
	}
	for _, r := range sheets["Pull list"] {
		inSheet = append(inSheet, fmt.Sprintf("%s, %s, %s, %s", r["Tag"], r["Cable"], r["Length m"], r["Number"]))
	}
	c.same(onPaper, inSheet, "workbook, pull list")
	for name, l := range c.lines {
		var wanted []string
		for _, p := range l.pieces {
			wanted = append(wanted, metres(p.metres))
		}
		c.same(wanted, pieces[name], "workbook, cables", name)
	}
}
