package report_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/report"
)

// wings is the evening with its monitor console at a position of its own, and another position where nothing is.
func wings(t *testing.T) *plan.Plan {
	p, err := plan.Do(evening(t), nil, func(e *plan.Edit) error {
		plan.Put(e, plan.Position{ID: "p-22222", Name: "Wings", X: 20, Width: 4, Depth: 4})
		plan.Put(e, plan.Position{ID: "p-33333", Name: "Store", X: 60, Width: 4, Depth: 4})
		for device := range e.Now().Devices.All() {
			if device.Name == "Monitors" {
				device.Position = "p-22222"
				plan.Put(e, device)
			}
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

// A pack of one position or one act lists the chapters that it holds, and those alone, with the pages where they begin.
func TestTheFrontPageOfALimitedPackListsWhatIsInIt(t *testing.T) {
	a := assess.Of(wings(t))
	for _, c := range []struct {
		position plan.PositionID
		act      plan.ActID
		pack     report.Pack
		holds    string
		limit    string
	}{
		{"", "", report.Prep, "Pull list, Labels, Tape list", ""},
		{"p-22222", "", report.Prep, "Pull list, Labels, Tape list", "Only what ends at Wings: 1 link."},
		{"p-33333", "", report.Prep, "Pull list", "Only what ends at Store: 0 links."},
		{"p-33333", "", report.Lay, "Plan, Cable schedule, Cautions", "Only what ends at Store: 0 links."},
		{"p-22222", "", report.Strike, "Strike", "Only what ends at Wings: 1 link."},
		{"", "n-44444", report.Patch, "Input and output lists, Patch by box, Patch by channel, Changes between acts, Line check", ""},
		{"p-22222", "n-33333", report.Patch, "Input and output lists, Patch by box, Patch by channel, Changes between acts, Line check", "Only what ends at Wings: 1 link."},
	} {
		t.Run(fmt.Sprint(c.pack, c.position, c.act), func(t *testing.T) {
			choice := report.ChoiceOf(a.Plan, day)
			choice.Packs, choice.Position, choice.Act = []report.Pack{c.pack}, c.position, c.act
			document, done := write(t, a, choice)
			front := readPrint(t, document, done)[done.Entries[0].Name]
			name, _ := c.pack.Name()
			var held, rows []string
			for _, entry := range done.Entries[1:] {
				chapter := strings.TrimPrefix(entry.Name, name+": ")
				held, rows = append(held, chapter), append(rows, fmt.Sprint(chapter, " ", entry.Page))
			}
			require.Equal(t, c.holds, strings.Join(held, ", "))
			require.Contains(t, front, "From page "+strings.Join(rows, " "))
			require.Equal(t, c.limit != "", strings.Contains(front, "Only what ends at"))
			require.Contains(t, front, c.limit)
			act, _ := a.Plan.Acts.Get(plan.Key(c.act))
			require.Equal(t, c.act != "", strings.Contains(front, "Patch of act "+act.Name+" only."))
		})
	}
}

func TestAPatchOfAPositionTellsOfItsConsoleAlone(t *testing.T) {
	a := assess.Of(wings(t))
	choice := report.ChoiceOf(a.Plan, day)
	choice.Chapters, choice.Position = []report.Chapter{report.BoxPatch, report.ChannelPatch, report.CableSchedule}, "p-22222"
	document, done := write(t, a, choice)
	read := readPrint(t, document, done)
	channels := read["Patch by channel"]
	require.Contains(t, channels, "Monitors, House")
	require.NotContains(t, channels, "FOH")
	require.Len(t, voices(t, channelRow, channels), 4+3+3, "four of the house, three of either act that does without one")
	require.NotContains(t, read["Patch by box"], "Voice", "the box stands elsewhere")
	require.Contains(t, read["Cable schedule"], "L02")
	require.NotContains(t, read["Cable schedule"], "L01")
}

var labelHead = regexp.MustCompile(`(?m)^(END [AB]|JOIN \d+[AB])\n(\S+)$`)

func TestLabelsComeInTheNaturalOrderOfTheirLinksBehindThoseUsedUp(t *testing.T) {
	names := []string{"L100", "L9", "L10", "K2", "K11", "L1"}
	p, err := plan.Do(many(t, len(names)), nil, func(e *plan.Edit) error {
		for i, name := range names {
			link := e.Now().Links.At(i)
			link.Name = name
			plan.Put(e, link)
		}
		return nil
	})
	require.NoError(t, err)
	var wanted []string
	for _, name := range []string{"K2", "K11", "L1", "L9", "L10", "L100"} {
		for _, of := range []string{"END A", "JOIN 1A", "JOIN 1B", "END B"} {
			wanted = append(wanted, of+" "+name)
		}
	}
	sheet := report.LabelSheet{Columns: 1, Rows: 7, Width: 60, Height: 35, Left: 5, Top: 15, GapY: 2}
	for skip, pages := range map[int][]int{0: {7, 7, 7, 3}, 5: {2, 7, 7, 7, 1}, 6: {1, 7, 7, 7, 2}} {
		t.Run(fmt.Sprintf("%d used up", skip), func(t *testing.T) {
			sheet.Skip = skip
			document, _ := labelsOf(t, assess.Of(p), sheet)
			var said []string
			var counts []int
			for _, page := range pagesOf(t, document) {
				found := labelHead.FindAllStringSubmatch(page, -1)
				counts = append(counts, len(found))
				for _, one := range found {
					said = append(said, one[1]+" "+one[2])
				}
			}
			require.Equal(t, wanted, said)
			require.Equal(t, pages, counts)
		})
	}
}
