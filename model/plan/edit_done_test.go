package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
)

// onSite is the stage with two cables in the link bc, a reel and a length, all of it tested; r-33333 are three equal reels.
func onSite(t *testing.T) *stage {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.Reel{ID: "r-33333", Kind: "cat6", Length: 30, Quantity: 3})
		plan.Put(e, plan.Reel{ID: "r-44444", Kind: "cat6", Length: 50})
		e.SetSegments(s.bc, []plan.Segment{{Reel: "r-22222"}, {Reel: "r-33333", Coupler: "cat6"}})
		return e.MarkDone(s.bc, plan.Tested, true)
	})
	return s
}

func TestWhatIsDoneOnSiteStaysAsFarAsItIsTrue(t *testing.T) {
	link := func(s *stage, with func(*plan.Link)) func(*plan.Edit) error {
		return func(e *plan.Edit) error { return plan.Update(e, plan.Key(s.bc), with) }
	}
	move := func(s *stage, ids ...plan.DeviceID) func(*plan.Edit) error {
		return func(e *plan.Edit) error {
			e.Move(plan.MovingWith(e.Now(), ids, nil), geom.Pt(3.0004, -7.0006))
			return nil
		}
	}
	cases := map[string]struct {
		done  string
		moved bool
		edit  func(*stage) func(*plan.Edit) error
	}{
		"another cable is to be laid": {"", false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error { return e.ReplaceSegment(s.bc, 1, plan.Segment{Reel: "r-44444"}) }
		}},
		"a cable more is to be laid": {"", false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error { return e.InsertSegment(s.bc, 1, plan.Segment{Reel: "r-44444"}) }
		}},
		"cables in another order are to be laid anew": {"", false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error { return e.MoveSegment(s.bc, 1, 1) }
		}},
		"with one taken off the other lies there": {plan.Laid, false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error { return e.RemoveSegment(s.bc, 2) }
		}},
		"without any cable nothing is done": {"", false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error { e.SetSegments(s.bc, nil); return nil }
		}},
		"another coupler is to be joined": {plan.Laid, false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error { return e.SetCoupler(s.bc, 2, "cat5e") }
		}},
		"another port is to be plugged in": {plan.Laid, false, func(s *stage) func(*plan.Edit) error {
			return link(s, func(r *plan.Link) { r.ToPort = "D" })
		}},
		"another panel is to be plugged in": {plan.Laid, false, func(s *stage) func(*plan.Edit) error {
			return link(s, func(r *plan.Link) { r.FromPanel = "" })
		}},
		"at another device it is to be laid": {"", false, func(s *stage) func(*plan.Edit) error {
			return link(s, func(r *plan.Link) { r.To, r.ToPort = s.a, "C" })
		}},
		"for another transport it is to be tested": {plan.Joined, false, func(s *stage) func(*plan.Edit) error {
			return link(s, func(r *plan.Link) { r.Transport = "1000base-t" })
		}},
		"with a faulty cable it is to be tested": {plan.Joined, false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error {
				_, err := e.MarkReel("r-22222", plan.Mark{Condition: plan.Faulty})
				return err
			}
		}},
		"a faulty one of several equal ones is still the one that lies there": {plan.Joined, false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error {
				_, err := e.MarkSegment(s.bc, 2, plan.Mark{Condition: plan.Faulty})
				return err
			}
		}},
		"a good mark takes nothing back": {plan.Tested, false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error {
				_, err := e.MarkSegment(s.bc, 2, plan.Mark{Condition: plan.Good})
				return err
			}
		}},
		"seen from its other end it is the same link": {plan.Tested, false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error { return e.Reverse(s.bc) }
		}},
		"a device that moves marks it as moved": {plan.Tested, true, func(s *stage) func(*plan.Edit) error { return move(s, s.c) }},
		"both ends that move together do not":   {plan.Tested, false, func(s *stage) func(*plan.Edit) error { return move(s, s.b, s.c) }},
		"a way drawn otherwise does": {plan.Tested, true, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error { return e.Draw(s.bc, []geom.Point{{X: 30, Y: 9}}) }
		}},
		"a name and a note take nothing back": {plan.Tested, false, func(s *stage) func(*plan.Edit) error {
			return link(s, func(r *plan.Link) { r.Name, r.Note = "L99", "mind the gate" })
		}},
		"what the edit itself says counts": {plan.Laid, false, func(s *stage) func(*plan.Edit) error {
			return func(e *plan.Edit) error {
				require.NoError(t, e.ReplaceSegment(s.bc, 1, plan.Segment{Reel: "r-44444"}))
				return link(s, func(r *plan.Link) { r.Done = plan.Laid })(e)
			}
		}},
	}
	for name, test := range cases {
		t.Run(name, func(t *testing.T) {
			s := onSite(t)
			s.do(t, test.edit(s))
			now, _ := s.Link(s.bc)
			require.Equal(t, test.done, now.Done)
			require.Equal(t, test.moved, now.Moved)
		})
	}
}

func TestStepsOnSiteComeInOrder(t *testing.T) {
	s := onSite(t)
	mark := func(step string, done bool) string {
		s.do(t, func(e *plan.Edit) error { return e.MarkDone(s.bc, step, done) })
		link, _ := s.Link(s.bc)
		return link.Done
	}
	require.Equal(t, plan.Laid, mark(plan.Joined, false), "what is not joined is not tested")
	require.Equal(t, plan.Laid, mark(plan.Laid, true))
	require.Equal(t, plan.Tested, mark(plan.Tested, true), "what is tested is joined and laid")
	require.Equal(t, plan.Tested, mark(plan.Laid, true), "saying again that it is laid takes no test back")
	s.do(t, func(e *plan.Edit) error { return e.SetDone(s.bc, plan.Joined) })
	link, _ := s.Link(s.bc)
	require.Equal(t, plan.Joined, link.Done, "the last that is done, and no more")
	require.Empty(t, mark(plan.Laid, false))
	s.do(t, func(e *plan.Edit) error { return e.SetDone(s.ab, "") })
	s.refused(t, "has no cable in the plan yet", func(e *plan.Edit) error { return e.MarkDone(s.ab, plan.Laid, true) })
	s.refused(t, "any more", func(e *plan.Edit) error { return e.MarkDone("k-99999", plan.Laid, true) })
	s.refused(t, "not \"lost\"", func(e *plan.Edit) error { return e.MarkDone(s.bc, "lost", true) })
	s.refused(t, "not \"lost\"", func(e *plan.Edit) error { return e.SetDone(s.bc, "lost") })
}

func TestAMoveIsForgottenWhenTheLinkIsMarkedAgain(t *testing.T) {
	s := onSite(t)
	s.do(t, func(e *plan.Edit) error {
		e.Move(plan.MovingWith(e.Now(), []plan.DeviceID{s.c}, nil), geom.Pt(9, 0))
		return nil
	})
	link, _ := s.Link(s.bc)
	require.True(t, link.Moved && link.Is(plan.Tested))
	s.do(t, func(e *plan.Edit) error { return e.MarkDone(s.bc, plan.Tested, true) })
	link, _ = s.Link(s.bc)
	require.False(t, link.Moved)
	require.True(t, link.Is(plan.Joined) && !link.Is("lost"))
}

func TestANewLinkIsNotDone(t *testing.T) {
	s := onSite(t)
	link, _ := s.Link(s.bc)
	link.FromPort, link.ToPort, link.Partner = "C", "C", ""
	var id plan.LinkID
	s.do(t, func(e *plan.Edit) error { id = e.AddLink(link); return nil })
	double, _ := s.Link(id)
	require.Empty(t, double.Done)
}

// physical says in text how a link is cabled and plugged in, the same from both of its ends.
func physical(p *plan.Plan, link plan.Link) string {
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	chain := []string{
		fmt.Sprint(link.From, from.Kind, link.FromPort, link.FromPanel, link.FromLeadKind, link.FromLead),
		fmt.Sprint(link.To, to.Kind, link.ToPort, link.ToPanel, link.ToLeadKind, link.ToLead),
	}
	for i, s := range p.SegmentsOf(link.ID) {
		if i > 0 {
			chain = slices.Insert(chain, len(chain)-1, "coupler "+string(s.Coupler))
		}
		chain = slices.Insert(chain, len(chain)-1, fmt.Sprint(s.Reel, s.HouseLine, s.Kind, s.Length))
	}
	back := slices.Clone(chain)
	slices.Reverse(back)
	return min(strings.Join(chain, "|"), strings.Join(back, "|"))
}

func badReels(p *plan.Plan) (bad string) {
	for reel := range p.Reels.All() {
		bad += string(reel.ID) + reel.Condition + " "
	}
	return bad
}

// fieldwork draws an edit of the stage's tested link, or any other.
func fieldwork(t *rapid.T, s *stage, p *plan.Plan, ids *plan.IDSource) plantest.Change {
	order, place := rapid.IntRange(1, 3).Draw(t, "order"), rapid.IntRange(0, 3).Draw(t, "place")
	cable := plan.Segment{Kind: "cat6", Length: float64(rapid.IntRange(1, 3).Draw(t, "length"))}
	by := geom.Pt(float64(rapid.IntRange(-3, 3).Draw(t, "x")), 1)
	list := []plantest.Change{
		{Name: "replace", Do: func(e *plan.Edit) error { return e.ReplaceSegment(s.bc, order, cable) }},
		{Name: "insert", Do: func(e *plan.Edit) error { return e.InsertSegment(s.bc, place, cable) }},
		{Name: "take off", Do: func(e *plan.Edit) error { return e.RemoveSegment(s.bc, order) }},
		{Name: "put elsewhere", Do: func(e *plan.Edit) error { return e.MoveSegment(s.bc, order, place) }},
		{Name: "coupler", Do: func(e *plan.Edit) error { return e.SetCoupler(s.bc, order, "cat5e") }},
		{Name: "turn", Do: func(e *plan.Edit) error { return e.Reverse(s.bc) }},
		{Name: "draw", Do: func(e *plan.Edit) error { return e.Draw(s.bc, []geom.Point{by}) }},
		{Name: "move", Do: func(e *plan.Edit) error {
			e.Move(plan.MovingWith(p, []plan.DeviceID{s.c}, nil), by)
			return nil
		}},
		{Name: "faulty", Do: func(e *plan.Edit) error {
			_, err := e.MarkReel("r-22222", plan.Mark{Condition: plan.Faulty})
			return err
		}},
	}
	for range 3 {
		list = append(list,
			plantest.Change{Name: "mark done", Do: func(e *plan.Edit) error { return e.MarkDone(s.bc, plan.Tested, true) }},
			plantest.Edit(t, p, ids))
	}
	return rapid.SampledFrom(list).Draw(t, "fieldwork")
}

// tally counts what edits did to the work on site.
type tally struct{ kept, lost, moved int }

// judge holds what an edit left of the work on one link against how the link is cabled, by an account of its own.
func (c *tally) judge(t *rapid.T, name string, before, after *plan.Plan, old, link plan.Link) {
	require.False(t, link.Moved && link.Done == "", "%s: %v", name, link)
	same := physical(before, old) == physical(after, link)
	switch {
	case !same:
		require.False(t, link.Is(plan.Joined), "%s: %v", name, link)
	case old.Transport == link.Transport && badReels(before) == badReels(after):
		require.Equal(t, old.Done, link.Done, name)
	default:
		require.Equal(t, old.Is(plan.Joined), link.Is(plan.Joined), name)
	}
	switch {
	case link.Done != old.Done:
		c.lost++
	case link.Moved && !old.Moved:
		c.moved++
	case link.Done != "":
		c.kept++
	}
}

func TestNoEditLeavesATestStandingOnOtherCables(t *testing.T) {
	s, count := onSite(t), tally{}
	rapid.Check(t, func(t *rapid.T) {
		ids := plan.NewIDSource(rapid.Uint64().Draw(t, "ids"), 1)
		p := s.Plan
		for range 30 {
			edit := fieldwork(t, s, p, ids)
			next, err := plan.Do(p, ids, edit.Do)
			if err != nil {
				continue
			}
			applied, err := plan.Apply(p, plan.Between(p, next))
			require.NoError(t, err)
			require.True(t, plan.Equal(next, applied), "a difference takes nothing back by itself")
			for link := range next.Links.All() {
				if old, stood := p.Link(link.ID); stood && edit.Name != "change links done_on_site" && edit.Name != "mark done" {
					count.judge(t, edit.Name, p, next, old, link)
				}
			}
			p = next
		}
	})
	t.Logf("%+v", count)
	require.True(t, count.kept > 0 && count.lost > 0 && count.moved > 0)
}
