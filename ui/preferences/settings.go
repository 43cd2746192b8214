package preferences

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/files"
	"stageloom/ui/panel"
	"stageloom/ui/settings"
	"stageloom/ui/text"
)

// settingsDialog is how plans are shown, and how new ones begin. Each choice holds at once; no figure of an open plan follows.
type settingsDialog struct {
	*Dialogs
	fresh *plan.Plan
	ids   *plan.IDSource
	form  *panel.FormView
	told  *widget.Label
}

// AskSettings asks how plans are shown and how new ones begin.
func (p *Dialogs) AskSettings() {
	d := &settingsDialog{Dialogs: p, fresh: files.Template(p.Settings), ids: plan.NewIDSource(1, 1), form: panel.NewFormView(), told: widget.NewLabel("")}
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
	dlg := dialogs.New(p, "Settings", container.NewGridWithColumns(2, left, container.NewPadded(right)))
	before := p.Window().Canvas().Focused()
	hide := func() {
		dlg.Hide()
		if before != nil {
			p.Window().Canvas().Focus(before)
		}
	}
	d.form.Leave = p.Keys().GiveUp
	reset := dialogs.NewAnswer(p, "New plans as they came", func() {
		d.fresh = plan.New(files.NewName)
		p.Settings.SetNewPlan("")
		d.show()
	})
	shut := dialogs.NewAnswer(p, "Close", hide)
	shut.Importance = widget.HighImportance
	dlg.SetButtons([]fyne.CanvasObject{reset, shut})
	dlg.Fit(dialogs.WideWidth, 620)
	p.Keys().Escapable(hide)
	dlg.Show()
	p.Window().Canvas().Focus(screen.Items[0].Widget.(fyne.Focusable))
}

// screen is how plans are shown.
func (d *settingsDialog) screen() *widget.Form {
	p := d.Dialogs
	list := func(options []string, now string, keep func(string)) *dialogs.Chooser {
		c := dialogs.NewChooser(p, options, nil)
		c.SetSelected(now)
		c.OnChanged = func(chosen string) {
			keep(chosen)
			p.Changed()
			d.show()
		}
		return c
	}
	tick := func(text string, now bool, keep func(bool)) *dialogs.Check {
		return dialogs.NewCheck(p, text, now, func(on bool) {
			keep(on)
			p.Changed()
		})
	}
	return widget.NewForm(
		widget.NewFormItem("Lengths", list([]string{settings.Metres, settings.Feet}, p.Settings.Length(), p.Settings.SetLength)),
		widget.NewFormItem("Temperatures", list([]string{settings.Celsius, settings.Fahrenheit}, p.Settings.Temperature(), p.Settings.SetTemperature)),
		widget.NewFormItem("Look", list([]string{settings.Light, settings.Dark, settings.Contrast}, p.Settings.Look(), p.SetLook)),
		widget.NewFormItem("Labels of links", list([]string{settings.NameAndMargin, settings.NameAlone, settings.NameMarginRun}, p.Settings.Labels(), func(content string) {
			p.Settings.SetLabels(content)
			p.LabelsChanged()
		})),
		widget.NewFormItem("Dragging", tick("snaps to half a metre or a foot", p.Settings.Snap(), p.Settings.SetSnap)),
		widget.NewFormItem("Patch", tick("channels stay with inputs that move", p.Settings.ChannelsFollow(), p.Settings.SetChannelsFollow)),
		widget.NewFormItem("What is shown", dialogs.NewAnswer(p, "Choose…   F7", func() { p.Keys().GiveUp(); p.AskShown() })),
	)
}

// show brings the form up to how new plans begin now.
func (d *settingsDialog) show() { d.form.Set(text.TemplateForm(assess.Of(d.fresh), d.Units())) }

// change makes one change to how new plans begin.
func (d *settingsDialog) change(_ string, edit func(*plan.Edit) error) error {
	next, err := plan.Do(d.fresh, d.ids, edit)
	if err != nil {
		return err
	}
	d.fresh = next
	d.show()
	return files.KeepTemplate(d.Settings, next)
}
