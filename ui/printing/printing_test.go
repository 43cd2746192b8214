package printing_test

import (
	"bytes"
	"net/url"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/report"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/looptest"
	"stageloom/ui/pointer"
	"stageloom/ui/printing"
)

func open(t *testing.T) (*hosttest.Host, *printing.Dialogs) {
	t.Helper()
	h := hosttest.New(t, plan.New("New plan"))
	return h, &printing.Dialogs{
		Host: h, Tips: func() *pointer.Tips { return pointer.NewTips(nil) },
		Do: func(name string, edit func(*plan.Edit) error) { require.NoError(t, h.Desk().Do(name, edit)) },
	}
}

func TestTheNextLetterFollowsTheLast(t *testing.T) {
	for last, next := range map[string]string{"A": "B", "Z": "AA", "AZ": "BA", "ZZ": "AAA", "2": "2A"} {
		h, d := open(t)
		d.Issue()
		letter := h.Field()
		letter.SetText(last)
		letter.OnSubmitted(last)
		require.Equal(t, 1, h.Desk().Plan().Revisions.Len())
		d.Issue()
		require.Equal(t, next, h.Field().Text, "after "+last)
	}
}

func TestARevisionNeedsALetter(t *testing.T) {
	h, d := open(t)
	d.Issue()
	letter := h.Field()
	letter.SetText(" ")
	letter.OnSubmitted(" ")
	require.True(t, h.Reads("Give the revision a letter."))
	require.Zero(t, h.Desk().Plan().Revisions.Len())
	h.Keys().GiveUp()
	require.Zero(t, h.Open())
}

func TestTheHousePrintsTheSheetsThatAreTicked(t *testing.T) {
	app := looptest.NewApp(t)
	h, d := open(t)
	folder := t.TempDir()
	d.Library = func() house.Library { return house.Open(folder) }
	d.HouseLists()
	require.Contains(t, h.Text(), "no stock yet")
	require.Zero(t, h.Open())
	require.NoError(t, d.Library().ChangeStock(func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat", Name: "CatA", Media: "balanced-pair"})
		e.AddReel(plan.Reel{Tag: "A01", Kind: "cat", Length: 50})
		e.AddReel(plan.Reel{Kind: "cat", Length: 20, Quantity: 3})
		return nil
	}))
	shown := ""
	d.OpenURL = func(file *url.URL) error { shown = file.Path; return nil }
	d.HouseLists()
	for _, sheet := range report.HouseLists() {
		require.True(t, h.Check(sheet.Name()).Checked)
		h.Check(sheet.Name()).SetChecked(sheet == report.HouseStock)
	}
	h.Check("Reel labels").SetChecked(true)
	h.Tap("Print")
	app.Until(t, "it is printed", func() bool { return shown != "" })
	require.Contains(t, h.Text(), "Printed 2 pages")
	require.Contains(t, h.Text(), "3 cables have no tag and get no label.")
	print, err := os.ReadFile(shown)
	require.NoError(t, err)
	require.True(t, bytes.HasPrefix(print, []byte("%PDF-")))
}
