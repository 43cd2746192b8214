package panel_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// seen goes through what can be seen of an object, from the outside in.
func seen(object fyne.CanvasObject, visit func(fyne.CanvasObject)) {
	if !object.Visible() {
		return
	}
	visit(object)
	switch inner := object.(type) {
	case *fyne.Container:
		for _, each := range inner.Objects {
			seen(each, visit)
		}
	case fyne.Widget:
		for _, each := range test.WidgetRenderer(inner).Objects() {
			seen(each, visit)
		}
	}
}

// allOf are the objects of a type that can be seen, in their order.
func allOf[T any](object fyne.CanvasObject) (found []T) {
	seen(object, func(each fyne.CanvasObject) {
		if is, ok := each.(T); ok {
			found = append(found, is)
		}
	})
	return found
}

// labelsOf are the sentences that can be read.
func labelsOf(object fyne.CanvasObject) (said []string) {
	for _, label := range allOf[*widget.Label](object) {
		said = append(said, label.Text)
	}
	return said
}

// drawnOf are the single lines that can be read.
func drawnOf(object fyne.CanvasObject) (said []string) {
	for _, line := range allOf[*canvas.Text](object) {
		said = append(said, line.Text)
	}
	return said
}

// placeOf is where an object is in its window.
func placeOf(object fyne.CanvasObject) fyne.Position {
	driver := fyne.CurrentApp().Driver()
	origin, _ := driver.CanvasForObject(object).InteractiveArea() // which the driver reckons places from
	return driver.AbsolutePositionForObject(object).Add(origin)
}

// desk is a form at work: each change is a step of its plan, after which the form is set anew, as the window does.
type desk struct {
	t        *testing.T
	plan     *plan.Plan
	selected []plan.Ref
	units    words.Units
	view     *panel.FormView
	canvas   fyne.Canvas
	steps    []string
	left     int
	keys     []fyne.KeyName
}

func deskOf(t *testing.T, p *plan.Plan, selected ...plan.Ref) *desk {
	t.Helper()
	start(t)
	d := &desk{t: t, plan: p, selected: selected, view: panel.NewFormView()}
	d.view.Do = func(step string, edit func(*plan.Edit) error) error {
		next, err := plan.Do(d.plan, plan.NewIDSource(4, uint64(len(d.steps))), edit)
		if err != nil {
			return err
		}
		d.plan, d.steps = next, append(d.steps, step)
		d.set()
		return nil
	}
	d.view.Leave = func() { d.left++ }
	d.view.Key = func(key fyne.KeyName) { d.keys = append(d.keys, key) }
	d.canvas = show(t, d.view, 272, 900).Canvas()
	d.set()
	return d
}

func (d *desk) set() { d.view.Set(text.FormOf(assess.Of(d.plan), d.selected, d.units)) }

func (d *desk) selects(refs ...plan.Ref) {
	d.selected = refs
	d.set()
}

// row is a field's row and what is typed into.
func (d *desk) row(name string) (row, input fyne.CanvasObject) {
	d.t.Helper()
	for _, each := range d.view.Inside() {
		if labelled, is := each.(interface {
			Labelled() (string, fyne.CanvasObject)
		}); is {
			if label, input := labelled.Labelled(); label == name {
				return each, input
			}
		}
	}
	d.t.Fatalf("the form has no %s", name)
	return nil, nil
}

func (d *desk) fields() (names []string) {
	for _, each := range d.view.Inside() {
		if labelled, is := each.(interface {
			Labelled() (string, fyne.CanvasObject)
		}); is {
			name, _ := labelled.Labelled()
			names = append(names, name)
		}
	}
	return names
}

func (d *desk) entry(name string) *widget.Entry {
	d.t.Helper()
	_, input := d.row(name)
	entry, is := input.(interface{ Inner() *widget.Entry })
	require.True(d.t, is, "%s is typed", name)
	return entry.Inner()
}

func (d *desk) list(name string) *widget.Select {
	d.t.Helper()
	_, input := d.row(name)
	list, is := input.(interface{ Inner() *widget.Select })
	require.True(d.t, is, "%s is chosen", name)
	return list.Inner()
}

// fault is what stands under a field.
func (d *desk) fault(name string) string {
	d.t.Helper()
	row, _ := d.row(name)
	for _, label := range allOf[*widget.Label](row) {
		if label.Importance == widget.DangerImportance {
			return label.Text
		}
	}
	return ""
}

// types puts the cursor into a field, empties it and types.
func (d *desk) types(name, typed string) {
	d.t.Helper()
	_, input := d.row(name)
	d.canvas.Focus(input.(fyne.Focusable))
	if entry := d.entry(name); entry.MultiLine {
		entry.SetText("")
	} else {
		entry.TypedShortcut(&fyne.ShortcutSelectAll{})
		entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	}
	test.Type(input.(fyne.Focusable), typed)
}

func (d *desk) press(keys ...fyne.KeyName) {
	for _, key := range keys {
		d.canvas.Focused().TypedKey(&fyne.KeyEvent{Name: key})
	}
}

// focused is the name of the field that has the cursor.
func (d *desk) focused() string {
	for _, name := range d.fields() {
		if _, input := d.row(name); d.canvas.Focused() == input.(fyne.Focusable) {
			return name
		}
	}
	if head, is := d.canvas.Focused().(interface{ Group() string }); is {
		return "[" + head.Group() + "]"
	}
	return ""
}

// link is a link of the plan as it is now, by name.
func (d *desk) link(name string) plan.Link {
	link, _ := d.plan.Link(plan.LinkID(linkNamed(d.plan, name).Key))
	return link
}
