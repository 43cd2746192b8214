package laying

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// AddSpare lays a spare beside the selected link: it has no cable yet, holds no port and carries nothing.
func (l *Dialogs) AddSpare() {
	links := l.Desk().SelectedLinks()
	if len(links) != 1 {
		l.Say("Select the one link that a spare is to be laid for.")
		return
	}
	var id plan.LinkID
	l.Do("Lay a spare beside "+l.names(links...), func(e *plan.Edit) (err error) {
		id, err = e.AddSpare(links[0])
		return err
	})
	if spare, made := l.Desk().Plan().Link(id); made {
		l.Desk().Select(plan.RefOf(spare))
		l.Say(fmt.Sprintf("%s is a spare beside %s, without cable yet: it is plugged in nowhere until it takes over.", spare.Name, l.names(links...)))
	}
}

// MakeSpare makes the selected link a laid spare.
func (l *Dialogs) MakeSpare() {
	links := l.Desk().SelectedLinks()
	if len(links) != 1 {
		l.Say("Select the one link that is to be a laid spare.")
		return
	}
	l.Do("Make "+l.names(links...)+" a laid spare", func(e *plan.Edit) error { return e.MakeSpare(links[0]) })
}

// AskTakeOver asks which laid spare takes over the selected link, and says before what follows.
func (l *Dialogs) AskTakeOver() {
	l.askSpareFor("Select the one link that carries nothing any more.", spareQuestion{
		title: "A laid spare takes over %s", button: "Take over", words: takeOverWords, act: l.takeOver,
	})
}

// AskTurnBack asks which laid spare a link took over that is to get its own cables back, and says before what follows.
func (l *Dialogs) AskTurnBack() {
	l.askSpareFor("Select the one link whose take-over is to be turned back.", spareQuestion{
		title: "%s goes back to its own cables", button: "Turn back", words: turnBackWords, act: l.turnBack,
	})
}

// spareQuestion is a question about a link and a laid spare that could change places with it.
type spareQuestion struct {
	title, button string
	words         func(*plan.Plan, plan.Link) string
	act           func(link, spare plan.Link)
}

func (l *Dialogs) askSpareFor(unselected string, q spareQuestion) {
	links := l.Desk().SelectedLinks()
	if len(links) != 1 {
		l.Say(unselected)
		return
	}
	p := l.Desk().Plan()
	link, _ := p.Link(links[0])
	spares := p.SparesFor(link.ID)
	if len(spares) == 0 {
		l.Say(fmt.Sprintf("No laid spare with cable lies between the ends of %s, or between their positions.", link.Name))
		return
	}
	names := make([]string, len(spares))
	for i, spare := range spares {
		names[i] = spareLine(p, spare)
	}
	which := dialogs.NewChooser(l, names, nil)
	which.SetSelectedIndex(0)
	told := widget.NewLabel(q.words(p, link))
	told.Wrapping = fyne.TextWrapWord
	d := dialogs.New(l, fmt.Sprintf(q.title, link.Name), container.NewBorder(widget.NewForm(widget.NewFormItem("Spare", which)), nil, nil, nil, told))
	over := func() {
		d.Hide()
		q.act(link, spares[max(0, which.SelectedIndex())])
	}
	take := dialogs.NewAnswer(l, q.button, over)
	take.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(l, "Cancel", d.Hide), take})
	d.Fit(dialogs.FormWidth, 0)
	l.Keys().Escapable(d.Hide)
	d.Show()
	l.Keys().Submits(over)
	dialogs.Focus(l, which)
}

// spareLine is a laid spare as one line: its cables, what is done of it, and the link that it is named to.
func spareLine(p *plan.Plan, spare plan.Link) string {
	line := spare.Name + ", " + cabling.Words(p, p.SegmentsOf(spare.ID))
	if spare.Done != "" {
		line += ", " + spare.Done
	}
	if named, found := p.Link(spare.StandsFor); found {
		line += ", for " + named.Name
	}
	return line
}

// takeOverWords says what a take-over does to the dead cables.
func takeOverWords(p *plan.Plan, dead plan.Link) string {
	chain := p.SegmentsOf(dead.ID)
	said := []string{fmt.Sprintf("%s keeps its name, ports and patch and goes on over the spare's cables: plug them in, then test.", dead.Name)}
	switch len(chain) {
	case 0:
		said = append(said, "It has no cable itself.")
	case 1:
		said = append(said, cabling.Words(p, chain)+" becomes the spare, marked faulty.")
	default:
		said = append(said, "Its own cables, "+cabling.Words(p, chain)+", become the spare, each marked suspect until the bad one is found.")
	}
	return strings.Join(said, " ")
}

func (l *Dialogs) takeOver(dead, spare plan.Link) {
	name := spare.Name + " takes over " + dead.Name
	err := l.Desk().DoAnyway(name, func(e *plan.Edit) error { // what follows was named in the question
		return e.TakeOver(dead.ID, spare.ID, plan.Mark{FoundAt: dead.Name, FoundOn: text.Today()})
	})
	if err != nil {
		l.Refused(err)
		return
	}
	l.Desk().Select(plan.RefOf(dead))
	l.Say(fmt.Sprintf("%s lies on the cables of the spare: plug both ends in and test it. Ctrl Z takes it back.", dead.Name))
}

// turnBackWords says what turning a take-over back does.
func turnBackWords(p *plan.Plan, link plan.Link) string {
	return fmt.Sprintf("%s keeps its name, ports and patch and goes back to the cables of the spare; those that it lies on now, %s, become the spare again. "+
		"Cables that are marked suspect or faulty stay marked: test them, then mark them good.", link.Name, cabling.Words(p, p.SegmentsOf(link.ID)))
}

func (l *Dialogs) turnBack(link, spare plan.Link) {
	err := l.Desk().DoAnyway("Turn back the take-over of "+link.Name, func(e *plan.Edit) error { // what follows was named in the question
		return e.TurnBack(link.ID, spare.ID)
	})
	if err != nil {
		l.Refused(err)
		return
	}
	l.Desk().Select(plan.RefOf(link))
	l.Say(fmt.Sprintf("%s lies on its own cables again: plug both ends in and test it. Ctrl Z takes it back.", link.Name))
}
