package ui

import (
	"bytes"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/assess"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/ui/dialogs"
	"stageloom/ui/panel"
	"stageloom/ui/settings"
	"stageloom/ui/text"
)

// freshPlan is a plan as new ones begin: with what the user wants, else as the program came.
func (w *window) freshPlan() *plan.Plan {
	p := w.template()
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		fresh := e.Now().Settings
		fresh.Name, fresh.Standards = newName, plan.DefaultSettings().Standards
		e.SetSettings(fresh)
		return nil
	})
	if err != nil {
		return plan.New(newName)
	}
	return next
}

// template is what is kept of how new plans begin. What can't be read any more is left alone, and new plans begin as they
// came.
func (w *window) template() *plan.Plan {
	if text := w.settings.NewPlan(); text != "" {
		if p, err := planfile.Read(strings.NewReader(text)); err == nil {
			return p
		}
	}
	return plan.New(newName)
}

// keepTemplate keeps how new plans begin.
func (w *window) keepTemplate(p *plan.Plan) error {
	var text bytes.Buffer
	if err := planfile.Write(&text, p); err != nil {
		return err
	}
	w.settings.SetNewPlan(text.String())
	return nil
}

// applyLabels lets the labels of links say what the user wants.
func (w *window) applyLabels() {
	w.plan.SetContent(map[string]picture.Content{
		settings.NameAndMargin: picture.NameAndMargin, settings.NameAlone: picture.NameAlone, settings.NameMarginRun: picture.NameMarginRun,
	}[w.settings.Labels()])
}

// settingsDialog is how plans are shown, and how new ones begin. Each choice holds at once; no figure of an open plan follows.
type settingsDialog struct {
	*window
	fresh *plan.Plan
	ids   *plan.IDSource
	form  *panel.FormView
	told  *widget.Label
}

func (w *window) askSettings() {
	d := &settingsDialog{window: w, fresh: w.template(), ids: plan.NewIDSource(1, 1), form: panel.NewFormView(), told: widget.NewLabel("")}
	d.told.Wrapping, d.told.Importance = fyne.TextWrapWord, widget.LowImportance
	d.told.SetText("A plan that is open keeps its own figures; they are on its card.")
	d.form.Do = d.change
	scroll := container.NewVScroll(d.form)
	d.form.Reveal, d.form.Resized = dialogs.RevealIn(scroll), scroll.Refresh
	d.show()
	screen := d.screen()
	head := func(text string) *widget.Label {
		return widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	}
	right := container.NewBorder(head("New plans begin with"), d.told, nil, nil, scroll)
	left := container.NewVBox(head("How plans are shown"), screen)
	dlg := dialog.NewCustomWithoutButtons("Settings", container.NewGridWithColumns(2, left, container.NewPadded(right)), w.window)
	before := w.window.Canvas().Focused()
	hide := func() {
		dlg.Hide()
		if before != nil {
			w.window.Canvas().Focus(before)
		}
	}
	d.form.Leave = w.Keys().GiveUp
	reset := dialogs.NewAnswer(w, "New plans as they came", func() {
		d.fresh = plan.New(newName)
		w.settings.SetNewPlan("")
		d.show()
	})
	shut := dialogs.NewAnswer(w, "Close", hide)
	shut.Importance = widget.HighImportance
	dlg.SetButtons([]fyne.CanvasObject{reset, shut})
	size := w.window.Canvas().Size()
	dlg.Resize(fyne.NewSize(min(860, size.Width-40), min(620, size.Height-40)))
	w.Keys().Escapable(hide)
	dlg.Show()
	w.window.Canvas().Focus(screen.Items[0].Widget.(fyne.Focusable))
}

// screen is how plans are shown.
func (d *settingsDialog) screen() *widget.Form {
	w := d.window
	list := func(options []string, now string, keep func(string)) *dialogs.Chooser {
		c := dialogs.NewChooser(w, options, nil)
		c.SetSelected(now)
		c.OnChanged = func(chosen string) {
			keep(chosen)
			w.applyUnits()
			w.window.SetMainMenu(w.menu())
			d.show()
		}
		return c
	}
	tick := func(text string, now bool, keep func(bool)) *dialogs.Check {
		return dialogs.NewCheck(w, text, now, func(on bool) {
			keep(on)
			w.applyUnits()
			w.window.SetMainMenu(w.menu())
		})
	}
	return widget.NewForm(
		widget.NewFormItem("Lengths", list([]string{settings.Metres, settings.Feet}, w.settings.Length(), w.settings.SetLength)),
		widget.NewFormItem("Temperatures", list([]string{settings.Celsius, settings.Fahrenheit}, w.settings.Temperature(), w.settings.SetTemperature)),
		widget.NewFormItem("Look", list([]string{settings.Light, settings.Dark, settings.Contrast}, w.settings.Look(), w.setLook)),
		widget.NewFormItem("Labels of links", list([]string{settings.NameAndMargin, settings.NameAlone, settings.NameMarginRun}, w.settings.Labels(), func(content string) {
			w.settings.SetLabels(content)
			w.applyLabels()
		})),
		widget.NewFormItem("Dragging", tick("snaps to half a metre or a foot", w.settings.Snap(), w.settings.SetSnap)),
		widget.NewFormItem("Patch", tick("channels stay with inputs that move", w.settings.ChannelsFollow(), w.settings.SetChannelsFollow)),
		widget.NewFormItem("What is shown", dialogs.NewAnswer(w, "Choose…   F7", func() { w.Keys().GiveUp(); w.askShown() })),
	)
}

// show brings the form up to how new plans begin now.
func (d *settingsDialog) show() { d.form.Set(text.TemplateForm(assess.Of(d.fresh), d.units())) }

// change makes one change to how new plans begin.
func (d *settingsDialog) change(_ string, edit func(*plan.Edit) error) error {
	next, err := plan.Do(d.fresh, d.ids, edit)
	if err != nil {
		return err
	}
	d.fresh = next
	d.show()
	return d.keepTemplate(next)
}
