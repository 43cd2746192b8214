package picture_test

import (
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// weekender is the plan of a whole festival with what it amounts to.
var weekender = sync.OnceValue(func() *assess.Assessment { return assess.Of(demo.Weekender()) })

func festival() *picture.Scene { return picture.Compose(weekender().Plan, weekender().Budgets) }

// seenAt is the festival about its middle in a window of usual size, at a scale.
func seenAt(scale float64, o picture.Options) *picture.Picture {
	a := picture.Arrange(festival(), scale, 1, wide)
	return picture.Letter(a, a.Sheet(a.Bounds().Centre(), 1400, 900), o)
}

// labelBoxes are the boxes of the labels of links by their link.
func labelBoxes(marks []picture.Mark) map[plan.Key]geom.Box {
	boxes := map[plan.Key]geom.Box{}
	for _, m := range marks {
		if m.Shape == picture.Panel && m.Role == picture.RoleLabelFill && m.Ref.Table == "links" {
			boxes[m.Ref.Key] = geom.BoxOf(m.Points...)
		}
	}
	return boxes
}

// linesOf are the lines of links by their link: whole, where no metre is missing.
func linesOf(p *picture.Picture) map[plan.Key]geom.Polyline {
	lines := map[plan.Key]geom.Polyline{}
	for _, m := range p.Marks {
		if m.Shape == picture.Stroke && strings.HasPrefix(string(m.Role), "link-") {
			lines[m.Ref.Key] = m.Points
		}
	}
	return lines
}

// sheetOf is the whole festival on a sheet that has room for it at a scale.
func sheetOf(scale float64) *picture.Picture {
	a := picture.Arrange(festival(), scale, 1, wide)
	bounds := a.Bounds()
	return picture.Letter(a, a.Sheet(bounds.Centre(), bounds.Width()+200, bounds.Height()+200), picture.Options{Thorough: true})
}

func covers(a, b geom.Box) bool {
	both := a.Intersection(b)
	return both.Width() > 1e-6 && both.Height() > 1e-6
}

func TestLabelsOfAFestivalAreFreeAtEveryZoom(t *testing.T) {
	for _, thorough := range []bool{false, true} {
		for _, scale := range []float64{0.2, 0.5, 1, 2, 3, 4, 6, 9, 15, 30, 80} {
			p := seenAt(scale, picture.Options{Thorough: thorough})
			boxes, frame := labelBoxes(p.Marks), p.View.Box()
			for key, box := range boxes {
				require.True(t, frame.ContainsBox(box), "%s leaves the view at %v", key, scale)
				for other, with := range boxes {
					require.False(t, key != other && covers(box, with), "%s lies on %s at %v", key, other, scale)
				}
				for _, m := range p.Marks {
					require.False(t, (m.Role == picture.RoleDeviceFill || m.Role == picture.RoleDeviceDot && m.Shape == picture.Panel) &&
						covers(box, geom.BoxOf(m.Points...)), "%s lies on device %s at %v", key, m.Ref.Key, scale)
				}
			}
			for _, id := range p.Unplaced {
				require.NotContains(t, boxes, plan.Key(id), "a label without a place is not drawn")
			}
		}
	}
}

func TestEveryLinkInViewHasALabelOrIsToldToHaveNone(t *testing.T) {
	for _, scale := range []float64{1, 3, 8} {
		p := seenAt(scale, picture.Options{})
		told := map[plan.Key]int{}
		for key := range labelBoxes(p.Marks) {
			told[key]++
		}
		for _, id := range p.Unplaced {
			told[plan.Key(id)]++
		}
		for key := range linesOf(p) {
			require.Equal(t, 1, told[key], "%s at %v", key, scale)
			delete(told, key)
		}
		require.Empty(t, told, "what is not in view is neither")
	}
}

func TestMoreRoomNamesMoreLinks(t *testing.T) {
	require.Len(t, labelBoxes(sheetOf(20).Marks), weekender().Plan.Links.Len())
	require.Empty(t, sheetOf(20).Unplaced)
	few := sheetOf(0.3)
	require.NotEmpty(t, few.Unplaced)
	require.Equal(t, weekender().Plan.Links.Len(), len(labelBoxes(few.Marks))+len(few.Unplaced))
}

func TestALeaderLeadsFromItsLinkToItsLabel(t *testing.T) {
	leaders := 0
	for _, scale := range []float64{0.8, 1.5, 2.5, 4} {
		p := seenAt(scale, picture.Options{Thorough: true})
		boxes, lines := labelBoxes(p.Marks), linesOf(p)
		for _, m := range p.Marks {
			if m.Role != picture.RoleLeader || m.Shape != picture.Stroke || m.Ref.Table != "links" {
				continue
			}
			leaders++
			foot, head := m.Points[0], m.Points[1]
			require.Len(t, m.Points, 2)
			if line, drawn := lines[m.Ref.Key]; drawn {
				require.InDelta(t, 0, line.Distance(foot), 1e-6, "%s: the foot stands on its own link", m.Ref.Key)
			}
			box := boxes[m.Ref.Key]
			require.True(t, box.Inset(-1e-6).Contains(head) && !box.Inset(1e-6).Contains(head), "%s: the head is on the edge of the label", m.Ref.Key)
			for other, with := range boxes {
				if other != m.Ref.Key {
					require.False(t, geom.Polyline(m.Points).Meets(with.Inset(0.1)), "the leader of %s runs over the label of %s", m.Ref.Key, other)
				}
			}
		}
	}
	require.Positive(t, leaders)
}

func TestABadgeOfAFestivalSaysTheGrade(t *testing.T) {
	// The shapes as product and legend tell them: a disc, a square, a triangle, a cross, a bar.
	corners := map[budget.Grade]int{budget.Ample: 16, budget.Enough: 4, budget.Tight: 3, budget.Over: 12, budget.Uncabled: 4}
	outlook := map[string]budget.Grade{ // by the figures of its own label: 1.5 dB are wanted, and twice as much is ample
		"L01": budget.Enough, "L02": budget.Tight, "L03": budget.Over, "L04": budget.Ample, "L11": budget.Ample, "L20": budget.Uncabled, "L37": budget.Enough,
	}
	p := sheetOf(6)
	badges := map[plan.Key][]picture.Mark{}
	for _, m := range p.Marks {
		if m.Shape == picture.Fill && m.Ref.Table == "links" && (strings.HasPrefix(string(m.Role), "badge-") || m.Role == picture.RoleLabelFill) {
			badges[m.Ref.Key] = append(badges[m.Ref.Key], m)
		}
	}
	told := 0
	for link, b := range weekender().InOrder() {
		grade, listed := outlook[link.Name]
		marks := badges[link.Key()]
		if !b.Graded {
			require.Empty(t, marks, "%s carries no grade", link.Name)
		}
		if !listed {
			continue
		}
		told++
		require.NotEmpty(t, marks, link.Name)
		require.Len(t, marks[0].Points, corners[grade], link.Name)
		require.Equal(t, picture.Role("badge-"+string(grade)), marks[0].Role, link.Name)
		require.Equal(t, map[bool]int{true: 2, false: 1}[link.Name == "L01" || link.Name == "L37"], len(marks), "%s: to be tested is hollow", link.Name)
		box := geom.BoxOf(marks[0].Points...)
		require.Equal(t, grade == budget.Uncabled, box.Width() > 2*box.Height(), "%s: only a bar is flat", link.Name)
		require.True(t, labelBoxes(p.Marks)[link.Key()].ContainsBox(box), "the badge of %s stands in its label", link.Name)
	}
	require.Equal(t, len(outlook), told)
}

func TestAFestivalIsComposedOfItsRows(t *testing.T) {
	s, p := festival(), weekender().Plan
	require.Len(t, s.Devices, p.Devices.Len())
	require.Len(t, s.Links, p.Links.Len())
	require.Len(t, s.Positions, p.Positions.Len())
	require.Len(t, s.Areas, p.Areas.Len())
	require.Len(t, s.Looms, 1)
	held, used := 0, map[plan.LinkID]int{}
	for _, device := range s.Devices {
		row, found := p.Device(device.ID)
		require.True(t, found)
		require.Equal(t, row.Name, device.Name)
		require.True(t, s.Bounds.Contains(device.At), device.Name)
		for _, port := range device.Ports {
			if port.Link != "" {
				held++
				used[port.Link]++
			}
		}
	}
	require.Equal(t, 2*p.Links.Len(), held, "every link holds a port at both ends")
	for id, times := range used {
		require.Equal(t, 2, times, id)
	}
	deck := 0
	for _, device := range s.Devices {
		if device.Level != "" {
			deck++ // none says so itself: those of the three positions on the deck
		}
	}
	require.Equal(t, 6, deck)
	require.True(t, s.Grounded())
	require.False(t, s.Listed())
}

func TestWhatAllLevelsButOneHidesLeavesNothingBehind(t *testing.T) {
	s := festival()
	deck := plan.LevelID("v-22222")
	onDeck, touching := map[plan.Key]bool{}, map[plan.Key]bool{}
	for _, device := range s.Devices {
		onDeck[plan.Key(device.ID)] = device.Level == deck
	}
	for _, link := range s.Links {
		touching[plan.Key(link.ID)] = onDeck[plan.Key(link.From)] || onDeck[plan.Key(link.To)]
	}
	p := seenAt(3, picture.Options{LeftOut: picture.LeftOut{Levels: map[plan.LevelID]bool{deck: true}}})
	left := map[string]int{}
	for _, m := range p.Marks {
		require.False(t, onDeck[m.Ref.Key] || touching[m.Ref.Key], "%s %s stays behind", m.Ref.Table, m.Ref.Key)
		left[m.Ref.Table]++
	}
	for _, ref := range p.Within(p.View.Box()) {
		require.False(t, onDeck[ref.Key] || touching[ref.Key])
	}
	for _, id := range p.Unplaced {
		require.False(t, touching[plan.Key(id)], "a link that is hidden lacks no label")
	}
	require.Positive(t, left["devices"])
	require.Positive(t, left["links"])
}

func TestWhatEachTransportOrGradeHidesIsThatAlone(t *testing.T) {
	whole := linesOf(seenAt(3, picture.Options{}))
	require.Len(t, whole, weekender().Plan.Links.Len())
	for _, transport := range []plan.TransportID{"aes50", "1000base-t", "fibre", "analogue-multicore", "aes3", "intercom"} {
		left := linesOf(seenAt(3, picture.Options{LeftOut: picture.LeftOut{Transports: map[plan.TransportID]bool{transport: true}}}))
		for link := range weekender().Plan.Links.All() {
			_, drawn := left[link.Key()]
			require.Equal(t, link.Transport != transport, drawn, "%s without %s", link.Name, transport)
		}
	}
	for link, b := range weekender().InOrder() {
		left := linesOf(seenAt(3, picture.Options{LeftOut: picture.LeftOut{Grades: map[string]bool{string(b.Standing()): true}}}))
		require.NotContains(t, left, link.Key(), link.Name)
		if len(left) == 0 {
			t.Fatal("a grade hides all links")
		}
	}
}
