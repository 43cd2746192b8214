package picture_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// doneLinks are three links side by side of which each is one step further.
func doneLinks() *picture.Scene {
	s := twoBoxes()
	link := s.Links[0]
	s.Links = nil
	for i, step := range append([]string{""}, plan.Steps()...) {
		link.ID, link.Done = plan.LinkID("k-2222"+string(rune('2'+i))), step
		s.Links = append(s.Links, link)
	}
	return s
}

func TestWhatIsDoneOnSiteRunsAlongItsLine(t *testing.T) {
	s := doneLinks()
	p := draw(s, 10, picture.Options{})
	lines := map[plan.Key]geom.Polyline{}
	for _, m := range p.Marks {
		if m.Role == picture.LinkRole("tight") {
			lines[m.Ref.Key] = m.Points
		}
	}
	pieces := map[plan.Key]int{}
	for _, m := range p.Marks {
		if m.Role == picture.RoleLinkDone {
			pieces[m.Ref.Key]++
			for _, at := range m.Points {
				require.InDelta(t, 3.6, lines[m.Ref.Key].Distance(at), 0.2, "beside its line")
			}
		}
	}
	require.Equal(t, map[plan.Key]int{"k-22223": 1, "k-22224": 2, "k-22225": 3}, pieces)
}

func TestWhatIsLeftStandsOut(t *testing.T) {
	for step, faint := range map[string][]plan.Key{
		"": nil, plan.Laid: {"k-22223", "k-22224", "k-22225"}, plan.Joined: {"k-22224", "k-22225"}, plan.Tested: {"k-22225"},
	} {
		var faded []plan.Key
		bright := 0
		for _, m := range draw(doneLinks(), 10, picture.Options{Undone: step}).Marks {
			if m.Shape == picture.Stroke && m.Role == picture.LinkRole("tight") && m.Ref.Table == plan.LinksTable && len(m.Points) > 0 {
				if m.Faded {
					faded = append(faded, m.Ref.Key)
				} else {
					bright++
				}
			}
		}
		require.ElementsMatch(t, faint, faded, "not %s yet", step)
		require.Equal(t, 4-len(faint), bright)
	}
}
