package report_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/report"
)

// namedThroughout is the evening with cases, a reel, a line of the house, a loom and a contact, and everything in it bears
// one name.
func namedThroughout(t *testing.T, name string) *plan.Plan {
	p, err := plan.Do(wings(t), nil, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Name, settings.Site = name, name
		e.SetSettings(settings)
		plan.Put(e, plan.Case{ID: "c-22222", Name: name})
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: name, Kind: "cat6a-own", Length: 45, Case: "c-22222", Owner: name, Hire: name, Condition: plan.Suspect, Reason: name})
		plan.Put(e, plan.HouseLine{ID: "h-22222", Name: name, Kind: "cat6a-solid", Length: 40, FromPanel: name, ToPanel: name})
		plan.Put(e, plan.Loom{ID: "m-22222", Name: name})
		plan.Put(e, plan.Contact{ID: "x-22222", Name: name, Role: name, Phone: name})
		for link := range e.Now().Links.All() {
			link.Name, link.Loom, link.Colour, link.Note = string([]rune(name)[:min(197, len([]rune(name)))])+link.Name, "m-22222", name, name
			plan.Put(e, link)
			if strings.HasSuffix(link.Name, "L02") {
				e.SetSegments(link.ID, []plan.Segment{{Reel: "r-22222"}, {HouseLine: "h-22222"}})
			}
		}
		for device := range e.Now().Devices.All() {
			device.Name = name
			plan.Put(e, device)
		}
		for position := range e.Now().Positions.All() {
			position.Name, position.Supply = name, name
			plan.Put(e, position)
		}
		for act := range e.Now().Acts.All() {
			act.Name, act.Stage = name, name
			plan.Put(e, act)
		}
		for input := range e.Now().Inputs.All() {
			input.Name, input.Source, input.Stand = name, name, name
			plan.Put(e, input)
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

// Whatever a plan calls its things, every chapter and every pack is printed, and no word leaves its place.
func TestEveryChapterIsPrintedWhateverThingsAreCalled(t *testing.T) {
	for sentence, name := range map[string]string{
		"in another script":  "مسرح الحقل الأسفل",
		"with pictures":      "🎤🎸👩🏽‍🔧🥁",
		"200 letters on end": strings.Repeat("Abcdefghij", 20),
		"200 letters apart":  strings.Repeat("Abcd efgh ", 20),
	} {
		t.Run(sentence, func(t *testing.T) {
			t.Parallel()
			a := assess.Of(namedThroughout(t, strings.TrimSpace(name)))
			choice := report.ChoiceOf(a.Plan, day)
			choice.Packs, choice.Chapters = report.Packs(), report.Chapters()
			document, done := write(t, a, choice)
			requireFramed(t, document)
			chapters := map[string]bool{}
			for _, entry := range done.Entries {
				chapters[entry.Name] = true
			}
			for _, pack := range report.Packs() {
				name, _ := pack.Name()
				require.True(t, chapters[name+" pack"])
			}
			text := strings.Join(pagesOf(t, document), "\n")
			require.NotRegexp(t, `NaN|%!|-[0-9.]+ m\b`, text)
			if len([]rune(name)) == 200 {
				require.Contains(t, text, "…", "what has no room is clipped, and one sees it")
				longest := 0
				for _, line := range strings.Split(text, "\n") {
					longest = max(longest, len([]rune(line)))
				}
				require.Less(t, longest, 200, "no line holds such a name whole")
			} else {
				require.NotEmpty(t, done.Notices, "what is printed otherwise than typed is said")
			}
		})
	}
}
