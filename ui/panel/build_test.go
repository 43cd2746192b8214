package panel_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

func TestTypingFindsAndEnterPlaces(t *testing.T) {
	start(t)
	equipment := panel.NewEquipment(plan.New("x"))
	var placed []string
	left := false
	equipment.Place = func(row text.EquipmentRow) { placed = append(placed, row.Name) }
	equipment.Leave = func() { left = true }
	w := show(t, equipment, 220, 500)
	equipment.Focus(w.Canvas())
	test.Type(w.Canvas().Focused(), "stage box")
	press := func(name fyne.KeyName) { w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name}) }
	press(fyne.KeyReturn)
	press(fyne.KeyDown)
	press(fyne.KeyReturn)
	press(fyne.KeyUp)
	press(fyne.KeyReturn)
	require.Equal(t, []string{"Stage box 12 in, 6 out", "Stage box 24 in, 12 out", "Stage box 12 in, 6 out"}, placed)
	press(fyne.KeyEscape)
	require.True(t, left)
}

func TestARowIsCarriedAndDropped(t *testing.T) {
	start(t)
	equipment := panel.NewEquipment(plan.New("x"))
	var carried, dropped string
	var at fyne.Position
	equipment.Carry = func(row text.EquipmentRow, _ fyne.Position) { carried = row.Name }
	equipment.Drop = func(row text.EquipmentRow, place fyne.Position) { dropped, at = row.Name, place }
	w := show(t, equipment, 220, 500)
	for _, object := range test.LaidOutObjects(w.Canvas().Content()) {
		row, draggable := object.(fyne.Draggable)
		if _, isEntry := object.(*widget.Entry); isEntry || !draggable || !strings.Contains(objectName(object), "kindRow") {
			continue
		}
		row.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{AbsolutePosition: fyne.NewPos(500, 300)}})
		row.DragEnd()
	}
	require.NotEmpty(t, carried)
	require.Equal(t, carried, dropped)
	require.Equal(t, fyne.NewPos(500, 300), at)
}
