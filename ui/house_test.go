package ui_test

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui"
	"stageloom/ui/looptest"
)

func TestTheHouseLendsAndGetsBack(t *testing.T) {
	for _, look := range []string{"light", "dark"} {
		t.Run(look, func(t *testing.T) {
			s := open(t, look, demoFile(t))
			s.window.Resize(fyne.NewSize(1280, 800))
			library := house.Open(s.folder)
			s.choose("Stock", "House stock…")
			require.True(t, s.reads("The house's stock is kept beside all plans"))
			s.tap("Make this plan's own reels part of the house's stock")
			stock, err := library.Stock()
			require.NoError(t, err)
			require.NotEmpty(t, stock.Takings)
			require.NoError(t, library.ChangeStock(func(e *plan.Edit) error {
				plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
				e.AddReel(plan.Reel{Kind: "cat6a", Length: 90, Quantity: 6, Condition: plan.Good})
				return nil
			}))
			s.tap("Close")
			s.choose("Stock", "House stock…")
			s.entryWith("find a tag").SetText("90 m")
			s.picture("stock-house-" + look)
			before := s.desk.Plan().Reels.Len()
			s.tap("Take for this show")
			require.Equal(t, before+1, s.desk.Plan().Reels.Len())
			require.True(t, s.reads("Harrow Meadow Weekender has 6 × "))
			require.Contains(t, s.desk.NextUndo(), "from the house")
			s.tap("Take for this show")
			require.True(t, s.reads("None of these is in the house now"))
			s.desk.Undo()
			s.tap("Close")
			s.choose("Stock", "House stock…")
			s.selectLast()
			s.tap("Give back")
			require.True(t, s.reads("The house has 6 × "), "also what the plan has lost sight of")
		})
	}
}

// A damaged file of own kinds is told of whether a plan is open or not: its kinds are missed in both.
func TestOwnKindsThatCannotBeReadAreToldOfWithAPlanToo(t *testing.T) {
	for name, paths := range map[string][]string{"no plan": nil, "a plan": {demoFile(t)}} {
		t.Run(name, func(t *testing.T) {
			s := &screen{t: t, app: looptest.NewApp(t), desk: desk.New(plan.NewIDSource(1, 2)), folder: t.TempDir()}
			require.NoError(t, os.WriteFile(filepath.Join(s.folder, "kinds.stageloom-kinds"), []byte("{ not a plan"), 0o600))
			s.window, s.questions = ui.Open(s.app, s.desk, house.Open(s.folder), paths...)
			t.Cleanup(func() { s.desk.Close() })
			require.Contains(t, s.state().Notice, "kinds.stageloom-kinds")
		})
	}
}
