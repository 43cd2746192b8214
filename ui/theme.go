package ui

import (
	"stageloom/model/plan"
	"stageloom/ui/look"
	"stageloom/ui/planview"
)

// applyTheme sets the palette that the settings name, for widgets and plan alike.
func (w *window) applyTheme() {
	w.palette = look.PaletteNamed(w.settings.Look())
	w.app.Settings().SetTheme(look.NewTheme(w.palette))
	planLook, err := planview.NewLook(w.palette)
	if err != nil {
		panic("the fonts built into the program cannot be read: " + err.Error())
	}
	w.look = planLook
}

// setLook changes the palette of the whole window.
func (w *window) setLook(name string) {
	w.settings.SetLook(name)
	w.applyTheme()
	w.plan.SetLook(w.look)
	w.overview.SetLook(w.look)
	w.card.Rebuild()
	w.showSelection()
	w.window.SetMainMenu(w.menu())
}

func (w *window) selection() []plan.Ref { return w.desk.Selection() }
