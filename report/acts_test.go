package report_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report"
)

// evening is two bands and a third act that does without two inputs; three of the twelve inputs want 48 V.
func evening(t *testing.T) *plan.Plan {
	p, err := plan.Do(bands(t, 12), nil, func(e *plan.Edit) error {
		plan.Put(e, plan.Act{ID: "n-44444", Name: "Night set", Order: 3})
		for input := range e.Now().Inputs.All() {
			input.Phantom = input.Number%3 == 0 && input.Number < 12
			plan.Put(e, input)
			if input.Number == 3 || input.Number == 5 {
				patch.Strike(e, "n-44444", input.ID)
			}
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

var (
	callRow    = regexp.MustCompile(`\b\d+ Voice (\d+) dynamic`)
	socketRow  = regexp.MustCompile(`\bin \d+ \d+ Voice (\d+) `)
	channelRow = regexp.MustCompile(`\b\d+ \d+ Voice (\d+) dynamic`)
	heads      = strings.NewReplacer("stand 48 V Plugged", "", "plugged in 48 V FOH", "", "plugged in 48 V by FOH FOH", "")
)

// voices are the inputs of the rows of a sheet, in its order.
func voices(t *testing.T, row *regexp.Regexp, text string) (numbers []int) {
	for _, found := range row.FindAllStringSubmatch(text, -1) {
		number, err := strconv.Atoi(found[1])
		require.NoError(t, err)
		numbers = append(numbers, number)
	}
	return numbers
}

func TestAnActsSheetsHoldWhatTheActHasAndNothingOfTheOthers(t *testing.T) {
	a := assess.Of(evening(t))
	names := map[plan.ActID]string{"n-22222": "Opening band", "n-33333": "Last band", "n-44444": "Night set"}
	struck := map[plan.ActID][]int{"n-33333": {2}, "n-44444": {3, 5}}
	for act, name := range names {
		t.Run(name, func(t *testing.T) {
			choice := report.ChoiceOf(a.Plan, day)
			choice.Act = act
			choice.Chapters = []report.Chapter{report.BoxPatch, report.ChannelPatch, report.LineCheck}
			document, done := write(t, a, choice)
			read := readPrint(t, document, done)
			var wanted, atMonitors []int
			phantom := 0
			for number := range 12 {
				if number++; slices.Contains(struck[act], number) {
					continue
				}
				wanted = append(wanted, number)
				if number <= 4 {
					atMonitors = append(atMonitors, number)
				}
				if number == 3 || number == 6 || number == 9 {
					phantom++
				}
			}
			for _, chapter := range done.Entries {
				require.Contains(t, read[chapter.Name], name)
				for other, its := range names {
					require.Equal(t, other == act, strings.Contains(read[chapter.Name], its), "%s in %s", its, chapter.Name)
				}
			}
			calls := heads.Replace(read["Line check"])
			require.Equal(t, wanted, voices(t, callRow, calls), "called in order, those that are there")
			require.Equal(t, phantom, strings.Count(calls, "48 V"))
			boxes := heads.Replace(read["Patch by box"])
			channels := heads.Replace(read["Patch by channel"])
			require.NotContains(t, boxes+channels, "as in the house patch", "the house is not at hand")
			require.ElementsMatch(t, wanted, voices(t, socketRow, boxes))
			require.Equal(t, phantom, strings.Count(boxes, "48 V")-strings.Count(boxes, "48 V off"), "without what the act before left on")
			require.ElementsMatch(t, slices.Concat(wanted, atMonitors), voices(t, channelRow, channels), "FOH has all, Monitors four")
		})
	}
}

func TestChangesLeadFromEachActToTheNext(t *testing.T) {
	text := strings.Join(strings.Fields(chapterOf(t, assess.Of(evening(t)), report.ActChanges)), " ")
	night := section(text, "Night set, after Last band")
	for number, changes := range map[int]bool{1: true, 2: true, 3: true, 5: true, 4: false, 6: false, 12: false} {
		require.Equal(t, changes, strings.Contains(night, fmt.Sprintf("%d Voice %d ", number, number)), "Voice %d", number)
	}
	require.Contains(t, night, "2 Voice 2 not plugged Stage left in 2", "the last act did without, this one has it again")
	require.Equal(t, 3, strings.Count(text, ", after "), "one sheet for each act behind the house")
}
