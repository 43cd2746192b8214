package ui_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/strip"
)

// stockRow is a row of the stock that can be dragged .
func (s *screen) stockRow() fyne.Draggable {
	s.t.Helper()
	for _, object := range test.LaidOutObjects(s.window.Canvas().Content()) {
		row, draggable := object.(fyne.Draggable)
		if draggable && strings.Contains(fmt.Sprintf("%T", object), "stockRow") && object.Visible() {
			return row
		}
	}
	require.Fail(s.t, "the stock has no row")
	return nil
}

// strip is the run strip with its corner in the window.
func (s *screen) strip() (*strip.Strip, fyne.Position) {
	s.t.Helper()
	for _, object := range test.LaidOutObjects(s.window.Canvas().Content()) {
		if found, is := object.(*strip.Strip); is {
			return found, fyne.CurrentApp().Driver().AbsolutePositionForObject(found)
		}
	}
	require.Fail(s.t, "there is no strip")
	return nil, fyne.Position{}
}

func (s *screen) segments(name string) []plan.Segment {
	for link := range s.desk.Plan().Links.All() {
		if link.Name == name {
			return s.desk.Plan().SegmentsOf(link.ID)
		}
	}
	return nil
}

func TestACableOfTheStockIsDroppedOnTheStrip(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.window.Resize(fyne.NewSize(1280, 1400)) // the stock shows many rows
	s.find("L20")
	require.Empty(t, s.segments("L20"))
	shown, corner := s.strip()
	over := corner.Add(fyne.NewPos(shown.Size().Width/2, shown.Size().Height-45))
	require.NotEmpty(t, s.stockRow())
	for _, object := range test.LaidOutObjects(s.window.Canvas().Content()) {
		row, draggable := object.(fyne.Draggable)
		if !draggable || !strings.Contains(fmt.Sprintf("%T", object), "stockRow") || len(s.segments("L20")) > 0 {
			continue
		}
		row.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{AbsolutePosition: over}})
		row.DragEnd()
	}
	laid := s.segments("L20")
	require.Len(t, laid, 1, "the first that is free and fits is laid")
	require.Equal(t, []string{"L20"}, s.state().Selection)
	require.Equal(t, "Lay a cable of L20", s.desk.NextUndo())
	t.Run("dropped on the middle of a cable, another takes its place", func(t *testing.T) {
		for _, object := range test.LaidOutObjects(s.window.Canvas().Content()) {
			row, draggable := object.(fyne.Draggable)
			if !draggable || !strings.Contains(fmt.Sprintf("%T", object), "stockRow") || s.desk.NextUndo() == "Replace a cable of L20" {
				continue
			}
			shown, corner = s.strip()
			cell := strip.LayOut(shown.Run(), float64(shown.Size().Width), float64(shown.Size().Height)).Cells[0].Centre()
			row.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{AbsolutePosition: corner.Add(fyne.NewPos(float32(cell.X), float32(cell.Y)))}})
			row.DragEnd()
		}
		require.Equal(t, "Replace a cable of L20", s.desk.NextUndo())
		require.Len(t, s.segments("L20"), 1)
	})
	t.Run("dropped beside, it is given up", func(t *testing.T) {
		before := s.desk.Plan()
		row := s.stockRow()
		row.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{AbsolutePosition: fyne.NewPos(4, 4)}})
		row.DragEnd()
		require.Same(t, before, s.desk.Plan())
	})
}
