package ui

import (
	"stageloom/model/plan"
	"stageloom/ui/look"
)

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

func (w *window) selection() []plan.Ref { return w.desk.Selection() }
