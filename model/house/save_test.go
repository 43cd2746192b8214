package house_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// saving is a house with the reel A01 and twelve equal ones, and a folder for plans.
type saving struct {
	t         *testing.T
	ids       *plan.IDSource
	folder    string
	library   house.Library
	tagged    plan.ReelID
	equal     plan.ReelID
	stockFile string
}

func newSaving(t *testing.T) *saving {
	t.Helper()
	s := &saving{t: t, ids: plan.NewIDSource(5, 6), folder: t.TempDir()}
	s.library = house.Open(filepath.Join(s.folder, "house"))
	s.stockFile = filepath.Join(s.folder, "house", "stock.stageloom-stock")
	require.NoError(t, s.library.ChangeStock(func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		s.tagged = e.AddReel(plan.Reel{Tag: "A01", Kind: "cat6a", Length: 100})
		s.equal = e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 12})
		return nil
	}))
	return s
}

// plan is a new plan of an identity.
func (s *saving) plan(identity string) *plan.Plan { return plan.New(identity).WithIdentity(identity) }

func (s *saving) do(p *plan.Plan, edit func(*plan.Edit) error) *plan.Plan {
	s.t.Helper()
	next, err := plan.Do(p, s.ids, edit)
	require.NoError(s.t, err)
	return next
}

// take takes of the house as it stands.
func (s *saving) take(p *plan.Plan, wants ...house.Want) *plan.Plan {
	s.t.Helper()
	stock := s.stock()
	return s.do(p, func(e *plan.Edit) error { return stock.Take(e, wants...) })
}

func (s *saving) stock() house.Stock {
	s.t.Helper()
	stock, err := s.library.Stock()
	require.NoError(s.t, err)
	return stock
}

func (s *saving) path(name string) string { return filepath.Join(s.folder, name+planfile.Extension) }

// save saves a plan to the file of a name and returns what was written.
func (s *saving) save(p *plan.Plan, name string) (*plan.Plan, house.Settled) {
	s.t.Helper()
	written, done, err := s.trySave(p, name, nil)
	require.NoError(s.t, err)
	require.NoError(s.t, done.Trouble)
	return written, done
}

// trySave is save with something that goes wrong in the middle, after the plan stands or instead of it.
func (s *saving) trySave(p *plan.Plan, name string, instead error) (written *plan.Plan, done house.Settled, err error) {
	done, err = s.library.SaveWith(p, house.ShowOf(p, s.path(name), "2027-06-22"), func(marked *plan.Plan) error {
		if instead != nil {
			return instead
		}
		written = marked
		_, err := planfile.Replace(s.path(name), marked, nil)
		return err
	})
	return written, done, err
}

func (s *saving) outOf(id plan.ReelID) int { return s.stock().Out(id) }

func TestASaveMarksWhatTheHouseDoesNotLetTheShowHave(t *testing.T) {
	s := newSaving(t)
	meadow := s.take(s.plan("meadow"), house.Want{Reel: s.equal, Quantity: 8})
	harbour := s.take(s.plan("harbour"), house.Want{Reel: s.equal, Quantity: 6}, house.Want{Reel: s.tagged, Quantity: 1})
	var lain plan.ReelID
	harbour = s.do(harbour, func(e *plan.Edit) error { // four of the six in a row of their own, one of which lies in a link
		for row := range harbour.Reels.All() {
			if row.Tag == "" {
				part, err := e.SplitReel(row.ID, 4)
				if err != nil {
					return err
				}
				lain = part
			}
		}
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "box", Name: "A", Transport: "aes50"})
		a, b := e.AddDevice(plan.Device{Kind: "box"}), e.AddDevice(plan.Device{Kind: "box"})
		link := e.AddLink(plan.Link{Transport: "aes50", From: a, FromPort: "A", To: b, ToPort: "A"})
		e.SetSegments(link, []plan.Segment{{Reel: lain}})
		return nil
	})
	_, done := s.save(meadow, "meadow")
	require.Empty(t, done.Refused)
	written, done := s.save(harbour, "harbour")
	require.Len(t, done.Refused, 1)
	for row := range written.Reels.All() {
		switch {
		case row.Tag != "":
			require.Zero(t, row.Lacking)
		case row.ID == lain:
			require.LessOrEqual(t, row.Lacking, 3, "the one in a link is the last that is lacking")
			require.Positive(t, row.There())
		}
		if row.Lacking > 0 {
			require.Contains(t, row.LackingWhy, "8 with meadow since 2027-06-22")
		}
	}
	require.Equal(t, 2, lacking(written))
	require.Equal(t, 12, s.outOf(s.equal))
	_, _, err := planfile.Open(s.path("harbour"))
	require.NoError(t, err)

	t.Run("what is free again is had at the next save, and the marks are gone", func(t *testing.T) {
		_, _ = s.save(s.plan("meadow"), "meadow")
		mark, err := s.library.Marks()
		require.NoError(t, err)
		require.Zero(t, lacking(mark(written)), "told before it is saved")
		written, done := s.save(written, "harbour")
		require.Empty(t, done.Refused)
		require.Zero(t, lacking(written))
		require.Equal(t, 6, s.outOf(s.equal))
	})
}

func lacking(p *plan.Plan) (sum int) {
	for row := range p.Reels.All() {
		sum += row.Lacking
	}
	return sum
}

func TestASaveIsWholeOrHealsAtTheNext(t *testing.T) {
	t.Run("where the plan cannot be written the house stays as it was", func(t *testing.T) {
		s := newSaving(t)
		p := s.take(s.plan("meadow"), house.Want{Reel: s.tagged, Quantity: 1})
		before, err := os.ReadFile(s.stockFile)
		require.NoError(t, err)
		full := errors.New("the disk is full")
		_, _, err = s.trySave(p, "meadow", full)
		require.ErrorIs(t, err, full)
		after, err := os.ReadFile(s.stockFile)
		require.NoError(t, err)
		require.Equal(t, string(before), string(after))
	})
	t.Run("where the house cannot be written the plan is saved, and the next save settles", func(t *testing.T) {
		s := newSaving(t)
		p := s.take(s.plan("meadow"), house.Want{Reel: s.tagged, Quantity: 1})
		aside := s.stockFile + ".aside"
		done, err := s.library.SaveWith(p, house.ShowOf(p, s.path("meadow"), "2027-06-22"), func(marked *plan.Plan) error {
			require.NoError(t, os.Rename(s.stockFile, aside)) // nothing can take its place
			require.NoError(t, os.MkdirAll(filepath.Join(s.stockFile, "in the way"), 0o700))
			_, err := planfile.Replace(s.path("meadow"), marked, nil)
			return err
		})
		require.NoError(t, err)
		require.ErrorContains(t, done.Trouble, "the house's stock was not changed")
		require.NoError(t, os.RemoveAll(s.stockFile))
		require.NoError(t, os.Rename(aside, s.stockFile))
		require.Zero(t, s.outOf(s.tagged))
		left, _, err := planfile.Open(s.path("meadow"))
		require.NoError(t, err)
		_, settled := s.save(left, "meadow")
		require.Equal(t, 1, settled.Taken)
		_, settled = s.save(left, "meadow")
		require.Zero(t, settled.Taken, "settling twice changes nothing")
		require.Equal(t, 1, s.outOf(s.tagged))
	})
	t.Run("a house that cannot be read keeps no plan from being saved", func(t *testing.T) {
		s := newSaving(t)
		p := s.take(s.plan("meadow"), house.Want{Reel: s.tagged, Quantity: 1})
		require.NoError(t, os.WriteFile(s.stockFile, []byte("nonsense"), 0o600))
		written, done, err := s.trySave(p, "meadow", nil)
		require.NoError(t, err)
		require.Same(t, p, written)
		require.ErrorContains(t, done.Trouble, "stock.stageloom-stock cannot be read")
		_, done, err = s.trySave(s.plan("nothing"), "nothing", nil)
		require.NoError(t, err)
		require.NoError(t, done.Trouble, "a plan without anything of the house does not ask it")
	})
}

func TestAPlanThatDoesNotConcernTheHouseLeavesItAlone(t *testing.T) {
	s := newSaving(t)
	lent := s.take(s.plan("meadow"), house.Want{Reel: s.tagged, Quantity: 1})
	for name, c := range map[string]struct {
		library house.Library
		plan    *plan.Plan
	}{
		"a plan without anything of a house":        {house.Open(filepath.Join(s.folder, "none")), s.plan("meadow")},
		"one of a house that this computer has not": {house.Open(filepath.Join(s.folder, "none")), lent},
		"no folder at all":                          {house.Library{}, lent},
	} {
		t.Run(name, func(t *testing.T) {
			wrote := 0
			done, err := c.library.SaveWith(c.plan, house.ShowOf(c.plan, "", ""), func(marked *plan.Plan) error {
				require.Same(t, c.plan, marked)
				wrote++
				return nil
			})
			require.NoError(t, err)
			require.NoError(t, done.Trouble)
			require.Equal(t, 1, wrote)
			require.NoDirExists(t, filepath.Join(s.folder, "none"))
		})
	}
	t.Run("a plan of another house keeps what that one said", func(t *testing.T) {
		other := newSaving(t)
		marked := lent.WithLacking(func(plan.Reel) (int, string) { return 1, "is out: 1 with Barn" })
		other.library = house.Open(filepath.Join(other.folder, "house"))
		require.NoError(t, other.library.ChangeStock(func(e *plan.Edit) error { return e.RemoveReel(other.tagged) }))
		written, done := other.save(marked, "meadow")
		require.Empty(t, done.Refused)
		require.Same(t, marked, written)
	})
}

func TestACopiedFileIsAskedAboutAndAMovedOneFollowed(t *testing.T) {
	s := newSaving(t)
	p := s.take(s.plan("meadow"), house.Want{Reel: s.tagged, Quantity: 1})
	p, _ = s.save(p, "meadow")
	var copied *house.Copied
	_, _, err := s.trySave(p, "copy", nil)
	require.ErrorAs(t, err, &copied)
	require.Equal(t, s.path("meadow"), copied.Show.File)
	require.NoFileExists(t, s.path("copy"), "nothing was written")

	t.Run("the same file by another name is no copy", func(t *testing.T) {
		require.NoError(t, os.Symlink(s.path("meadow"), s.path("link")))
		s.save(p, "link")
		s.save(p, "meadow")
	})
	t.Run("a plan of its own asks anew and does not merge", func(t *testing.T) {
		written, done := s.save(p.WithIdentity("own"), "copy")
		require.Len(t, done.Refused, 1)
		require.Equal(t, 1, lacking(written))
		require.Len(t, s.stock().With("meadow"), 1)
		require.Empty(t, s.stock().With("own"))
	})
	t.Run("what was said to have moved is known by its new file", func(t *testing.T) {
		require.NoError(t, s.library.Follow(house.ShowOf(p, s.path("copy"), "")))
		s.save(p, "copy")
		_, _, err := s.trySave(p, "meadow", nil)
		require.ErrorAs(t, err, &copied, "the file of before is the copy now")
	})
	t.Run("a file that is gone, or holds another plan, was moved", func(t *testing.T) {
		require.NoError(t, os.Remove(s.path("copy")))
		_, done := s.save(p, "meadow")
		require.Empty(t, done.Refused)
		_, err := planfile.Replace(s.path("meadow"), s.plan("other"), nil)
		require.NoError(t, err)
		s.save(p, "moved")
		told, err := s.library.Copied(house.ShowOf(p, s.path("moved"), ""))
		require.NoError(t, err)
		require.Nil(t, told)
	})
}
