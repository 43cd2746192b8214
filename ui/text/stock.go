package text

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// StockRow is a line of the stock list: the head of a group, all cables of one kind and length, or, while something is looked
// for, one reel.
type StockRow struct {
	// Head is set on the head of a group alone: the name of a kind, or of the faulty ones.
	Head string
	// Name is the length, or the reel's tag; Note is what is left, or where the reel lies.
	Name, Note string
	Kind       plan.CableKindID
	Length     float64
	// Fraction is what is left of what there is, "1/3"; blank where single reels are listed. Suspect is how many are.
	Fraction string
	Suspect  int
	// Reels are the rows of the stock behind this line, those that are laid first in front.
	Reels []plan.ReelID
	// Free is the reel that is laid next; blank where none is left.
	Free plan.ReelID
	// Count and Left are how many there are and how many no link holds.
	Count, Left int
	Faulty      bool
	// House is how many of them the show has of the house's stock, Lacking how many of those the house does not let it have.
	House, Lacking int
	// Away says why not all of them are there, as the end of a sentence; blank where they are.
	Away string
}

// Offer is what the row holds out to be laid: its next free reel. It is false where none is left.
func (r StockRow) Offer() (CableOffer, bool) {
	return CableOffer{Reel: r.Free, Kind: r.Kind, Length: r.Length}, r.Free != ""
}

// faultyHead is over the reels that are kept out of the show.
const faultyHead = "Faulty, kept out"

// StockOf lists the stock by kind, the longest first, with what is left of what there is; faulty ones stand apart at the end. A
// query lists the single reels whose tag, kind, length, case or owner hold all its words.
func StockOf(p *plan.Plan, query string, units words.Units) []StockRow {
	used := p.UsedReels()
	var rows, faulty []StockRow
	for _, reel := range laidFirst(p, used) {
		row := reelRow(p, reel, used[reel.ID], units)
		switch {
		case query != "" && !matches(query, reelTexts(p, reel, units)...):
		case reel.Condition == plan.Faulty:
			row.Faulty, row.Free, row.Left = true, "", 0
			row.Name = strings.TrimSpace(kindName(p, reel.Kind) + " " + units.Piece(reel.Length))
			row.Note = cmp.Or(reel.Tag, times(reel.Count())) + row.houseWords()
			faulty = append(faulty, row)
		case query != "":
			rows = append(rows, row)
		default:
			rows = gathered(rows, row, reel)
		}
	}
	for i := range rows {
		if query == "" {
			rows[i].Name = units.Piece(rows[i].Length)
			rows[i].Fraction = fmt.Sprintf("%d/%d", rows[i].Left, rows[i].Count)
			rows[i].Note, rows[i].Suspect = leftWords(p, rows[i])
		}
	}
	rows = underHeads(p, rows)
	if len(faulty) > 0 {
		rows = append(append(rows, StockRow{Head: faultyHead}), faulty...)
	}
	return rows
}

// laidFirst is the stock by kind, longest first; of equal ones the free good ones come first, then by tag.
func laidFirst(p *plan.Plan, used map[plan.ReelID]int) []plan.Reel {
	rank := func(reel plan.Reel) int {
		switch {
		case used[reel.ID] >= reel.There():
			return 2
		case reel.Condition == plan.Suspect:
			return 1
		}
		return 0
	}
	return slices.SortedFunc(p.Reels.All(), func(a, b plan.Reel) int {
		return cmp.Or(cmp.Compare(kindName(p, a.Kind), kindName(p, b.Kind)), cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length),
			cmp.Compare(rank(a), rank(b)), cmp.Compare(a.Tag, b.Tag), cmp.Compare(a.ID, b.ID))
	})
}

// reelRow is one reel as a line.
func reelRow(p *plan.Plan, reel plan.Reel, used int, units words.Units) StockRow {
	row := StockRow{
		Name: cmp.Or(reel.Tag, times(reel.Count())), Kind: reel.Kind, Length: reel.Length, Reels: []plan.ReelID{reel.ID},
		Count: reel.Count(), Left: max(0, reel.There()-used), Away: reel.AwayWords(),
	}
	if row.Left > 0 {
		row.Free = reel.ID
	}
	row.House, row.Lacking = ofHouse(reel)
	row.Note = units.Piece(reel.Length)
	switch {
	case reel.Count() > 1:
		row.Note += fmt.Sprintf(", %d left", row.Left) + notThere(reel.Count()-reel.There()-row.Lacking)
	case row.Away != "" && row.Lacking == 0:
		row.Note += ", " + row.Away
	case used > 0:
		row.Note += ", in " + linkHolding(p, reel.ID)
	}
	if reel.Condition == plan.Suspect {
		row.Note += ", suspect"
	}
	row.Note += row.houseWords()
	return row
}

// gathered adds a reel to the line of its kind and length.
func gathered(rows []StockRow, row StockRow, reel plan.Reel) []StockRow {
	if last := len(rows) - 1; last >= 0 && rows[last].Kind == reel.Kind && rows[last].Length == reel.Length {
		rows[last].Reels = append(rows[last].Reels, reel.ID)
		rows[last].Count += row.Count
		rows[last].Left += row.Left
		rows[last].House += row.House
		rows[last].Lacking += row.Lacking
		rows[last].Away = cmp.Or(rows[last].Away, row.Away)
		rows[last].Free = cmp.Or(rows[last].Free, row.Free)
		return rows
	}
	return append(rows, row)
}

// leftWords are "3 of 12 left", with how many of the stock are suspect and how many not there.
func leftWords(p *plan.Plan, row StockRow) (words string, suspect int) {
	away := 0
	for _, id := range row.Reels {
		reel, _ := p.Reels.Get(plan.Key(id))
		if reel.Condition == plan.Suspect {
			suspect += reel.Count()
		}
		away += reel.Count() - reel.There()
	}
	words = fmt.Sprintf("%d of %d left", row.Left, row.Count)
	if suspect > 0 {
		words += fmt.Sprintf(", %d suspect", suspect)
	}
	return words + notThere(away-row.Lacking) + row.houseWords(), suspect
}

// SuspectWords are how many of a line are suspect, blank where none is or its note says so.
func (r StockRow) SuspectWords() string {
	if r.Suspect == 0 {
		return ""
	}
	return fmt.Sprintf("%d suspect", r.Suspect)
}

// Beside is what of the note stands beside the count and the suspect ones.
func (r StockRow) Beside() string {
	if r.Fraction == "" {
		return r.Note
	}
	note := strings.TrimPrefix(r.Note, fmt.Sprintf("%d of %d left", r.Left, r.Count))
	if r.Suspect > 0 {
		note = strings.TrimPrefix(note, ", "+r.SuspectWords())
	}
	return strings.TrimPrefix(note, ", ")
}

// notThere says how many of a line are not there, blank for none.
func notThere(count int) string {
	if count == 0 {
		return ""
	}
	return fmt.Sprintf(", %d not there", count)
}

// underHeads puts the name of each kind over its lines.
func underHeads(p *plan.Plan, rows []StockRow) (headed []StockRow) {
	last := plan.CableKindID("")
	for _, row := range rows {
		if row.Kind != last {
			headed = append(headed, StockRow{Head: kindName(p, row.Kind)})
			last = row.Kind
		}
		headed = append(headed, row)
	}
	return headed
}

func kindName(p *plan.Plan, id plan.CableKindID) string {
	kind, _ := p.CableKinds.Get(plan.Key(id))
	return cmp.Or(kind.Name, string(id))
}

func times(count int) string {
	if count == 1 {
		return "no tag"
	}
	return fmt.Sprintf("%d ×", count)
}

func linkHolding(p *plan.Plan, id plan.ReelID) string {
	for segment := range p.Segments.All() {
		if segment.Reel == id {
			link, _ := p.Link(segment.Link)
			return link.Name
		}
	}
	return ""
}

// reelTexts are what a reel is found by.
func reelTexts(p *plan.Plan, reel plan.Reel, units words.Units) []string {
	box, _ := p.Cases.Get(plan.Key(reel.Case))
	return []string{reel.Tag, kindName(p, reel.Kind), units.Piece(reel.Length), box.Name, reel.Owner, reel.Hire, reel.Condition}
}

// ReelWords is a reel in one line: tag or quantity, length, kind, case, and what is wrong with it.
func ReelWords(p *plan.Plan, reel plan.Reel, units words.Units) string {
	parts := []string{fmt.Sprintf("%d × %s", reel.Count(), units.Piece(reel.Length)), kindName(p, reel.Kind)}
	if reel.Tag != "" {
		parts = []string{reel.Tag, units.Piece(reel.Length), kindName(p, reel.Kind)}
	}
	if box, found := p.Cases.Get(plan.Key(reel.Case)); found {
		parts = append(parts, box.Name)
	}
	if reel.Condition == plan.Suspect || reel.Condition == plan.Faulty {
		parts = append(parts, reel.Condition)
	}
	return strings.Join(parts, " · ")
}
