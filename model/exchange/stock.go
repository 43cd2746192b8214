package exchange

import (
	"errors"
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/quantity"
)

// Options are what the cells of a stock list are read by.
type Options struct {
	// Bare is the system of lengths without a unit under a head that names none.
	Bare quantity.System
	// Kinds are the kinds of cable that words are looked for in.
	Kinds []plan.CableKind
	// Means tells what other words of the list mean: a kind's id, or what [Meanings] has. The keys are those of Stock.Unknown.
	Means map[Said]string
	// Owners are those that are known not to be the house.
	Owners []string
	// Blank is the kind of rows that name none; blank where they are faults.
	Blank plan.CableKindID
	// Taken reports whether a tag is in the stock already; nil for none, as where the list may bring rows of the stock up to date.
	Taken func(tag string) bool
}

// StockRow is one good row: the reels it stands for, without ids and cases, the name of their case and their last service.
type StockRow struct {
	Row     int
	Reels   []plan.Reel
	Case    string
	Service plan.Service
	// says are the fields of which the row says something.
	says map[string]bool
}

// Stock is a stock list as read: its good rows, why others are none, and the rows that are no cables.
type Stock struct {
	Rows   []StockRow
	Faults []Fault
	// Unknown are the words that somebody has to say the meaning of, in the order of the list, each once.
	Unknown []Unknown
	// Told are rows that are not taken and no faults: headings, lines above the column heads, what the user leaves out.
	Told []Fault

	kinds []plan.CableKind
}

// ReadStock reads the reels of a grid. A row with a fault is in Faults alone; blank rows are passed over.
func ReadStock(g Grid, l Layout, o Options) Stock {
	r := stockReader{
		sheetRows: sheetRows{table: plan.ReelsTable, grid: g, layout: l}, options: o, tags: map[string]int{},
		means: map[string]plan.CableKindID{}, asked: map[Said]int{},
	}
	if l.column(Length) < 0 {
		r.faults = []Fault{{Row: max(1, l.Head), Words: "no column is the length: say which one is"}}
		return Stock{Faults: r.faults}
	}
	if l.column(Kind) < 0 && o.Blank == "" && !r.kindsInLengths() {
		r.faults = []Fault{{Row: max(1, l.Head), Words: "no column is the kind of cable: say which one is, or what kind all of them are"}}
		return Stock{Faults: r.faults}
	}
	r.prepare()
	rows := r.rows()
	return Stock{Rows: rows, Faults: r.faults, Unknown: r.unknown, Told: r.told, kinds: o.Kinds}
}

// rows reads all rows, as many as a plan can hold.
func (r *stockReader) rows() (rows []StockRow) {
	total := 0
	r.tellOthers()
	r.each(func() {
		if r.heading() {
			return
		}
		row, good := r.row()
		if total += len(row.Reels); good && total > plan.MaxRows {
			r.fail("", fmt.Errorf("with this row there are more than %d reels", plan.MaxRows))
			return
		}
		if good {
			rows = append(rows, row)
		}
	})
	return rows
}

type stockReader struct {
	sheetRows
	options Options
	unknown []Unknown
	told    []Fault
	// tags holds the row in which each tag stands, means the kinds that words mean, asked the places of words in unknown.
	tags  map[string]int
	means map[string]plan.CableKindID
	asked map[Said]int
	// hired are owners of rows that have a hire reference or a return date; inUnits tells that some row has its length's unit
	// in a column.
	hired   map[string]bool
	inUnits bool
	// leave says why the user leaves the row at hand out, says what it says something of.
	leave string
	says  map[string]bool
}

// prepare looks over the whole list for what the reading of each row rests on.
func (r *stockReader) prepare() {
	r.hired = map[string]bool{}
	for _, owner := range r.options.Owners {
		r.hired[plan.Folded(owner)] = true
	}
	r.each(func() {
		if r.text(Hire) != "" || r.text(Return) != "" {
			r.hired[plan.Folded(r.text(Owner))] = true
		}
		if unit := r.text(Unit); unit != "" && !r.inUnits {
			meaning, known := unitNamed(unit)
			if !known {
				meaning = r.options.Means[SaidOf(OfUnit, unit)]
			}
			r.inUnits = meaning != "" && meaning != CountedIn && meaning != LeaveOut
		}
	})
}

// kindsInLengths reports whether kinds stand behind the lengths, as in "12 x 50 m Cat 6A".
func (r *stockReader) kindsInLengths() bool {
	for at := r.layout.Head; at < len(r.grid.Rows); at++ {
		if a, err := ReadAmount(r.grid.cell(at, r.layout.column(Length)), r.options.Bare); err == nil && a.Rest != "" {
			return true
		}
	}
	return false
}

// tellOthers tells of rows that hold something and are not looked at: above the heads, and in columns alone that are not read.
func (r *stockReader) tellOthers() {
	for row := range r.grid.Rows {
		switch cells := filledCells(r.grid, row); {
		case cells == 0 || row == r.layout.Head-1:
		case row < r.layout.Head:
			r.told = append(r.told, Fault{Row: row + 1, Words: fmt.Sprintf("%q stands above the column heads", plan.Clipped(firstCell(r.grid, row)))})
		case !r.holds(row):
			r.told = append(r.told, Fault{Row: row + 1, Words: fmt.Sprintf("%q stands in no column that is read", plan.Clipped(firstCell(r.grid, row)))})
		}
	}
}

func firstCell(g Grid, row int) string {
	for column := range g.Rows[row] {
		if cell := g.cell(row, column); cell != "" {
			return cell
		}
	}
	return ""
}

// heading tells of a row with words in one cell alone, which head the rows below it in many lists. The name of a kind in the
// column of kinds is none: its length may have been forgotten.
func (r *stockReader) heading() bool {
	if r.grid.Width() < 2 || filledCells(r.grid, r.at) != 1 {
		return false
	}
	words := firstCell(r.grid, r.at)
	_, err := ReadAmount(words, r.options.Bare)
	if err == nil || (r.text(Kind) != "" || r.text(Length) != "") && r.named(words) != "" {
		return false
	}
	r.told = append(r.told, Fault{Row: r.number(), Words: fmt.Sprintf("%q stands alone in its row: a heading, and no cable", plan.Clipped(words))})
	return true
}

// ask asks what a word of the row at hand means, and makes the row a fault until it is said.
func (r *stockReader) ask(field, asks, word, likely string) {
	key := SaidOf(asks, word)
	at, known := r.asked[key]
	if !known {
		at = len(r.unknown)
		r.asked[key] = at
		r.unknown = append(r.unknown, Unknown{Said: key, Word: word, Likely: likely})
	}
	r.unknown[at].Rows++
	r.fail(field, fmt.Errorf("%s: say what it means", asking(asks, word)))
}

// answer is what the user said that a word means; where the rows that say it are left out the row at hand is.
func (r *stockReader) answer(asks, word string) string {
	means := r.options.Means[SaidOf(asks, word)]
	if means == LeaveOut {
		r.leave = fmt.Sprintf("left out, as was said of %q", plan.Clipped(word))
	}
	return means
}

// tagged makes one reel of a row, or one for each of its tags.
func (r *stockReader) tagged(reel plan.Reel) []plan.Reel {
	text := r.text(Tag)
	if text == "" {
		if reel.Quantity == 1 {
			reel.Quantity = 0 // which counts as 1, and is left out of the file
		}
		return []plan.Reel{reel}
	}
	tags, err := ReadTags(tidy(text, true), reel.Quantity)
	if err != nil {
		r.fail(Tag, err)
		return nil
	}
	if reel.Quantity > 0 && reel.Quantity != len(tags) {
		r.fail(Tag, fmt.Errorf("%q names %d, but the quantity is %d", plan.Clipped(text), len(tags), reel.Quantity))
		return nil
	}
	reel.Quantity = 0
	var reels []plan.Reel
	for _, tag := range tags {
		if tag, err = r.field(Tag).Words(tag); err != nil {
			r.fail(Tag, err)
			return nil
		}
		r.claim(tag)
		reel.Tag = tag
		reels = append(reels, reel)
	}
	return reels
}

// claim notes a tag, which no other row and no reel of the stock may bear.
func (r *stockReader) claim(tag string) {
	key := strings.ToLower(tag)
	switch {
	case r.tags[key] > 0:
		r.fail(Tag, fmt.Errorf("tag %s stands in row %d already", tag, r.tags[key]))
	case r.options.Taken != nil && r.options.Taken(tag):
		r.fail(Tag, fmt.Errorf("tag %s is in the stock already", tag))
	default:
		r.tags[key] = r.number()
	}
}

var errNoLength = errors.New("no length is written")
