package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

// laidStock is a plan with one link, a tagged reel and a heap of three equal ones.
func laidStock(t *testing.T) (*plan.Plan, plan.LinkID) {
	var id plan.LinkID
	p, err := plan.Do(plan.New("Stock"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair"})
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "box", Name: "A", Transport: "aes50"})
		a, b := e.AddDevice(plan.Device{Kind: "box"}), e.AddDevice(plan.Device{Kind: "box"})
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: "R1", Kind: "cat6a", Length: 50})
		plan.Put(e, plan.Reel{ID: "r-33333", Kind: "cat6a", Length: 20, Quantity: 3})
		id = e.AddLink(plan.Link{Transport: "aes50", From: a, FromPort: "A", To: b, ToPort: "A"})
		e.SetSegments(id, []plan.Segment{{Reel: "r-22222"}, {Reel: "r-33333"}, {Reel: "r-33333"}})
		return nil
	})
	require.NoError(t, err)
	return p, id
}

var worn = plan.Mark{Condition: plan.Faulty, Reason: "pair 3 broken", FoundAt: "FOH", FoundOn: "2027-06-19"}

func TestAReelIsMarked(t *testing.T) {
	p, link := laidStock(t)
	do := func(t *testing.T, from *plan.Plan, edit func(*plan.Edit) error) *plan.Plan {
		next, err := plan.Do(from, plan.NewIDSource(2, 2), edit)
		require.NoError(t, err)
		return next
	}
	row := func(p *plan.Plan, id plan.ReelID) plan.Reel { r, _ := p.Reels.Get(plan.Key(id)); return r }

	t.Run("with its reason, where and when", func(t *testing.T) {
		next := do(t, p, func(e *plan.Edit) error {
			id, err := e.MarkReel("r-22222", worn)
			require.Equal(t, plan.ReelID("r-22222"), id)
			return err
		})
		reel := row(next, "r-22222")
		require.Equal(t, []string{"faulty", "pair 3 broken", "FOH", "2027-06-19"}, []string{reel.Condition, reel.Reason, reel.FoundAt, reel.FoundOn})
		next = do(t, next, func(e *plan.Edit) error {
			_, err := e.MarkReel("r-22222", plan.Mark{Condition: plan.Good, Reason: "mended"})
			return err
		})
		reel = row(next, "r-22222")
		require.Equal(t, []string{"good", "", "", ""}, []string{reel.Condition, reel.Reason, reel.FoundAt, reel.FoundOn})
	})
	t.Run("one of a heap goes into a row of its own, and links keep theirs", func(t *testing.T) {
		var id plan.ReelID
		next := do(t, p, func(e *plan.Edit) (err error) { id, err = e.MarkReel("r-33333", worn); return err })
		require.Equal(t, 2, row(next, "r-33333").Count())
		require.Equal(t, 1, row(next, id).Count())
		require.Equal(t, "faulty", row(next, id).Condition)
		require.Equal(t, p.SegmentsOf(link), next.SegmentsOf(link))
		_, err := plan.Do(next, plan.NewIDSource(3, 3), func(e *plan.Edit) error { _, err := e.MarkReel("r-33333", worn); return err })
		require.ErrorContains(t, err, "2 of them lie in links and 0 are free")
	})
	t.Run("one of a heap that a link uses stays in the link", func(t *testing.T) {
		var id plan.ReelID
		next := do(t, p, func(e *plan.Edit) (err error) { id, err = e.MarkSegment(link, 3, worn); return err })
		require.Equal(t, id, next.SegmentsOf(link)[2].Reel)
		require.Equal(t, plan.ReelID("r-33333"), next.SegmentsOf(link)[1].Reel)
		require.Equal(t, 2, row(next, "r-33333").Count())
		require.Equal(t, "faulty", row(next, id).Condition)
	})
	for _, c := range []struct {
		name string
		edit func(*plan.Edit) error
		want string
	}{
		{"a reel that is gone is not marked", func(e *plan.Edit) error { _, err := e.MarkReel("r-44444", worn); return err }, "no such reel"},
		{"a cable that is not there is not marked", func(e *plan.Edit) error { _, err := e.MarkSegment(link, 4, worn); return err }, "cable 4 of this link is no reel"},
		{"an unknown word is no condition", func(e *plan.Edit) error {
			_, err := e.MarkReel("r-22222", plan.Mark{Condition: "odd"})
			return err
		}, "good, suspect or faulty"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := plan.Do(p, plan.NewIDSource(3, 3), c.edit)
			require.ErrorIs(t, err, plan.ErrRefused)
			require.ErrorContains(t, err, c.want)
		})
	}
}

func TestTwoLinksNeverHoldOneReel(t *testing.T) {
	p, link := laidStock(t)
	for _, c := range []struct {
		name string
		edit func(*plan.Edit) error
	}{
		{"a second segment of one reel is refused", func(e *plan.Edit) error {
			e.SetSegments(link, append(p.SegmentsOf(link), plan.Segment{Reel: "r-22222"}))
			return nil
		}},
		{"more of a heap than there are is refused", func(e *plan.Edit) error {
			e.SetSegments(link, append(p.SegmentsOf(link), plan.Segment{Reel: "r-33333"}, plan.Segment{Reel: "r-33333"}))
			return nil
		}},
		{"a heap that links use is not made smaller than that", func(e *plan.Edit) error {
			return plan.Update(e, "r-33333", func(r *plan.Reel) { r.Quantity = 1 })
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := plan.Do(p, nil, c.edit)
			require.ErrorIs(t, err, plan.ErrRefused)
			require.ErrorContains(t, err, "is in more links than there are")
		})
	}
}
