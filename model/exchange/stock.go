package exchange

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

// The fields of a stock list are called as on the card and in the table.
var (
	Kind      = fields.Of(plan.ReelsTable, "kind").Name
	Length    = fields.Of(plan.ReelsTable, "length").Name
	Quantity  = fields.Of(plan.ReelsTable, "count").Name
	Tag       = fields.Of(plan.ReelsTable, "tag").Name
	CaseName  = fields.Of(plan.ReelsTable, "case").Name
	Owner     = fields.Of(plan.ReelsTable, "owner").Name
	Hire      = fields.Of(plan.ReelsTable, "hire").Name
	Return    = fields.Of(plan.ReelsTable, "return").Name
	Bought    = fields.Of(plan.ReelsTable, "bought").Name
	Condition = fields.Of(plan.ReelsTable, "condition").Name
	Reason    = fields.Of(plan.ReelsTable, "reason").Name
	FoundAt   = fields.Of(plan.ReelsTable, "found_at").Name
	FoundOn   = fields.Of(plan.ReelsTable, "found_on").Name
	Measured  = fields.Of(plan.ReelsTable, "measured").Name
	Nominal   = fields.Of(plan.ReelsTable, "nominal").Name
	Note      = fields.Of(plan.ReelsTable, "note").Name
)

// StockFields are what a column of a stock list can mean.
func StockFields() []Field {
	amount := func(text string) bool { _, err := ReadAmount(text, quantity.Metric); return err == nil }
	loss := func(text string) bool { _, err := quantity.ReadDecibels(text); return err == nil }
	day := func(text string) bool { _, err := readDay(text); return err == nil }
	return []Field{
		{Length, []string{"length", "len", "length m", "length ft", "m", "metres", "meters", "ft", "feet", "länge", "longueur", "amount", "cable"}, amount, nil, nil},
		{Quantity, []string{"quantity", "qty", "count", "pcs", "pieces", "number of", "how many", "anzahl", "stück", "menge", "quantité"}, isCount, nil, nil},
		{Kind, []string{"kind", "type", "cable kind", "cable type", "cable", "description", "item", "article", "model", "category", "name", "typ", "art", "kabel"}, nil, nil, nil},
		{Tag, []string{"tag", "tags", "label", "asset tag", "asset", "barcode", "code", "serial", "serial number", "number", "no", "id", "mark", "nummer"}, nil, nil, nil},
		{CaseName, []string{"case", "box", "flight case", "flightcase", "crate", "trunk", "stored in", "storage", "location", "kiste", "koffer"}, nil, nil, nil},
		{Owner, []string{"owner", "owned by", "property of", "company", "supplier", "belongs to", "eigentümer"}, nil, nil, nil},
		{Hire, []string{"hire reference", "hire", "hire ref", "rental", "rental reference", "rental ref", "booking", "job", "order", "order number"}, nil, nil, nil},
		{Return, []string{"return date", "return", "return by", "back by", "due back", "due", "due date", "rückgabe"}, day, nil, nil},
		{Bought, []string{"bought on", "bought", "purchase date", "purchased", "date of purchase", "kaufdatum", "acheté le"}, day, nil, nil},
		{Condition, []string{"condition", "state", "status", "zustand"}, isCondition, nil, nil},
		{Reason, []string{"reason", "fault", "defect", "damage", "why"}, nil, nil, nil},
		{FoundAt, []string{"found where", "found at", "where found", "where", "found in"}, nil, nil, nil},
		{FoundOn, []string{"found on", "date found", "when found", "when"}, day, nil, nil},
		{Measured, []string{"measured loss", "measured", "measured loss db", "loss", "loss db", "attenuation", "insertion loss"}, loss, nil, nil},
		{Nominal, []string{"nominal length", "nominal", "nominal m", "nominal length m", "sold as"}, amount, nil, nil},
		{Note, []string{"note", "notes", "remark", "remarks", "comment", "comments", "bemerkung"}, nil, nil, nil},
	}
}

// Options are what the cells of a stock list are read by.
type Options struct {
	// Bare is the system of lengths without a unit under a head that names none.
	Bare quantity.System
	// Kinds are the kinds of cable that words are looked for in.
	Kinds []plan.CableKind
	// Named says what other words of the list mean; the keys are as Stock.Unknown gives them.
	Named map[string]plan.CableKindID
	// Blank is the kind of rows that name none; blank where they are faults.
	Blank plan.CableKindID
	// Taken reports whether a tag is in the stock already; nil for none.
	Taken func(tag string) bool
}

// StockRow is one good row: the reels it stands for, without ids and cases, and the name of their case.
type StockRow struct {
	Row   int
	Reels []plan.Reel
	Case  string
}

// Stock is a stock list as read: its good rows, and why the others are none.
type Stock struct {
	Rows   []StockRow
	Faults []Fault
	// Unknown are the words for kinds that no kind bears, in the order of the list, each once.
	Unknown []string
}

// ReadStock reads the reels of a grid. A row with a fault is in Faults alone; blank rows are passed over.
func ReadStock(g Grid, l Layout, o Options) Stock {
	r := stockReader{sheetRows: sheetRows{table: plan.ReelsTable, grid: g, layout: l}, options: o, tags: map[string]int{}, means: map[string]plan.CableKindID{}}
	if l.column(Length) < 0 {
		r.faults = []Fault{{Row: max(1, l.Head), Words: "no column is the length: say which one is"}}
		return Stock{Faults: r.faults}
	}
	if l.column(Kind) < 0 && o.Blank == "" && !r.kindsInLengths() {
		r.faults = []Fault{{Row: max(1, l.Head), Words: "no column is the kind of cable: say which one is, or what kind all of them are"}}
		return Stock{Faults: r.faults}
	}
	var rows []StockRow
	total := 0
	r.each(func() {
		row, good := r.row()
		if total += len(row.Reels); good && total > plan.MaxRows {
			r.fail("", fmt.Errorf("with this row there are more than %d reels", plan.MaxRows))
			return
		}
		if good {
			rows = append(rows, row)
		}
	})
	return Stock{Rows: rows, Faults: r.faults, Unknown: r.unknown}
}

type stockReader struct {
	sheetRows
	options Options
	unknown []string
	// tags holds the row in which each tag stands, means the kinds that words mean.
	tags  map[string]int
	means map[string]plan.CableKindID
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

// row reads the row at hand.
func (r *stockReader) row() (StockRow, bool) {
	before := len(r.faults)
	amount := r.amount()
	reel := plan.Reel{
		Kind: r.kind(amount.Rest), Length: amount.Length, Quantity: amount.Quantity,
		Owner: r.words(Owner), Hire: r.words(Hire), Reason: r.words(Reason), FoundAt: r.words(FoundAt), Note: r.words(Note),
	}
	reel.Return = take(&r.sheetRows, Return, readDay)
	reel.Bought = take(&r.sheetRows, Bought, readDay)
	reel.FoundOn = take(&r.sheetRows, FoundOn, readDay)
	reel.Condition = take(&r.sheetRows, Condition, readCondition)
	reel.Nominal = take(&r.sheetRows, Nominal, func(text string) (float64, error) {
		return r.field(Nominal).Parse(words.Units{Length: r.bare(Nominal)}, text)
	})
	reel.Measured = take(&r.sheetRows, Measured, readLoss)
	box := r.words(CaseName)
	reels := r.tagged(reel)
	return StockRow{Row: r.number(), Reels: reels, Case: box}, len(r.faults) == before
}

func readLoss(text string) (plan.Optional, error) {
	loss, err := fields.Of(plan.ReelsTable, "measured").Parse(words.Units{}, text)
	return plan.Some(loss), err
}

func (r *stockReader) bare(field string) quantity.System {
	return lengthSystem(r.head(field), r.options.Bare)
}

// amount reads length and quantity, from one cell or from two.
func (r *stockReader) amount() Amount {
	before := len(r.faults)
	amount := take(&r.sheetRows, Length, func(text string) (Amount, error) { return ReadAmount(text, r.bare(Length)) })
	if r.text(Length) == "" {
		r.fail(Length, errors.New("no length is written"))
	}
	count := take(&r.sheetRows, Quantity, r.wholeOf(Quantity))
	if len(r.faults) == before && amount.Quantity > 0 && count > 0 && amount.Quantity != count {
		r.fail(Quantity, fmt.Errorf("%d here, but %d stand before the length", count, amount.Quantity))
	}
	amount.Quantity = max(amount.Quantity, count)
	return amount
}

// kind finds the kind that the row names, in its own column or behind the length.
func (r *stockReader) kind(behind string) plan.CableKindID {
	words, field := r.text(Kind), Kind
	if words == "" {
		words, field = behind, Length
	} else if behind != "" && r.named(behind) == "" {
		r.fail(Length, fmt.Errorf("%q behind the length is not understood; write for instance 50 m or 12 x 50 m", plan.Clipped(behind)))
	}
	if words == "" {
		if r.options.Blank == "" {
			r.fail(Kind, errors.New("no kind of cable is written"))
		}
		return r.options.Blank
	}
	if id := r.named(words); id != "" {
		return id
	}
	if !slices.Contains(r.unknown, words) {
		r.unknown = append(r.unknown, words)
	}
	r.fail(field, fmt.Errorf("%q is no kind of cable here: say what it means", plan.Clipped(words)))
	return ""
}

// named is the kind that words mean, blank where none does; a long list says the same few words over and over.
func (r *stockReader) named(words string) plan.CableKindID {
	id, known := r.means[words]
	if !known {
		if id, known = KindNamed(words, r.options.Kinds); !known {
			id = r.options.Named[words]
		}
		r.means[words] = id
	}
	return id
}

// KindNamed finds the kind that words name, by name or slug, whatever their blanks, hyphens and capitals.
func KindNamed(words string, kinds []plan.CableKind) (plan.CableKindID, bool) {
	for _, kind := range kinds {
		if plain(words) == plain(kind.Name) || plain(words) == plain(string(kind.ID)) {
			return kind.ID, true
		}
	}
	return "", false
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
