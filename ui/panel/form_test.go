package panel_test

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

var imperial = words.Units{Length: quantity.Imperial, Temperature: quantity.Imperial}

func TestTheFormAsMarkup(t *testing.T) {
	a := assess.Of(demo.Weekender())
	for name, selection := range map[string][]plan.Ref{
		"plan": nil, "link": {linkNamed(a.Plan, "L02")}, "device": {plan.RefOf(a.Plan.Devices.At(0))},
	} {
		t.Run(name, func(t *testing.T) {
			start(t)
			view := panel.NewFormView()
			w := show(t, view, 280, 700)
			view.Set(text.FormOf(a, selection, words.Units{}))
			test.AssertRendersToMarkup(t, "form-"+name+".xml", w.Canvas())
		})
	}
	t.Run("template", func(t *testing.T) {
		start(t)
		view := panel.NewFormView()
		w := show(t, view, 380, 700)
		view.Set(text.TemplateForm(assess.Of(plan.New("New plan")), imperial))
		test.AssertRendersToMarkup(t, "form-template.xml", w.Canvas())
	})
}
