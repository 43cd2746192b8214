package panel_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// pressOn presses keys in what has the focus.
func pressOn(c fyne.Canvas, keys ...fyne.KeyName) {
	for _, key := range keys {
		c.Focused().TypedKey(&fyne.KeyEvent{Name: key})
	}
}

// rowsOf are the rows of a list that can be seen, by what stands in them.
func rowsOf(list fyne.CanvasObject, kind string) map[string]fyne.CanvasObject {
	rows := map[string]fyne.CanvasObject{}
	seen(list, func(each fyne.CanvasObject) {
		if strings.HasSuffix(objectName(each), "."+kind) {
			rows[strings.Join(labelsOf(each), "")] = each
		}
	})
	return rows
}

func TestTheEquipmentCountsWhatIsOnThePlan(t *testing.T) {
	start(t)
	p := demo.Weekender()
	equipment := panel.NewEquipment(p)
	show(t, equipment, 220, 4000)
	placed := map[string]int{}
	for device := range p.Devices.All() {
		kind, _ := p.Kinds.Get(plan.Key(device.Kind))
		placed[kind.Name]++
	}
	require.Greater(t, len(placed), 5)
	rows := rowsOf(equipment, "kindRow")
	for name, row := range rows {
		told := ""
		if placed[name] > 0 {
			told = fmt.Sprintf("×%d", placed[name])
		}
		drawn := drawnOf(row)
		require.Equal(t, told, drawn[len(drawn)-1], name)
		delete(placed, name)
	}
	require.Empty(t, placed, "each kind of the plan is listed")
	for _, kind := range catalogue.DeviceKinds() {
		require.Contains(t, rows, kind.Kind.Name)
	}
}

func TestArrowsGoThroughEachKindOnceAndNeverStandOnAHead(t *testing.T) {
	start(t)
	equipment := panel.NewEquipment(plan.New("x"))
	var placed []text.EquipmentRow
	equipment.Place = func(row text.EquipmentRow) { placed = append(placed, row) }
	w := show(t, equipment, 220, 300)
	equipment.Focus(w.Canvas())
	pressOn(w.Canvas(), fyne.KeyReturn)
	require.Empty(t, placed, "nothing is under the hand yet")
	kinds := len(catalogue.DeviceKinds()) + 1 // and a position
	for range kinds {
		pressOn(w.Canvas(), fyne.KeyDown, fyne.KeyReturn)
	}
	told := map[string]bool{}
	for _, row := range placed {
		require.False(t, row.Head())
		require.False(t, told[row.Name], row.Name)
		told[row.Name] = true
	}
	require.Len(t, told, kinds)
	last := placed[len(placed)-1]
	pressOn(w.Canvas(), fyne.KeyDown, fyne.KeyReturn)
	require.Equal(t, last, placed[len(placed)-1], "at the end it stays")
	row := rowsOf(equipment, "kindRow")[last.Name]
	require.NotNil(t, row, "the list has come along")
	bottom := placeOf(row).Y + row.Size().Height
	require.LessOrEqual(t, bottom, float32(301))
	for range kinds {
		pressOn(w.Canvas(), fyne.KeyUp)
	}
	pressOn(w.Canvas(), fyne.KeyReturn)
	require.Equal(t, placed[0], placed[len(placed)-1], "and back to the first")
}

func TestASearchThatFindsNothingSaysSoAndPlacesNothing(t *testing.T) {
	start(t)
	equipment := panel.NewEquipment(plan.New("x"))
	placed := 0
	equipment.Place = func(text.EquipmentRow) { placed++ }
	w := show(t, equipment, 220, 500)
	all := len(equipment.Rows())
	const none = "No kind has these words in its name."
	require.NotContains(t, labelsOf(equipment), none)
	equipment.Focus(w.Canvas())
	test.Type(w.Canvas().Focused(), "ص🎹")
	require.Empty(t, equipment.Rows())
	require.Contains(t, labelsOf(equipment), none)
	pressOn(w.Canvas(), fyne.KeyReturn, fyne.KeyDown, fyne.KeyUp, fyne.KeyReturn)
	require.Zero(t, placed)
	pressOn(w.Canvas(), fyne.KeyBackspace, fyne.KeyBackspace)
	require.Len(t, equipment.Rows(), all)
	require.NotContains(t, labelsOf(equipment), none)
	test.Type(w.Canvas().Focused(), "console")
	equipment.Focus(w.Canvas())
	test.Type(w.Canvas().Focused(), "box")
	for _, row := range equipment.Rows() {
		require.True(t, row.Head() || strings.Contains(strings.ToLower(row.Name), "box"), "who comes back searches anew: %s", row.Name)
	}
}

func TestKindsOfOnesOwnAreListedUnderTheirGroupAndLongNamesAreCut(t *testing.T) {
	start(t)
	equipment := panel.NewEquipment(plan.New("x"))
	var carried []string
	equipment.Carry = func(row text.EquipmentRow, _ fyne.Position) { carried = append(carried, "carried "+row.Name+row.Group) }
	equipment.Drop = func(row text.EquipmentRow, _ fyne.Position) { carried = append(carried, "dropped "+row.Name+row.Group) }
	long := strings.Repeat("صندوق المسرح 🎛 ", 12)
	own := []catalogue.DeviceKind{{Kind: plan.Kind{ID: "own-1", Name: long, Group: "عندنا"}}, {Kind: plan.Kind{ID: "own-2", Name: "Own two", Group: "عندنا"}}}
	w := show(t, equipment, 220, 500)
	least := equipment.MinSize()
	equipment.SetKinds(plan.New("y"), own)
	require.Equal(t, least, equipment.MinSize(), "no name makes the window wider")
	equipment.Focus(w.Canvas())
	test.Type(w.Canvas().Focused(), "عندنا")
	require.Len(t, equipment.Rows(), 3)
	rows := rowsOf(equipment, "kindRow")
	for _, row := range rows {
		for _, drawn := range allOf[*widget.Label](row) {
			require.LessOrEqual(t, drawn.Size().Width, float32(220))
		}
		row.(fyne.Draggable).Dragged(&fyne.DragEvent{})
		row.(fyne.Draggable).DragEnd()
	}
	require.ElementsMatch(t, []string{"carried " + long, "dropped " + long, "carried Own two", "dropped Own two"}, carried, "a head is not carried")
}

func TestEnterPutsDevicesWhereThePlanHasThemUnlessTheUserChose(t *testing.T) {
	start(t)
	listed, err := plan.Do(plan.New("a list"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		require.NoError(t, catalogue.Use(e, "console-56"))
		e.AddDevice(plan.Device{Name: "FOH", Kind: "console-56", Unplaced: true})
		return nil
	})
	require.NoError(t, err)
	equipment := panel.NewEquipment(plan.New("x"))
	w := show(t, equipment, 220, 500)
	require.False(t, equipment.InList(), "an empty plan is drawn")
	equipment.SetPlan(listed)
	require.True(t, equipment.InList())
	equipment.SetPlan(demo.Weekender())
	require.False(t, equipment.InList())
	chooser := equipment.Inside()[1].(*widget.Select)
	chooser.SetSelected(panel.InTheList)
	equipment.SetPlan(demo.Weekender())
	require.True(t, equipment.InList(), "what the user chose holds")
	equipment.Ask()
	equipment.SetPlan(demo.Weekender())
	require.False(t, equipment.InList(), "until another plan")
	var keys []fyne.KeyName
	left := 0
	equipment.Leave, equipment.Key = func() { left++ }, func(key fyne.KeyName) { keys = append(keys, key) }
	equipment.Focus(w.Canvas())
	pressOn(w.Canvas(), fyne.KeyF6, fyne.KeyEscape)
	test.FocusNext(w.Canvas())
	pressOn(w.Canvas(), fyne.KeyF4, fyne.KeyRight, fyne.KeyEscape)
	require.Equal(t, 2, left)
	require.Equal(t, []fyne.KeyName{fyne.KeyF6, fyne.KeyF4}, keys)
	require.True(t, equipment.InList(), "an arrow chooses the other")
}
