package desk_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/atomicfile"
	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// lent is a desk that takes of a house with the reels A01 and A02.
type lent struct {
	t       *testing.T
	folder  string
	library house.Library
	reels   [2]plan.ReelID
	desk    *desk.Desk
}

func newLent(t *testing.T) *lent {
	t.Helper()
	l := &lent{t: t, folder: t.TempDir()}
	l.library = house.Open(filepath.Join(l.folder, "house"))
	require.NoError(t, l.library.ChangeStock(func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		l.reels[0] = e.AddReel(plan.Reel{Tag: "A01", Kind: "cat6a", Length: 100})
		l.reels[1] = e.AddReel(plan.Reel{Tag: "A02", Kind: "cat6a", Length: 100})
		return nil
	}))
	l.desk = l.open(1, "")
	return l
}

// open is another desk of the same house, on a file.
func (l *lent) open(seed uint64, name string) *desk.Desk {
	l.t.Helper()
	d := desk.New(plan.NewIDSource(seed, 7))
	d.SettleWith(house.Keeper{Library: func() house.Library { return l.library }, Today: func() string { return "2027-06-22" }})
	l.t.Cleanup(d.Close)
	if name != "" {
		require.NoError(l.t, d.Open(l.path(name)))
	}
	return d
}

func (l *lent) path(name string) string { return filepath.Join(l.folder, name+planfile.Extension) }

func (l *lent) take(d *desk.Desk, reel plan.ReelID) {
	l.t.Helper()
	stock, err := l.library.Stock()
	require.NoError(l.t, err)
	require.NoError(l.t, d.Do("Take", func(e *plan.Edit) error { return stock.Take(e, house.Want{Reel: reel, Quantity: 1}) }))
}

// with says by which plan a reel is out, blank for none.
func (l *lent) with(reel plan.ReelID) string {
	l.t.Helper()
	stock, err := l.library.Stock()
	require.NoError(l.t, err)
	for _, taking := range stock.Takings {
		if taking.Reel == reel && taking.Quantity > 0 {
			return taking.Plan
		}
	}
	return ""
}

func identity(d *desk.Desk) string { return d.Plan().Settings.Identity }

// lacks counts what the house does not let a plan have.
func lacks(p *plan.Plan) (sum int) {
	for row := range p.Reels.All() {
		sum += row.Lacking
	}
	return sum
}

func TestATakingIsTrueWithTheSaveAndUndoneWithTheSave(t *testing.T) {
	l := newLent(t)
	require.NoError(t, l.desk.SaveAs(l.path("meadow"), false))
	l.take(l.desk, l.reels[0])
	require.Empty(t, l.with(l.reels[0]), "nothing is taken before it is saved")
	require.NoError(t, l.desk.Save())
	require.Equal(t, identity(l.desk), l.with(l.reels[0]))
	require.False(t, l.desk.Unsaved())
	require.True(t, l.desk.Undo())
	require.Equal(t, identity(l.desk), l.with(l.reels[0]), "an undo alone gives nothing back")
	require.NoError(t, l.desk.Save())
	require.Empty(t, l.with(l.reels[0]))
	require.True(t, l.desk.Redo())
	require.NoError(t, l.desk.Save())
	require.Equal(t, identity(l.desk), l.with(l.reels[0]))

	require.NoError(t, l.desk.Do("Give back", func(e *plan.Edit) error {
		for row := range e.Now().Reels.All() {
			return house.GiveBack(e, "2027-06-23", house.Return{Reel: row.ID, Quantity: 1})
		}
		return nil
	}))
	l.desk.NewPlan(plan.New("Another")) // which was not saved
	require.NotEmpty(t, l.with(l.reels[0]))
}

func TestSaveAsMakesAnotherPlanInAllSteps(t *testing.T) {
	l := newLent(t)
	d := l.desk
	first := identity(d)
	require.Len(t, first, 20)
	l.take(d, l.reels[0])
	require.NoError(t, d.SaveAs(l.path("meadow"), false))
	require.Equal(t, first, identity(d), "a plan that had no file stays itself")
	require.NoError(t, d.SaveAs(l.path("meadow"), true))
	require.Equal(t, first, identity(d), "over its own file")

	heard := 0
	d.Listen(func(e desk.Event) {
		heard++
		require.Same(t, d.Plan(), e.Assessment.Plan)
	})
	require.NoError(t, d.SaveAs(l.path("harbour"), false))
	second := identity(d)
	require.NotEqual(t, first, second)
	require.Positive(t, heard)
	require.Equal(t, first, l.with(l.reels[0]), "the first has it yet")
	require.Equal(t, 1, lacks(d.Plan()))
	require.False(t, d.Unsaved())
	require.NotEmpty(t, d.Lost(), "what the house refused is told")
	for d.Undo() {
		require.Equal(t, second, identity(d))
	}
	require.True(t, d.Unsaved())
	left, _, err := planfile.Open(l.path("meadow"))
	require.NoError(t, err)
	require.Equal(t, first, left.Settings.Identity)

	t.Run("where the file of before is gone the plan moves", func(t *testing.T) {
		require.NoError(t, os.Remove(l.path("harbour")))
		require.NoError(t, d.SaveAs(l.path("elsewhere"), false))
		require.Equal(t, second, identity(d))
	})
}

func TestAFailedSaveAsLeavesIdentityAndHistory(t *testing.T) {
	l := newLent(t)
	d := l.desk
	l.take(d, l.reels[0])
	require.NoError(t, d.SaveAs(l.path("meadow"), false))
	before, stamp := d.Plan(), d.Assessment()
	require.NoError(t, os.WriteFile(l.path("theirs"), []byte("theirs"), 0o600))
	var overwrite *planfile.Overwrite
	require.ErrorAs(t, d.SaveAs(l.path("theirs"), false), &overwrite)
	require.Same(t, before, d.Plan())
	require.Same(t, stamp, d.Assessment())
	require.False(t, d.Unsaved())
	require.Equal(t, l.path("meadow"), d.Path())
	require.True(t, d.Undo())
	require.Equal(t, before.Settings.Identity, identity(d))
}

func TestAFileOfBeforeIdentitiesGetsOneThatTheNextSaveWrites(t *testing.T) {
	l := newLent(t)
	old := plan.New("Old")
	_, err := planfile.Replace(l.path("old"), old, nil)
	require.NoError(t, err)
	d := l.open(3, "old")
	require.NotEmpty(t, identity(d))
	require.False(t, d.Unsaved())
	held, _, err := planfile.Open(l.path("old"))
	require.NoError(t, err)
	require.Empty(t, held.Settings.Identity)
	require.NoError(t, d.Save())
	held, _, err = planfile.Open(l.path("old"))
	require.NoError(t, err)
	require.Equal(t, identity(d), held.Settings.Identity)
	require.NotEqual(t, identity(d), identity(l.open(4, "")))
}

func TestARecoveredPlanKeepsItsIdentity(t *testing.T) {
	l := newLent(t)
	d := l.desk
	d.KeepJournal(filepath.Join(l.folder, "unsaved"))
	require.NoError(t, d.SaveAs(l.path("meadow"), false))
	l.take(d, l.reels[0])
	was := identity(d)
	orphaned(t, filepath.Join(l.folder, "unsaved"))
	d.Close()
	next, left := crashed(t, filepath.Join(l.folder, "unsaved", "orphans"))
	require.Len(t, left, 1)
	require.NoError(t, next.Recover(left[0]))
	require.Equal(t, was, identity(next))
	require.True(t, next.Undo())
	require.Equal(t, was, identity(next))
}

func TestMarksAreNoStepAndNothingToSave(t *testing.T) {
	l := newLent(t)
	other := l.open(2, "")
	l.take(other, l.reels[0])
	l.take(l.desk, l.reels[0])
	l.take(l.desk, l.reels[1])
	require.NoError(t, other.SaveAs(l.path("harbour"), false))
	require.NoError(t, l.desk.SaveAs(l.path("meadow"), false))
	require.Equal(t, 1, lacks(l.desk.Plan()))
	require.False(t, l.desk.Unsaved())
	names, _ := l.desk.History()

	require.True(t, other.Undo())
	require.NoError(t, other.Save())
	told := 0
	l.desk.Listen(func(e desk.Event) {
		told++
		require.True(t, e.PlanChanged())
	})
	require.NoError(t, l.desk.Note())
	require.Zero(t, lacks(l.desk.Plan()), "the house has it again")
	require.False(t, l.desk.Unsaved())
	require.Same(t, l.desk.Plan(), l.desk.Assessment().Plan)
	require.NoError(t, l.desk.Note())
	require.Equal(t, 1, told, "the second time there is nothing new")
	after, _ := l.desk.History()
	require.Equal(t, names, after)
	require.True(t, l.desk.Undo())
	require.Zero(t, lacks(l.desk.Plan()), "in the steps before as well")

	reopened := l.open(8, "")
	l.desk.Close()
	require.NoError(t, reopened.Open(l.path("meadow")))
	require.Equal(t, 1, lacks(reopened.Plan()), "as it was saved")
	require.NoError(t, reopened.Note())
	require.Zero(t, lacks(reopened.Plan()))
	require.False(t, reopened.Unsaved())
}

func TestAHouseThatCannotBeReadKeepsNoPlanFromBeingSaved(t *testing.T) {
	l := newLent(t)
	l.take(l.desk, l.reels[0])
	require.NoError(t, os.WriteFile(filepath.Join(l.folder, "house", "stock.stageloom-stock"), []byte("nonsense"), 0o600))
	require.NoError(t, l.desk.SaveAs(l.path("meadow"), false))
	require.False(t, l.desk.Unsaved())
	lost := l.desk.Lost()
	require.Len(t, lost, 1)
	require.Contains(t, lost[0], "cannot be read")
	require.Error(t, l.desk.Note())
}

func TestAPlanThatTheDiskRefusesLeavesTheHouse(t *testing.T) {
	l := newLent(t)
	require.NoError(t, l.desk.SaveAs(l.path("meadow"), false))
	l.take(l.desk, l.reels[0])
	ops := atomicfile.System()
	ops.Rename = func(string, string) error { return os.ErrPermission }
	l.desk.UseOps(&ops)
	require.Error(t, l.desk.Save())
	require.Empty(t, l.with(l.reels[0]))
	require.True(t, l.desk.Unsaved())
	l.desk.UseOps(nil)
	require.NoError(t, l.desk.Save())
	require.Equal(t, identity(l.desk), l.with(l.reels[0]))
}

func TestACopyIsAPlanOfItsOwnOrRefused(t *testing.T) {
	l := newLent(t)
	l.take(l.desk, l.reels[0])
	require.NoError(t, l.desk.SaveAs(l.path("meadow"), false))
	text, err := os.ReadFile(l.path("meadow"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(l.path("copy"), text, 0o600))
	d := l.open(5, "copy")
	var copied *house.Copied
	require.ErrorAs(t, d.Save(), &copied)
	first := identity(d)
	d.OwnIdentity()
	require.NotEqual(t, first, identity(d))
	require.True(t, d.Unsaved(), "its file has the identity of the other")
	l.take(d, l.reels[1])
	require.NoError(t, d.Save())
	require.Equal(t, 1, lacks(d.Plan()))
	require.Equal(t, first, l.with(l.reels[0]))
	require.Equal(t, identity(d), l.with(l.reels[1]))
	for d.Undo() {
		require.NotEqual(t, first, identity(d))
	}
}
