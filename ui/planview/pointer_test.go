package planview_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/pointer"
)

// rest makes what waits in tips come at once.
type rest struct{ do func() }

func (r *rest) after(_ time.Duration, do func()) func() {
	r.do = do
	return func() { r.do = func() {} }
}

func (s *stand) hover(at geom.Point) {
	s.MouseMoved(&desktop.MouseEvent{PointEvent: (&hand{}).event(at)})
}

func TestWhatThePointerRestsOnIsTold(t *testing.T) {
	s, waiting := newStand(t, demo.Weekender(), 1000, 700), &rest{}
	s.Tips = pointer.NewTips(waiting.after)
	s.Tell = func(ref plan.Ref) string { return ref.Table + " " + ref.Part }
	console := s.device("FOH console")
	at := s.middle(t, "FOH console")
	tell := func(at geom.Point) string {
		s.MouseOut()
		s.hover(at)
		waiting.do()
		return s.Tips.Words()
	}
	require.Equal(t, "devices ", tell(at))
	s.desk.Select(plan.RefOf(console))
	require.Empty(t, s.Tips.Words(), "what changes the plan or the selection ends it")
	port, found := s.Where(plan.Ref{Table: "devices", Key: console.Key(), Part: "AES50 1"})
	require.True(t, found)
	require.Equal(t, "devices AES50 1", tell(port.Centre()))
	for name, do := range map[string]func(){
		"a press":            func() { (&hand{s: s}).drag(port.Centre()) },
		"a key":              func() { s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF9}) },
		"a letter":           func() { s.TypedRune('x') },
		"the wheel":          func() { s.Scrolled(&fyne.ScrollEvent{}) },
		"leaving":            func() { s.MouseOut() },
		"going on elsewhere": func() { s.hover(geom.Point{X: 2, Y: 2}) },
	} {
		require.NotEmpty(t, tell(at))
		do()
		require.Empty(t, s.Tips.Words(), name)
	}
}

func TestADoubleClickOpensWhatLiesUnderTheFirstPress(t *testing.T) {
	now := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	setUp := func(t *testing.T) (*stand, *[]plan.Ref) {
		s := newStand(t, demo.Weekender(), 1000, 700)
		opened := &[]plan.Ref{}
		s.Open = func(ref plan.Ref) { *opened = append(*opened, ref) }
		s.Now = func() time.Time { return now }
		return s, opened
	}
	t.Run("a device, whose ports lie under the second press", func(t *testing.T) {
		s, opened := setUp(t)
		p, at, before := &hand{s: s}, s.middle(t, "FOH console"), s.desk.Plan()
		p.drag(at)
		require.Empty(t, *opened)
		p.drag(at)
		require.Equal(t, []plan.Ref{plan.RefOf(s.device("FOH console"))}, *opened)
		require.Same(t, before, s.desk.Plan())
		p.drag(at)
		require.Len(t, *opened, 1, "a third press is a first again")
	})
	t.Run("a link by its label or its line", func(t *testing.T) {
		s, opened := setUp(t)
		link := linkNamed(t, s.desk.Plan(), "L02")
		box, _ := s.Where(plan.RefOf(link))
		at, found := geom.Point{}, false
		for x := box.Min.X; x < box.Max.X && !found; x += 3 {
			for y := box.Min.Y; y < box.Max.Y && !found; y += 3 {
				at = geom.Point{X: x, Y: y}
				ref, hit := s.Pick(at)
				found = hit && ref == plan.RefOf(link)
			}
		}
		require.True(t, found)
		p, before := &hand{s: s}, s.desk.Plan()
		p.drag(at)
		p.drag(at)
		require.Equal(t, []plan.Ref{plan.RefOf(link)}, *opened)
		require.Same(t, before, s.desk.Plan(), "no way point came of it")
	})
	t.Run("a second press that drags moves the device", func(t *testing.T) {
		s, opened := setUp(t)
		p, at := &hand{s: s}, s.middle(t, "Broadcast van")
		before := s.device("Broadcast van").At()
		p.drag(at)
		p.drag(at, at.Add(geom.Point{X: 30}), at.Add(geom.Point{X: 60}))
		require.Empty(t, *opened)
		require.NotEqual(t, before, s.device("Broadcast van").At())
	})
	for name, do := range map[string]func(*stand, geom.Point){
		"two slow clicks open nothing": func(s *stand, at geom.Point) {
			(&hand{s: s}).drag(at)
			now = now.Add(time.Second)
			(&hand{s: s}).drag(at)
		},
		"nor do clicks apart": func(s *stand, at geom.Point) {
			(&hand{s: s}).drag(at)
			(&hand{s: s}).drag(at.Add(geom.Point{X: 30, Y: 30}))
		},
		"nor does another button": func(s *stand, at geom.Point) {
			(&hand{s: s}).drag(at)
			(&hand{s: s, button: desktop.MouseButtonSecondary}).drag(at)
		},
		"nor do two presses on free ground": func(s *stand, _ geom.Point) {
			(&hand{s: s}).drag(geom.Point{X: 3, Y: 3})
			(&hand{s: s}).drag(geom.Point{X: 3, Y: 3})
		},
	} {
		t.Run(name, func(t *testing.T) {
			s, opened := setUp(t)
			do(s, s.middle(t, "FOH console"))
			require.Empty(t, *opened)
		})
	}
}

func linkNamed(t *testing.T, p *plan.Plan, name string) plan.Link {
	t.Helper()
	for link := range p.Links.All() {
		if link.Name == name {
			return link
		}
	}
	require.Fail(t, "no link "+name)
	return plan.Link{}
}
