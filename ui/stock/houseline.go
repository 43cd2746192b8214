package stock

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// lineDialog makes a house line: what the venue calls it, of which kind and how long it is. Nobody else knows.
type lineDialog struct {
	*Dialogs
	dialog       *dialogs.Dialog
	kinds        []plan.CableKind
	kind         *dialogs.Chooser
	name, length *dialogs.Entry
	told         *widget.Label
	made         func(plan.Ref)
}

// AskHouseLine asks for a new house line and tells made which it is; from a link, where one is given, it takes a guess, and
// says so.
func (s *Dialogs) AskHouseLine(link plan.LinkID, made func(plan.Ref)) {
	from := text.NewLineFrom(s.Desk().Plan(), link, s.Units())
	d := &lineDialog{Dialogs: s, kinds: catalogue.CableKindsFor(s.Desk().Plan()), name: dialogs.NewEntry(s), length: dialogs.NewEntry(s), made: made}
	slices.SortFunc(d.kinds, func(a, b plan.CableKind) int { return strings.Compare(a.Name, b.Name) })
	names := make([]string, len(d.kinds))
	for i, kind := range d.kinds {
		names[i] = kind.Name
	}
	d.kind = dialogs.NewChooser(s, names, nil)
	if at := slices.IndexFunc(d.kinds, func(k plan.CableKind) bool { return k.ID == from.Kind }); at >= 0 {
		d.kind.SetSelectedIndex(at)
	}
	d.name.SetText(from.Name)
	d.length.SetText(from.Length)
	d.name.OnSubmitted, d.length.OnSubmitted = func(string) { d.take() }, func(string) { d.take() }
	d.told = widget.NewLabel("Ask the venue for its kind and its length, or measure it.")
	if from.Guess != "" {
		d.told.SetText(from.Guess)
	}
	d.show()
}

func (d *lineDialog) show() {
	content := container.NewBorder(nil, dialogs.RoomFor(d.told, 2), nil, nil, widget.NewForm(
		described(plan.HouseLinesTable, "name", d.name), described(plan.HouseLinesTable, "kind", d.kind), described(plan.HouseLinesTable, "length", d.length),
	))
	d.dialog = dialogs.New(d, "New house line", content)
	button := dialogs.NewAnswer(d, "Make it", d.take)
	button.Importance = widget.HighImportance
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(d, "Cancel", d.dialog.Hide), button})
	d.dialog.Fit(dialogs.FormWidth, 0)
	d.Keys().Escapable(d.dialog.Hide)
	d.dialog.Show()
	dialogs.Focus(d, d.name)
}

// take makes the line, or says what is missing.
func (d *lineDialog) take() {
	typed := text.NewLine{Name: d.name.Text, Length: d.length.Text}
	if at := d.kind.SelectedIndex(); at >= 0 {
		typed.Kind = d.kinds[at].ID
	}
	line, err := typed.Line(d.Units())
	var id plan.HouseLineID
	if err == nil {
		err = d.Desk().Do("New house line "+line.Name, func(e *plan.Edit) error {
			if err := catalogue.UseCable(e, line.Kind); err != nil {
				return err
			}
			id = e.AddHouseLine(line)
			return nil
		})
	}
	if err != nil {
		d.told.Importance = widget.DangerImportance
		d.told.SetText(words.Sentence(err))
		return
	}
	d.dialog.Hide()
	d.made(plan.Ref{Table: plan.HouseLinesTable, Key: plan.Key(id)})
}
