package stock

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/fields"
	"stageloom/ui/dialogs"
)

// described is a row of a dialog for a field of the plan: its name and its help are those of the card and the tables.
func described(table, id string, widgetOf fyne.CanvasObject) *widget.FormItem {
	f := fields.Of(table, id)
	row := widget.NewFormItem(f.Name, widgetOf)
	row.HintText = f.Help
	return row
}

// chooserOf is a list of what a field may be, in its words.
func (s *Dialogs) chooserOf(table, id string, row any) *dialogs.Chooser {
	var words []string
	for _, option := range fields.Of(table, id).Options(fields.On(s.Desk().Plan(), nil, s.Units()), row) {
		words = append(words, option.Words)
	}
	return dialogs.NewChooser(s, words, nil)
}
