package ui

import (
	"stageloom/model/desk"
	"stageloom/model/picture"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/look"
	"stageloom/ui/preferences"
	"stageloom/ui/settings"
)

// newPreferences hands the dialogs of the preferences what they ask of the window.
func (w *window) newPreferences() *preferences.Dialogs {
	return &preferences.Dialogs{
		Host: w, Settings: w.settings, SetLook: w.setLook, LabelsChanged: w.applyLabels, Draw: w.plan.SetLeftOut,
		Changed: w.unitsChanged,
		Leave:   func() { w.window.Canvas().Focus(w.plan) },
	}
}

// applyTheme sets the palette that the settings name, for widgets and plan alike.
func (w *window) applyTheme() {
	w.palette = look.PaletteNamed(w.settings.Look())
	w.app.Settings().SetTheme(look.NewTheme(w.palette))
	w.inks = look.NewInks(w.palette)
}

// setLook changes the palette of the whole window.
func (w *window) setLook(name string) {
	w.settings.SetLook(name)
	w.applyTheme()
	w.plan.SetInks(w.inks)
	w.overview.SetInks(w.inks)
	w.card.Rebuild()
	w.card.Form.Rebuild()
	w.showSelection()
	w.window.SetMainMenu(w.menu())
}

// applyLabels lets the labels of links say what the user wants.
func (w *window) applyLabels() {
	w.plan.SetContent(map[string]picture.Content{
		settings.NameAndMargin: picture.NameAndMargin, settings.NameAlone: picture.NameAlone, settings.NameMarginRun: picture.NameMarginRun,
	}[w.settings.Labels()])
}

// unitsChanged shows everything in the units that were chosen, and drags as chosen.
func (w *window) unitsChanged() {
	w.applyUnits()
	w.window.SetMainMenu(w.menu())
}

func (w *window) units() words.Units {
	u := words.Units{}
	if w.settings.Length() == settings.Feet {
		u.Length = quantity.Imperial
	}
	if w.settings.Temperature() == settings.Fahrenheit {
		u.Temperature = quantity.Imperial
	}
	return u
}

// feet is the length of a foot in metres.
const foot = 0.3048

func (w *window) applyUnits() {
	unit, name, step := 1.0, "m", 0.5
	if w.settings.Length() == settings.Feet {
		unit, name, step = foot, "ft", foot
	}
	if !w.settings.Snap() {
		step = 0
	}
	w.plan.SetUnit(unit, name)
	w.plan.SetSnap(step)
	w.stock.Set(w.desk.Plan(), w.units())
	w.drawer.Outdate()
	w.drawer.Refresh(desk.Event{})
	w.showSelection()
	w.day.Set(w.desk.Assessment(), w.units())
}
