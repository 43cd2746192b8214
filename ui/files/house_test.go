package files_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/files"
)

// lending is a window whose plan has the house's reel A01 and is saved.
func lending(t *testing.T) (*hosttest.Host, *files.Dialogs, house.Library) {
	t.Helper()
	h, f := open(t, plan.New("Meadow"))
	library := house.Open(filepath.Join(h.Folder(), "house"))
	f.Library = func() house.Library { return library }
	h.Desk().SettleWith(house.Keeper{Library: f.Library, Today: func() string { return "2027-06-22" }})
	require.NoError(t, library.ChangeStock(func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		e.AddReel(plan.Reel{Tag: "A01", Kind: "cat6a", Length: 100})
		return nil
	}))
	stock, err := library.Stock()
	require.NoError(t, err)
	require.NoError(t, h.Desk().Do("Take", func(e *plan.Edit) error {
		return stock.Take(e, house.Want{Reel: stock.Plan.Reels.At(0).ID, Quantity: 1})
	}))
	require.NoError(t, h.Desk().SaveAs(file(h, "meadow"), false))
	return h, f, library
}

func file(h *hosttest.Host, name string) string {
	return filepath.Join(h.Folder(), name+planfile.Extension)
}

// copyFile copies the plan as a file manager does.
func copyFile(t *testing.T, h *hosttest.Host, name string) {
	t.Helper()
	text, err := os.ReadFile(file(h, "meadow"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file(h, name), text, 0o600))
}

// out is by which plans the house's reels are out, and where those lie.
func out(t *testing.T, library house.Library) (shows []house.Show) {
	t.Helper()
	stock, err := library.Stock()
	require.NoError(t, err)
	return stock.Shows
}

func TestDontSaveAfterGivingBackChangesNothingInTheHouse(t *testing.T) {
	h, f, library := lending(t)
	before, err := os.ReadFile(filepath.Join(h.Folder(), "house", "stock.stageloom-stock"))
	require.NoError(t, err)
	require.NoError(t, h.Desk().Do("Give back", func(e *plan.Edit) error {
		return house.GiveBack(e, "2027-06-23", house.Return{Reel: e.Now().Reels.At(0).ID, Quantity: 1})
	}))
	f.New()
	h.Tap("Don't save")
	require.Zero(t, h.Desk().Plan().Reels.Len())
	after, err := os.ReadFile(filepath.Join(h.Folder(), "house", "stock.stageloom-stock"))
	require.NoError(t, err)
	require.Equal(t, string(before), string(after))
	require.Len(t, out(t, library), 1)
}

func TestACopiedFileIsAskedAboutWhenItIsOpened(t *testing.T) {
	t.Run("a plan of its own", func(t *testing.T) {
		h, f, library := lending(t)
		first := h.Desk().Plan().Settings.Identity
		copyFile(t, h, "copy")
		f.Open(file(h, "copy"))
		require.Equal(t, 1, h.Open())
		h.Tap("A plan of its own")
		require.NotEqual(t, first, h.Desk().Plan().Settings.Identity)
		require.Equal(t, 1, h.Desk().Plan().Reels.At(0).Lacking, "the other one has it")
		require.Equal(t, first, out(t, library)[0].ID)
		f.Save()
		require.Contains(t, h.Said, "the house does not let the show have all of it")
		require.Zero(t, h.Open())
		f.Open(file(h, "copy"))
		require.Zero(t, h.Open(), "once is enough")
	})
	t.Run("the same plan, which moved", func(t *testing.T) {
		h, f, library := lending(t)
		copyFile(t, h, "copy")
		f.Open(file(h, "copy"))
		h.Tap("The same plan, which moved")
		require.Equal(t, file(h, "copy"), out(t, library)[0].File)
		require.Zero(t, h.Desk().Plan().Reels.At(0).Lacking)
		f.Save()
		require.Equal(t, "Saved "+file(h, "copy"), h.Said)
	})
	t.Run("asked later it is asked by the save, which merges nothing before", func(t *testing.T) {
		h, f, library := lending(t)
		copyFile(t, h, "copy")
		f.Open(file(h, "copy"))
		h.Tap("Ask later")
		f.Save()
		require.Equal(t, 1, h.Open())
		require.Equal(t, file(h, "meadow"), out(t, library)[0].File)
		h.Tap("A plan of its own")
		require.Contains(t, h.Said, "Saved, but")
		require.False(t, h.Desk().Unsaved())
		require.Len(t, out(t, library), 1)
	})
	t.Run("a plan that was moved is followed without a word", func(t *testing.T) {
		h, f, library := lending(t)
		h.Desk().NewPlan(plan.New("Nothing"))
		require.NoError(t, os.Rename(file(h, "meadow"), file(h, "elsewhere")))
		f.Open(file(h, "elsewhere"))
		require.Zero(t, h.Open())
		f.Save()
		require.Equal(t, file(h, "elsewhere"), out(t, library)[0].File)
	})
}

func TestWhatTheHouseSaysIsToldWhenAPlanIsOpened(t *testing.T) {
	h, f, library := lending(t)
	h.Desk().NewPlan(plan.New("Nothing"))
	stock, err := library.Stock()
	require.NoError(t, err)
	taking := stock.Takings[0]
	_, err = library.Save(plan.New("Meadow").WithIdentity(taking.Plan), house.Show{ID: taking.Plan, Name: "Meadow", Saved: "2027-06-23"})
	require.NoError(t, err)
	other := plan.New("Barn").WithIdentity("barn")
	stock, err = library.Stock()
	require.NoError(t, err)
	other, err = plan.Do(other, plan.NewIDSource(3, 3), func(e *plan.Edit) error {
		return stock.Take(e, house.Want{Reel: taking.Reel, Quantity: 1})
	})
	require.NoError(t, err)
	_, err = library.Save(other, house.Show{ID: "barn", Name: "Barn", Saved: "2027-06-23"})
	require.NoError(t, err)
	f.Open(file(h, "meadow"))
	require.Equal(t, 1, h.Desk().Plan().Reels.At(0).Lacking)
	require.Contains(t, h.Desk().Plan().Reels.At(0).LackingWhy, "Barn")
	require.False(t, h.Desk().Unsaved())
}

func TestASaveSaysWhatIsOverdueElsewhere(t *testing.T) {
	h, f, library := lending(t)
	stock, err := library.Stock()
	require.NoError(t, err)
	reel := stock.Takings[0].Reel
	settings := func(p *plan.Plan, id, out, back string) *plan.Plan {
		next, err := plan.Do(p, nil, func(e *plan.Edit) error {
			s := e.Now().Settings
			s.Identity, s.OutOn, s.BackOn = id, out, back
			e.SetSettings(s)
			return nil
		})
		require.NoError(t, err)
		return next
	}
	require.NoError(t, h.Desk().Do("Days", func(e *plan.Edit) error {
		s := e.Now().Settings
		s.OutOn, s.BackOn = "2027-06-25", "2027-06-28"
		e.SetSettings(s)
		return nil
	}))
	f.Save()
	require.Equal(t, "Saved "+file(h, "meadow"), h.Said)
	barn, err := plan.Do(settings(plan.New("Barn"), "barn", "2027-06-18", "2027-06-20"), plan.NewIDSource(3, 3), func(e *plan.Edit) error {
		stock, err := library.Stock()
		require.NoError(t, err)
		return stock.Take(e, house.Want{Reel: reel, Quantity: 1})
	})
	require.NoError(t, err)
	_, err = library.Save(barn, house.ShowOf(barn, "", "2027-06-18"))
	require.NoError(t, err)
	for range 2 {
		f.Save()
		require.Equal(t, "Saved. 1 cable that this show is promised is with Barn, overdue since 20 June.", h.Said, "each save says so as long as it is so")
	}
	_, err = library.Save(settings(plan.New("Barn"), "barn", "", ""), house.Show{ID: "barn", Name: "Barn", Saved: "2027-06-22"})
	require.NoError(t, err)
	f.Save()
	require.Equal(t, "Saved "+file(h, "meadow"), h.Said)
}
