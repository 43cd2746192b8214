package printing

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/revision"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// Issue says how the plan stands to its revisions and what changed since the last one, asks for the letter of the next and a
// line on it, and issues the plan as that. The date of the issue is today's; that of the show stays.
func (p *Dialogs) Issue() {
	letter, note := dialogs.NewEntry(p), dialogs.NewEntry(p)
	letter.SetText(nextLetter(p.Desk().Plan()))
	note.SetPlaceHolder("why, in a line")
	trouble := widget.NewLabel("")
	trouble.Wrapping, trouble.Importance = fyne.TextWrapWord, widget.DangerImportance
	told := p.revisionsTold()
	form := widget.NewForm(widget.NewFormItem("Next revision", letter), widget.NewFormItem("Note", note))
	d := dialogs.New(p, "Issue a revision", container.NewBorder(nil, container.NewVBox(form, trouble), nil, nil, told))
	take := func() {
		name := strings.TrimSpace(letter.Text)
		if reason := unfitLetter(p.Desk().Plan(), name); reason != "" {
			trouble.SetText(reason)
			return
		}
		d.Hide()
		p.Do("Issue revision "+name, func(e *plan.Edit) error {
			return planfile.Issue(e, name, text.Today(), strings.TrimSpace(note.Text))
		})
	}
	letter.OnSubmitted = func(string) { take() }
	note.OnSubmitted = func(string) { take() }
	keep := dialogs.NewAnswer(p, "Issue", take)
	keep.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(p, "Cancel", d.Hide), keep})
	d.Fit(dialogs.FormWidth, issueHeight)
	p.Keys().Escapable(d.Hide)
	d.Show()
	dialogs.Focus(p, letter)
}

// Size of the dialog in units of the window, beyond which it doesn't grow.
const (
	issueWidth  = 640
	issueHeight = 520
)

// revisionsTold shows how the plan stands to its revisions, what changed since the last, and which were issued.
func (p *Dialogs) revisionsTold() fyne.CanvasObject {
	said, err := text.RevisionsOf(p.Desk().Assessment(), p.Units())
	if err != nil {
		return wrapped(words.Sentence(err), fyne.TextStyle{})
	}
	rows := container.NewVBox(wrapped(said.Standing, fyne.TextStyle{}), wrapped(said.Heading, fyne.TextStyle{Bold: true}), wrapped(said.Lead, fyne.TextStyle{}))
	for _, change := range said.Changes {
		rows.Add(wrapped("– "+change, fyne.TextStyle{}))
	}
	if len(said.Issued) > 0 {
		rows.Add(wrapped("Revisions issued", fyne.TextStyle{Bold: true}))
	}
	for _, issued := range said.Issued {
		rows.Add(wrapped("– "+issued, fyne.TextStyle{}))
	}
	return container.NewVScroll(rows)
}

// wrapped is a label that breaks its words into lines.
func wrapped(text string, style fyne.TextStyle) *widget.Label {
	label := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, style)
	label.Wrapping = fyne.TextWrapWord
	return label
}

// unfitLetter says why a revision cannot bear a letter.
func unfitLetter(p *plan.Plan, letter string) string {
	if letter == "" {
		return "Give the revision a letter."
	}
	for issued := range p.Revisions.All() {
		if issued.Letter == letter {
			return "Revision " + letter + " was issued already" + onDate(issued.Date) + ". Take another letter."
		}
	}
	return ""
}

func onDate(date string) string {
	if date == "" {
		return ""
	}
	return ", on " + date
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

// issuedName is a file's name for what is handed out of a plan: a name and how the plan stands to its revisions, so that an
// issue and what was changed since never lie in one file.
func issuedName(p *plan.Plan, name string) string {
	return dialogs.FileName(name + " (" + revision.StandingOf(p).String() + ")")
}
