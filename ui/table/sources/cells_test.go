package sources_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// cableMetres is how long a cable of a link is, by the rows of the plan.
func cableMetres(p *plan.Plan, segment plan.Segment) float64 {
	reel, _ := p.Reels.Get(plan.Key(segment.Reel))
	line, _ := p.HouseLines.Get(plan.Key(segment.HouseLine))
	return max(segment.Length, reel.Length, line.Length)
}

// plans are plans to look at: a small one with a row in every table, and the demo's.
func plans(t *testing.T) map[string]*plan.Plan {
	t.Helper()
	return map[string]*plan.Plan{"small": show(t), "demo": demo.Weekender()}
}

func TestLinksSayWhatTheRowsOfThePlanSay(t *testing.T) {
	for name, p := range plans(t) {
		s := houseOf(t, p, "links")
		require.Equal(t, p.Links.Len(), s.Len(), name)
		for row := range s.Len() {
			link, _ := p.Link(plan.LinkID(s.Ref(row).Key))
			require.Equal(t, link.Name, s.RowName(row))
			from, _ := p.Device(link.From)
			to, _ := p.Device(link.To)
			require.Equal(t, strings.TrimSpace(from.Name+" "+link.FromPort), strings.TrimSpace(s.says(row, "from")), link.Name)
			require.Equal(t, strings.TrimSpace(to.Name+" "+link.ToPort), strings.TrimSpace(s.says(row, "to")), link.Name)
			cables, metres := 0, 0.0
			for segment := range p.Segments.All() {
				if segment.Link == link.ID {
					cables, metres = cables+1, metres+cableMetres(p, segment)
				}
			}
			laid, joins := "", ""
			if cables > 0 {
				laid = fmt.Sprintf("%.1f m", metres)
			}
			if cables > 1 {
				joins = fmt.Sprint(cables - 1)
			}
			require.Equal(t, laid, s.says(row, "laid"), link.Name)
			require.Equal(t, joins, s.says(row, "joins"), link.Name)
			partner, paired := p.Link(link.Partner)
			require.Equal(t, paired, strings.HasSuffix(s.says(row, "pair"), " of "+partner.Name) && paired, link.Name)
			require.Equal(t, cables == 0 && !link.IsSpare(), strings.Contains("uncabled to lay none", s.says(row, "grade")) && s.says(row, "laid") == "" && !link.IsSpare(), link.Name)
		}
	}
}

func TestWhatIsLeftToGoIsTheRunWithoutItsCable(t *testing.T) {
	p := demo.Weekender()
	s := houseOf(t, p, "links")
	short := 0
	for row := range s.Len() {
		run, laid, missing := s.Cell(row, s.at["run"]).Value, s.Cell(row, s.at["laid"]).Value, s.Cell(row, s.at["missing"]).Value
		if s.says(row, "run") == "" {
			require.True(t, math.IsNaN(run), "a run that nobody knows sorts last")
			continue
		}
		if s.says(row, "missing") == "" {
			require.LessOrEqual(t, run, laid+0.05, s.RowName(row))
			require.True(t, math.IsNaN(missing))
			continue
		}
		short++
		require.InDelta(t, run-laid, missing, 1e-6, s.RowName(row))
	}
	require.Positive(t, short)
}

func TestCablesLieOneBehindTheOther(t *testing.T) {
	for name, p := range plans(t) {
		s := houseOf(t, p, "cables")
		require.Equal(t, p.Segments.Len(), s.Len(), name)
		before, begins := "", 0.0
		for row := range s.Len() {
			segment, found := p.Segments.Get(s.Ref(row).Key)
			require.True(t, found)
			link, _ := p.Link(segment.Link)
			if link.Name != before {
				before, begins = link.Name, 0
			}
			require.Equal(t, link.Name, s.says(row, "link"))
			require.Equal(t, fmt.Sprint(segment.Order), s.says(row, "order"))
			require.InDelta(t, begins, s.Cell(row, s.at["start"]).Value, 1e-9, s.RowName(row))
			begins += cableMetres(p, segment)
			require.Equal(t, []plan.Ref{plan.RefOf(link)}, s.Shows(row), "the plan selects the link")
		}
	}
}

func TestDevicesAndPositionsCountWhatStandsThere(t *testing.T) {
	for name, p := range plans(t) {
		devices, positions := houseOf(t, p, "devices"), houseOf(t, p, "positions")
		require.Equal(t, p.Devices.Len(), devices.Len(), name)
		require.Equal(t, p.Positions.Len(), positions.Len(), name)
		at := map[string][]string{}
		for row := range devices.Len() {
			device, _ := p.Devices.Get(devices.Ref(row).Key)
			links := ""
			n := 0
			for link := range p.Links.All() {
				for _, end := range []plan.DeviceID{link.From, link.To} {
					if end == device.ID {
						n++
						links = fmt.Sprint(n)
					}
				}
			}
			require.Equal(t, links, devices.says(row, "links"), device.Name)
			if where := devices.says(row, "position"); where != "" {
				at[where] = append(at[where], device.Name)
			}
		}
		for row := range positions.Len() {
			told := strings.Split(positions.says(row, "devices"), ", ")
			if told[0] == "" {
				told = nil
			}
			require.ElementsMatch(t, at[positions.RowName(row)], told, positions.RowName(row))
		}
	}
}

func TestTheStockNamesTheLinksThatItLiesIn(t *testing.T) {
	for name, p := range plans(t) {
		for sheet, of := range map[string]func(plan.Segment) plan.Key{
			"stock":       func(s plan.Segment) plan.Key { return plan.Key(s.Reel) },
			"house lines": func(s plan.Segment) plan.Key { return plan.Key(s.HouseLine) },
		} {
			s := houseOf(t, p, sheet)
			for row := range s.Len() {
				in := map[string]bool{}
				for segment := range p.Segments.All() {
					if of(segment) == s.Ref(row).Key {
						link, _ := p.Link(segment.Link)
						in[link.Name] = true
					}
				}
				told := s.says(row, "links")
				require.Equal(t, len(in), len(slices.DeleteFunc(strings.Split(told, ", "), func(w string) bool { return w == "" })), "%s: %s", name, told)
				for link := range in {
					require.Contains(t, strings.Split(told, ", "), link)
				}
			}
		}
		s := houseOf(t, p, "stock")
		for row := 1; row < s.Len(); row++ {
			if s.says(row, "kind") == s.says(row-1, "kind") {
				require.LessOrEqual(t, s.Cell(row, s.at["length"]).Value, s.Cell(row-1, s.at["length"]).Value, "the longest first")
			}
		}
	}
}

func TestTheWorstFindingsStandFirstAndOfferWhatMends(t *testing.T) {
	offered := 0
	for name, p := range plans(t) {
		a := assess.Of(p)
		s := pageOf(t, a, "findings", "", words.Units{})
		require.Equal(t, len(a.Findings), s.Len(), name)
		rank := map[string]int{"stop": 0, "warn": 1, "note": 2}
		for row := range s.Len() {
			severity := s.Cell(row, s.at["severity"])
			require.Contains(t, rank, severity.Text)
			if row > 0 {
				require.GreaterOrEqual(t, rank[severity.Text], rank[s.says(row-1, "severity")])
			}
			require.Equal(t, []table.Tone{table.Stop, table.Warn, table.Muted}[rank[severity.Text]], severity.Tone)
			mends := len(checks.Fixes(p, a.Findings[row])) > 0
			if mends {
				offered++
				require.Equal(t, "offer…", s.says(row, "fix"), a.Findings[row].What)
			}
			require.Equal(t, len(a.Findings[row].Where), len(s.Shows(row)))
		}
	}
	require.Positive(t, offered)
}
