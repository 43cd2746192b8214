package report_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report"
)

func edited(t *testing.T, p *plan.Plan, edit func(*plan.Edit)) *assess.Assessment {
	t.Helper()
	p, err := plan.Do(p, plan.NewIDSource(5, 2), func(e *plan.Edit) error { edit(e); return nil })
	require.NoError(t, err)
	return assess.Of(p)
}

func act(e *plan.Edit, id plan.ActID, change func(*plan.Act)) {
	row, _ := e.Now().Acts.Get(plan.Key(id))
	change(&row)
	plan.Put(e, row)
}

func TestTheLineCheckHasItsOrderItsTimesAndItsResults(t *testing.T) {
	voice := regexp.MustCompile(`(?:(\d\d:\d\d:\d\d) )?(\d+) Voice \d+ dynamic`)
	order := func(by string, start string, seconds int) (said []string) {
		a := edited(t, bands(t, 6), func(e *plan.Edit) {
			act(e, "n-33333", func(a *plan.Act) { a.CheckBy, a.CheckStart, a.CheckSeconds = by, start, seconds })
			for input := range e.Now().Inputs.All() {
				input.Riser = map[int]string{1: "front", 3: "rear", 4: "front", 5: "rear", 6: "front"}[input.Number]
				input.CheckOrder = map[int]int{6: 1, 1: 5}[input.Number]
				plan.Put(e, input)
			}
		})
		choice := report.ChoiceOf(a.Plan, day)
		choice.Chapters, choice.Act = []report.Chapter{report.LineCheck}, "n-33333"
		document, _ := write(t, a, choice)
		text := strings.Join(strings.Fields(strings.Join(pagesOf(t, document), " ")), " ")
		require.Contains(t, text, "OK Dead Noisy Wrong Note")
		require.Equal(t, start != "", strings.Contains(text, "Time No."))
		for _, found := range voice.FindAllStringSubmatch(text, -1) {
			said = append(said, strings.TrimSpace(found[1]+" "+found[2]))
		}
		return said
	}
	require.Equal(t, []string{"1", "3", "4", "5", "6"}, order("", "", 20), "2 is not used in this act")
	require.Equal(t, []string{"18:59:00 1", "18:59:30 3", "19:00:00 4", "19:00:30 5", "19:01:00 6"}, order("", "18:59", 30))
	require.Equal(t, []string{"18:59:00 1", "18:59:20 4", "18:59:40 6", "19:00:00 3", "19:00:20 5"}, order("area", "18:59", 0), "a riser at a time, twenty seconds each where nobody said")
	require.Equal(t, []string{"23:59:00 6", "23:59:40 3", "00:00:20 4", "00:01:00 1", "00:01:40 5"}, order("hand", "23:59", 40), "over midnight too")
}

func TestTheListsTellTypesSidesRadioAndOutputs(t *testing.T) {
	plain := chapterOf(t, assess.Of(bands(t, 6)), report.PatchLists)
	for _, head := range []string{"Radio", "Mix or bus", "Kind"} {
		require.NotContains(t, plain, head)
	}
	a := edited(t, bands(t, 6), func(e *plan.Edit) {
		for input := range e.Now().Inputs.All() {
			switch input.Number {
			case 1:
				input.Use, input.Source = "active_DI", ""
			case 4:
				input.Name, input.Right = "Keys left", e.Now().Inputs.At(4).ID
			case 5:
				input.Name = "Keys"
			case 6:
				input.RFChannel, input.Frequency, input.Transmitter = "3", 606.525, "hand 2"
			}
			plan.Put(e, input)
		}
		box, monitors := named(t, e.Now(), "Stage left"), named(t, e.Now(), "Monitors")
		right := e.AddOutput(plan.Output{Number: 2, Name: "Ears", Kind: "in_ear", Mix: "mix 2", Pack: "pack 7", Frequency: 520})
		left := e.AddOutput(plan.Output{Number: 1, Name: "Ears", Kind: "in_ear", Mix: "mix 1", Right: right})
		for i, id := range []plan.OutputID{left, right} {
			require.NoError(t, patch.SetOutput(e, "", id, monitors, patch.Socket{Device: box, Number: i + 1, Output: true}))
		}
	})
	text := strings.Join(strings.Fields(chapterOf(t, a, report.PatchLists)), " ")
	for _, words := range []string{
		"1 Voice 1 active DI, tall boom", "4 Keys left dynamic", "5 Keys R dynamic", "RF 3, 606.525 MHz, hand 2",
		"1 Ears L mix 1 in-ear Monitors Stage left out 1", "2 Ears R mix 2 in-ear 520 MHz, pack 7 Monitors Stage left out 2",
	} {
		require.Contains(t, text, words)
	}
	boxes := strings.Join(strings.Fields(chapterOf(t, a, report.BoxPatch)), " ")
	require.Contains(t, boxes, "out 2 2 Ears R from Monitors, in-ear, mix 2, 520 MHz, pack 7")
	book := report.Spreadsheet(a)
	told := map[string]int{}
	for _, sheet := range book.Sheets {
		told[sheet.Name] = len(sheet.Rows)
		require.NotEmpty(t, sheet.Columns)
	}
	require.Equal(t, 3*2, told["Outputs"], "three acts, the house among them")
	require.Positive(t, told["Sockets"])
}

func TestLongNamesStandWhole(t *testing.T) {
	long := "The " + strings.Repeat("Very Long Travelling ", 5) + "Orchestra"
	a := edited(t, bands(t, 6), func(e *plan.Edit) {
		act(e, "n-22222", func(a *plan.Act) { a.Name = long })
		act(e, "n-33333", func(a *plan.Act) { a.Name = long + " Two" })
	})
	for _, chapter := range []report.Chapter{report.BoxPatch, report.PatchLists, report.ChannelPatch, report.ActChanges, report.LineCheck} {
		text := strings.Join(strings.Fields(chapterOf(t, a, chapter)), " ")
		require.NotContains(t, text, "…", chapter)
		require.Contains(t, text, long+" Two", chapter)
	}
	require.Contains(t, strings.Join(strings.Fields(chapterOf(t, a, report.BoxPatch)), " "), long+": as in the house patch.")
}

func TestALongLinkNameLeavesRoomBesideIt(t *testing.T) {
	a := edited(t, field(t), func(e *plan.Edit) {
		for link := range e.Now().Links.All() {
			link.Name = fmt.Sprintf("Line to the far side of the long field %s", link.Name)
			plan.Put(e, link)
		}
	})
	text := strings.Join(strings.Fields(section(strings.Join(strings.Fields(chapterOf(t, a, report.VenueSheet)), " "), "House lines wanted", "Questions")), " ")
	require.NotContains(t, text, "…")
	require.Contains(t, text, "Line From panel To panel Cable For Free", "no head is broken")
}
