package report_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo/demotest"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/report"
)

// taped is a stage with a multicore of this colour of tape, and a link without any.
func taped(t *testing.T, colour string) *assess.Assessment {
	return assess.Of(made(t, "Taped", func(r rig) {
		snake, rack := r.device("Sub-snake", "sub-snake-12-4", -20, 2), r.device("Stage rack", "stage-rack-48-20", 8, 2)
		foh := r.device("FOH", "console-56", 0, -40)
		multicore := ends("analogue-multicore", snake, "M", rack, "M1")
		multicore.Colour = colour
		r.link(multicore, of("multicore-16", 40)...)
		r.link(ends("aes50", rack, "AES50 1", foh, "AES50 1"), of("cat6a-own", 70)...)
	}))
}

func TestThePlanShowsTapeAndItsKeyExplainsIt(t *testing.T) {
	const explained = "colour of the tape at both ends"
	for _, c := range []struct {
		colour string
		patch  bool
	}{
		{colour: "red/white", patch: true},
		{colour: "turquoise"},
		{colour: ""},
	} {
		a := taped(t, c.colour)
		choice := report.ChoiceOf(a.Plan, day)
		pages, _, _, err := report.Pages(a, choice)
		require.NoError(t, err)
		patches := 0
		for _, m := range pages[0].Picture.Marks {
			if m.Edge == picture.RoleTapeEdge {
				patches++
				link, _ := a.Plan.Link(plan.LinkID(m.Ref.Key))
				require.Equal(t, "red/white", link.Colour)
			}
		}
		require.Equal(t, c.patch, patches == 1, c.colour)
		text := chapterOf(t, a, report.SitePlan)
		if c.patch {
			require.Contains(t, text, explained)
		} else {
			require.NotContains(t, text, explained)
		}
		require.NotContains(t, text, "tape red", "in colour the patch says it")
	}
}

func TestTheKeyListTellsTape(t *testing.T) {
	large := demotest.Large(1)
	p, err := plan.Do(large, plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		for link := range large.Links.All() {
			if err := plan.Update(e, link.Key(), func(l *plan.Link) { l.Colour = "turquoise" }); err != nil {
				return err
			}
		}
		return nil
	})
	require.NoError(t, err)
	_, list, found := strings.Cut(chapterOf(t, assess.Of(p), report.SitePlan), "Links drawn on the plan without their label")
	require.True(t, found)
	require.Regexp(t, `(?m)turquoise \d+(, \d+)*$`, list)
	_, list, _ = strings.Cut(chapterOf(t, assess.Of(large), report.SitePlan), "Links drawn on the plan without their label")
	require.NotContains(t, list, "Tape", "no column that says nothing")
}

func TestInGreyTheColourOfTapeIsAWord(t *testing.T) {
	a := taped(t, "red/white")
	choice := report.ChoiceOf(a.Plan, day)
	choice.Grey = true
	pages, _, _, err := report.Pages(a, choice)
	require.NoError(t, err)
	var said []string
	for _, m := range pages[0].Picture.Marks {
		require.NotEqual(t, picture.RoleTapeEdge, m.Edge, "no patch whose colour nobody sees")
		if m.Role == picture.RoleTapeText {
			said = append(said, m.Text)
		}
	}
	require.Equal(t, []string{"tape red/white"}, said)
}
