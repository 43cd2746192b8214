package stock_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/stock"
	"stageloom/ui/text"
)

// host is all of a window that the stock's dialogs ask for.
type host struct {
	window fyne.Window
	desk   *desk.Desk
	keys   *dialogs.Keys
	said   string
}

func (h *host) Desk() *desk.Desk    { return h.desk }
func (h *host) Units() words.Units  { return words.Units{} }
func (h *host) Window() fyne.Window { return h.window }
func (h *host) Keys() *dialogs.Keys { return h.keys }
func (h *host) Say(words string)    { h.said = words }
func (h *host) Warn(words string)   { h.said = words }
func (h *host) Folder() string      { return "." }

func open(t *testing.T) (*host, *stock.Dialogs) {
	t.Helper()
	window := test.NewTempWindow(t, widget.NewLabel(""))
	window.Resize(fyne.NewSize(1200, 800))
	h := &host{window: window, desk: desk.New(plan.NewIDSource(1, 2)), keys: dialogs.NewKeys(window)}
	t.Cleanup(func() { h.desk.Close() })
	library := house.Open(t.TempDir())
	return h, &stock.Dialogs{
		Host: h, Library: func() house.Library { return library },
		Chosen: func() (text.StockRow, bool) { return text.StockRow{}, false },
	}
}

// each hands over what lies in the topmost dialog.
func (h *host) each(do func(fyne.CanvasObject)) {
	overlays := h.window.Canvas().Overlays().List()
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		do(object)
	}
}

// item is the widget of this name in the form of the topmost dialog.
func (h *host) item(t *testing.T, label string) (found fyne.CanvasObject) {
	t.Helper()
	h.each(func(object fyne.CanvasObject) {
		if form, ok := object.(*widget.Form); ok {
			for _, item := range form.Items {
				if item.Text == label {
					found = item.Widget
				}
			}
		}
	})
	require.NotNil(t, found, label)
	return found
}

// tap taps a button of the topmost dialog.
func (h *host) tap(t *testing.T, label string) {
	t.Helper()
	var found *widget.Button
	h.each(func(object fyne.CanvasObject) {
		if button, ok := object.(*widget.Button); ok && button.Text == label {
			found = button
		}
	})
	require.NotNil(t, found, label)
	test.Tap(found)
}

func TestReelsAreAddedToThePlanAndToTheHouse(t *testing.T) {
	h, d := open(t)
	d.AddReels(d.OfPlan())
	h.item(t, "What there is").(*dialogs.Field).SetText("12 x 50 m")
	h.tap(t, "Add")
	require.Equal(t, 1, h.desk.Plan().Reels.Len())
	require.Contains(t, h.said, "Added 12 cables")

	changed := 0
	d.AddReels(d.OfHouse(func() { changed++ }))
	h.item(t, "What there is").(*dialogs.Field).SetText("3 x 20 m")
	h.tap(t, "Add")
	require.Equal(t, 1, changed)
	require.Equal(t, 1, h.desk.Plan().Reels.Len(), "the plan has none of the house's")
	inHouse, err := d.Library().Stock()
	require.NoError(t, err)
	require.Equal(t, 1, inHouse.Plan.Reels.Len())
}

func TestAHouseLineIsMadeAndTold(t *testing.T) {
	h, d := open(t)
	var made plan.Ref
	d.AskHouseLine("", func(ref plan.Ref) { made = ref })
	h.item(t, "House line").(*dialogs.Field).SetText("Line 7")
	h.item(t, "Length").(*dialogs.Field).SetText("40 m")
	h.tap(t, "Make it")
	require.Empty(t, made, "its kind is not known")
	h.item(t, "Kind").(*dialogs.Chooser).SetSelectedIndex(0)
	h.tap(t, "Make it")
	require.Equal(t, "house_lines", made.Table)
	line, found := h.desk.Plan().HouseLines.Get(made.Key)
	require.True(t, found)
	require.Equal(t, "Line 7", line.Name)
}

func TestAReelThatIsGoneIsNotEdited(t *testing.T) {
	h, d := open(t)
	d.EditReel(d.OfPlan(), "none")
	require.Equal(t, "This reel is not in the stock any more.", h.said)
	require.Empty(t, h.window.Canvas().Overlays().List())
}
