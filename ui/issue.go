package ui

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// issue asks for the letter of a revision and a line on it, and issues the plan as that: prints then say what changed
// since.
func (w *window) issue() {
	letter, note := w.newField(), w.newField()
	letter.SetText(nextLetter(w.desk.Plan()))
	note.SetPlaceHolder("why, in a line")
	trouble := widget.NewLabel("")
	trouble.Wrapping, trouble.Importance = fyne.TextWrapWord, widget.DangerImportance
	told := widget.NewLabel("The plan keeps what it was at each revision. Prints begin with what changed since the one before.")
	told.Wrapping = fyne.TextWrapWord
	form := widget.NewForm(widget.NewFormItem("Revision", letter), widget.NewFormItem("Note", note))
	d := dialog.NewCustomWithoutButtons("Issue a revision", container.NewVBox(told, form, trouble), w.window)
	take := func() {
		name := strings.TrimSpace(letter.Text)
		if reason := unfitLetter(w.desk.Plan(), name); reason != "" {
			trouble.SetText(reason)
			return
		}
		d.Hide()
		w.do("Issue revision "+name, func(e *plan.Edit) error {
			return planfile.Issue(e, name, time.Now().Format(time.DateOnly), strings.TrimSpace(note.Text))
		})
	}
	letter.OnSubmitted = func(string) { take() }
	note.OnSubmitted = func(string) { take() }
	keep := widget.NewButton("Issue", take)
	keep.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", d.Hide), keep})
	d.Resize(fyne.NewSize(520, 260))
	w.escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(letter)
}

// unfitLetter says why a revision cannot bear a letter.
func unfitLetter(p *plan.Plan, letter string) string {
	if letter == "" {
		return "Give the revision a letter."
	}
	for issued := range p.Revisions.All() {
		if issued.Letter == letter {
			return "Revision " + letter + " was issued already, on " + issued.Date + ". Take another letter."
		}
	}
	return ""
}

// nextLetter is the plan's own letter while that is not issued, else the one after the last: A, B … Z, AA, AB ….
func nextLetter(p *plan.Plan) string {
	letter := p.Settings.Revision
	if letter == "" {
		letter = "A"
	}
	for unfitLetter(p, letter) != "" {
		letter = after(letter)
	}
	return letter
}

// after is the letter that follows; what is no capital gets an A behind it.
func after(letter string) string {
	last := letter[len(letter)-1]
	switch {
	case last >= 'A' && last < 'Z':
		return letter[:len(letter)-1] + string(last+1)
	case last == 'Z' && len(letter) == 1:
		return "AA"
	case last == 'Z':
		return after(letter[:len(letter)-1]) + "A"
	}
	return letter + "A"
}
