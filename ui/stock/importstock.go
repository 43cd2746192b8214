package stock

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/exchange"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// ofColumn is what the house remembers columns for: by their heads.
const ofColumn = "column"

// stockQuestions are what is asked about the words and the columns of a stock list, and what was answered.
type stockQuestions struct {
	// means is what words mean as answered, remembered as the house had it when the dialog opened.
	means, remembered map[exchange.Said]string
	// shown names what is asked at the moment.
	shown []string
	// questions are the lists of answers that are shown, in their order.
	questions []*dialogs.Chooser
	more      *dialogs.Check
}

// newStockQuestions begins with what the house remembers; where that cannot be read the notice says why.
func (d *importDialog) newStockQuestions() stockQuestions {
	q := stockQuestions{means: map[exchange.Said]string{}, remembered: map[exchange.Said]string{}}
	remembered, err := d.Library().Words()
	if err != nil {
		d.Warn(words.Sentence(err))
	}
	for _, word := range remembered {
		q.remembered[exchange.Said{For: word.For, Word: word.Word}] = word.Means
		gone := word.For == exchange.OfKind && !slices.ContainsFunc(d.kinds, func(kind plan.CableKind) bool { return string(kind.ID) == word.Means })
		if word.For != ofColumn && !gone {
			q.means[exchange.Said{For: word.For, Word: word.Word}] = word.Means
		}
	}
	q.more = dialogs.NewCheck(d, "cables without a tag that the stock has alike are more of them", false, func(bool) { d.reckon() })
	return q
}

// reckonReels reads a stock list as the choices have it, asks about what is not known, and says what comes of it.
func (d *importDialog) reckonReels(grid exchange.Grid) {
	now := d.place.now()
	options := exchange.Options{Bare: d.Units().Length, Kinds: d.kinds, Owners: ownersOf(now)}
	if at := d.kind.SelectedIndex(); at > 0 {
		options.Blank = d.kinds[at-1].ID
	}
	unknown, unread := exchange.ReadStock(grid, d.layout, options).Unknown, exchange.UnreadOf(grid, d.layout)
	d.answerLikely(unknown)
	options.Means = d.asked.means
	list := exchange.ReadStock(grid, d.layout, options)
	update := list.Against(now, d.Units(), false)
	more := d.askMore(update)
	if more {
		update = list.Against(now, d.Units(), true)
	}
	d.askStock(unknown, unread, len(list.Unknown))
	d.add = func(e *plan.Edit, goodOnly bool) error {
		if goodOnly {
			update.New = update.New.GoodOnly()
		}
		return update.Add(e, useCable)
	}
	d.conclude(text.StockSummary(list, d.kinds, d.Units()), len(list.Rows), list.Faults)
	d.tellStock(list, update, unread)
}

// ownersOf are the owners that a stock names, beside the house.
func ownersOf(p *plan.Plan) (owners []string) {
	for reel := range p.Reels.All() {
		if reel.Owner != "" && reel.Owner != plan.OfTheHouse && !slices.Contains(owners, reel.Owner) {
			owners = append(owners, reel.Owner)
		}
	}
	return owners
}

// answerLikely answers words by which everybody calls himself, such as "us"; the answer is shown and can be changed.
func (d *importDialog) answerLikely(unknown []exchange.Unknown) {
	for _, u := range unknown {
		if _, answered := d.asked.means[u.Said]; !answered && u.Likely != "" {
			d.asked.means[u.Said] = u.Likely
		}
	}
}

// askMore asks whether cables without a tag are more of those that the stock has, where it has such.
func (d *importDialog) askMore(u exchange.Update) bool {
	untagged := u.Alike > 0 || slices.ContainsFunc(u.Changed, func(c exchange.ReelChange) bool { return c.Untagged() })
	if !untagged {
		d.asked.more.Hide()
		return false
	}
	d.asked.more.Show()
	return d.asked.more.Checked
}

// tellStock says beside faults what the list changes and what of it is not taken, and takes nothing before all is answered.
func (d *importDialog) tellStock(list exchange.Stock, u exchange.Update, unread []exchange.Unread) {
	d.aside.SetText(strings.TrimSpace(text.UpdateChangesTold(u, mostFaults) + "\n\n" + text.FaultsTold(list.Told, mostFaults)))
	if told := text.UpdateTold(u); told != "" {
		d.told.SetText(d.told.Text + " " + told)
		if len(u.Changed)+len(u.New.Rows) == 0 {
			d.all.Disable()
			d.good.Disable()
		}
	}
	open := len(list.Unknown)
	for _, column := range unread {
		if column.Likely != "" {
			open++
		}
	}
	if open > 0 {
		d.told.SetText(words.Counted(open, "thing of the list is", "things of the list are") + " to be answered first, below. " + d.told.Text)
		d.all.Disable()
		d.good.Disable()
	}
}

// askStock shows a question for each word and for each column that is not read; what was answered stays answered and can be
// changed. The form is made anew where other things are asked, so that it keeps the keys while one answers.
func (d *importDialog) askStock(unknown []exchange.Unknown, unread []exchange.Unread, unanswered int) {
	first := d.firstAsked(unknown, unanswered)
	var shown []string
	for _, u := range first {
		shown = append(shown, fmt.Sprint(u.Said, u.Rows))
	}
	for _, column := range unread {
		shown = append(shown, text.UnreadTold(column))
	}
	if slices.Equal(shown, d.asked.shown) && len(shown) > 0 {
		return
	}
	d.words, d.asked.shown, d.asked.questions = nil, shown, nil
	d.words2kinds.RemoveAll()
	form := widget.NewForm()
	d.filling = true
	for _, u := range first {
		question := text.StockQuestionOf(u, d.kinds)
		d.ask(form, question.Label, d.answerTo(question))
	}
	for _, column := range unread {
		d.ask(form, text.UnreadTold(column), d.answerOf(column))
	}
	d.filling = false
	if len(shown) > 0 {
		d.words2kinds.Add(form)
	}
	if len(first) > 1 {
		d.words2kinds.Add(container.NewHBox(dialogs.NewAnswer(d, "Leave out the rows of all words that are not answered", func() { d.leaveOut(unknown) })))
	}
	d.words2kinds.Add(d.asked.more)
	d.words2kinds.Refresh()
}

// ask adds a question; Enter on its answer goes to the next that has none.
func (d *importDialog) ask(form *widget.Form, label string, answers *dialogs.Chooser) {
	answers.Enter = d.toAsked
	d.asked.questions = append(d.asked.questions, answers)
	form.AppendItem(widget.NewFormItem(label, answers))
}

// firstAsked are the words that are asked about at a time: all where they are few, else those that have no answer yet.
func (d *importDialog) firstAsked(unknown []exchange.Unknown, unanswered int) []exchange.Unknown {
	if len(unknown) <= mostWords || unanswered == 0 {
		return unknown[:min(len(unknown), mostWords)]
	}
	var first []exchange.Unknown
	for _, u := range unknown {
		if _, answered := d.asked.means[u.Said]; !answered && len(first) < mostWords {
			first = append(first, u)
		}
	}
	return first
}

// answerTo is the list of what a word can mean.
func (d *importDialog) answerTo(question text.StockQuestion) *dialogs.Chooser {
	names := []string{text.Unanswered}
	at := 0
	for i, answer := range question.Answers {
		names = append(names, answer.Words)
		if answer.Value == d.asked.means[question.Said] {
			at = i + 1
		}
	}
	means := dialogs.NewChooser(d, names, nil)
	means.SetSelectedIndex(at)
	means.OnChanged = func(string) {
		delete(d.asked.means, question.Said)
		if at := means.SelectedIndex(); at > 0 {
			d.asked.means[question.Said] = question.Answers[at-1].Value
		}
		d.reckon()
	}
	return means
}

// answerOf is the list of what can be done with a column that is not read. One that looks like something has to be answered.
func (d *importDialog) answerOf(column exchange.Unread) *dialogs.Chooser {
	names := []string{text.NotRead, exchange.IntoNote}
	if column.Likely != "" {
		names = []string{text.Unanswered, "read it as " + strings.ToLower(column.Likely), exchange.IntoNote, text.NotRead}
	}
	answer := dialogs.NewChooser(d, names, nil)
	answer.SetSelectedIndex(0)
	answer.OnChanged = func(said string) {
		switch said {
		case text.Unanswered:
			return
		case text.NotRead, exchange.IntoNote:
		default:
			said = column.Likely
		}
		d.mean(column.Column, said)
		d.show()
	}
	return answer
}

// leaveOut leaves the rows of all words out that nobody answered.
func (d *importDialog) leaveOut(unknown []exchange.Unknown) {
	for _, u := range unknown {
		if _, answered := d.asked.means[u.Said]; !answered {
			d.asked.means[u.Said] = exchange.LeaveOut
		}
	}
	d.asked.shown = nil
	d.reckon()
}

// remember keeps for the house what the words and the columns of the list mean; rows are left out once.
func (d *importDialog) remember() {
	if d.holds.Selected != holdsReels {
		return
	}
	var said []house.Word
	for word, means := range d.asked.means {
		if means != exchange.LeaveOut && d.asked.remembered[word] != means {
			said = append(said, house.Word{For: word.For, Word: word.Word, Means: means})
		}
	}
	for head, means := range d.kept.heads {
		if key := exchange.SaidOf(ofColumn, head); d.asked.remembered[key] != means {
			said = append(said, house.Word{For: key.For, Word: key.Word, Means: means})
		}
	}
	if err := d.Library().Remember(said...); err != nil {
		d.Warn(words.Sentence(err))
	}
}
