package exchange

import (
	"errors"
	"fmt"
	"strings"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

// row reads the row at hand.
func (r *stockReader) row() (StockRow, bool) {
	before := len(r.faults)
	r.leave, r.says = "", map[string]bool{}
	for _, field := range r.layout.Fields {
		r.says[field] = field != "" && r.text(field) != ""
	}
	amount := r.amount()
	reel := plan.Reel{
		Kind: r.kind(amount.Rest), Length: amount.Length, Quantity: amount.Quantity,
		Owner: r.owner(), Hire: r.words(Hire), Reason: r.words(Reason), FoundAt: r.words(FoundAt), TiedInto: r.words(TiedInto), Note: r.note(),
	}
	reel.Return = take(&r.sheetRows, Return, readDay)
	reel.Bought = take(&r.sheetRows, Bought, readDay)
	reel.FoundOn = take(&r.sheetRows, FoundOn, readDay)
	r.standing(&reel)
	reel.StateOn = take(&r.sheetRows, StateOn, readDay)
	reel.Nominal = take(&r.sheetRows, Nominal, func(text string) (float64, error) {
		return r.field(Nominal).Parse(words.Units{Length: r.bare(Nominal)}, inUnit(text, r.unit()))
	})
	reel.Measured = take(&r.sheetRows, Measured, readLoss)
	reel.Weight = r.weight()
	row := StockRow{Row: r.number(), Case: r.words(CaseName), Service: r.service(), says: r.says}
	if r.leave != "" {
		r.faults = r.faults[:before]
		r.told = append(r.told, Fault{Row: r.number(), Words: r.leave})
		return StockRow{}, false
	}
	row.Reels = r.tagged(reel)
	return row, len(r.faults) == before
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
	unit := r.askedUnit()
	amount := take(&r.sheetRows, Length, func(text string) (Amount, error) { return readAmountIn(text, unit, r.bare(Length)) })
	if r.text(Length) == "" {
		r.fail(Length, errNoLength)
	}
	count := take(&r.sheetRows, Quantity, r.wholeOf(Quantity))
	if len(r.faults) == before && amount.Quantity > 0 && count > 0 && amount.Quantity != count {
		r.fail(Quantity, fmt.Errorf("%d here, but %d stand before the length", count, amount.Quantity))
	}
	amount.Quantity = max(amount.Quantity, count)
	return amount
}

// unit is the unit of the row's lengths as its own column has it, blank where none tells it.
func (r *stockReader) unit() string {
	word := r.text(Unit)
	unit, known := unitNamed(word)
	if !known && word != "" {
		unit = r.options.Means[SaidOf(OfUnit, word)]
	}
	if unit == CountedIn || unit == LeaveOut {
		return ""
	}
	return unit
}

// askedUnit is the unit of the row's lengths; one that is not known is asked about, and one that lacks is a fault where the other
// rows have theirs.
func (r *stockReader) askedUnit() string {
	word := r.text(Unit)
	_, known := unitNamed(word)
	switch {
	case word != "" && !known && r.answer(OfUnit, word) == "":
		r.ask(Unit, OfUnit, word, "")
	case word == "" && r.inUnits && r.text(Length) != "" && !r.headSaysUnit() && !saysUnit(r.text(Length)):
		r.fail(Unit, errors.New("no unit is written, but other rows have one"))
	}
	return r.unit()
}

func (r *stockReader) headSaysUnit() bool {
	return lengthSystem(r.head(Length), quantity.Metric) == lengthSystem(r.head(Length), quantity.Imperial)
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
	r.says[Kind] = true
	if id := r.named(words); id != "" {
		return id
	}
	if r.answer(OfKind, words) != LeaveOut {
		r.ask(field, OfKind, words, "")
	}
	return ""
}

// named is the kind that words mean, blank where none does; a long list says the same few words over and over.
func (r *stockReader) named(words string) plan.CableKindID {
	id, known := r.means[words]
	if !known {
		if id, known = KindNamed(words, r.options.Kinds); !known {
			id = plan.CableKindID(r.options.Means[SaidOf(OfKind, words)])
		}
		if id == LeaveOut || !isKind(id, r.options.Kinds) {
			id = ""
		}
		r.means[words] = id
	}
	return id
}

func isKind(id plan.CableKindID, kinds []plan.CableKind) bool {
	for _, kind := range kinds {
		if kind.ID == id {
			return true
		}
	}
	return false
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

// owner is whose the row's cables are, blank for the house's. Who hires them out is known by a hire reference or a return date;
// another may be a name of the house, which is asked about.
func (r *stockReader) owner() string {
	owner := r.words(Owner)
	if owner == "" {
		return ""
	}
	means := r.answer(OfOwner, owner)
	own := saysOurs(owner)
	switch {
	case means == HouseItself:
		return ""
	case means == AnotherOwner, means == LeaveOut, r.hired[plan.Folded(owner)] && !own:
		return owner
	case own:
		r.ask(Owner, OfOwner, owner, HouseItself)
	default:
		r.ask(Owner, OfOwner, owner, "")
	}
	return ""
}

// standing reads condition and state, each of which may stand in the column of the other.
func (r *stockReader) standing(reel *plan.Reel) {
	r.says[Condition], r.says[State] = false, false
	for _, field := range []string{Condition, State} {
		word := r.text(field)
		if word == "" {
			continue
		}
		standing, known := standings[plain(word)]
		if !known {
			standing = r.answer(OfCondition, word)
		}
		if standing == "" {
			r.ask(field, OfCondition, word, "")
		}
		r.stand(reel, field, standing)
		if !known && standing != plan.Good && standing != LeaveOut {
			r.keepWord(reel, word)
		}
	}
}

// stand gives a reel the condition or the state that a column says.
func (r *stockReader) stand(reel *plan.Reel, field, standing string) {
	switch standing {
	case plan.Good, plan.Suspect, plan.Faulty:
		if reel.Condition != "" && reel.Condition != standing {
			r.fail(field, fmt.Errorf("%s here, but %s in another column", standing, reel.Condition))
		}
		reel.Condition, r.says[Condition] = standing, true
	case plan.Missing, plan.InRepair, plan.WrittenOff:
		if reel.State != "" && reel.State != standing {
			r.fail(field, errors.New("two columns say that it is elsewhere, in two ways"))
		}
		reel.State, r.says[State] = standing, true
	case thereAgain:
		r.says[State] = true
	}
}

// keepWord keeps a word of the list's own that says more than what it means: as the reason, or in the note.
func (r *stockReader) keepWord(reel *plan.Reel, word string) {
	word = strings.Join(strings.Fields(tidy(word, false)), " ")
	if reel.Reason == "" && (reel.Condition == plan.Suspect || reel.Condition == plan.Faulty) {
		reel.Reason, r.says[Reason] = word, true
		return
	}
	reel.Note, r.says[Note] = strings.TrimSpace(reel.Note+"\n"+word), true
}

// weight reads what the piece weighs, in kg; a figure without a unit under a head without one is asked about.
func (r *stockReader) weight() plan.Optional {
	unit := weightUnit(r.head(Weight))
	return take(&r.sheetRows, Weight, func(text string) (plan.Optional, error) {
		if head := r.head(Weight); unit == "" && bareWeight(text) {
			unit = r.answer(OfWeight, head)
			if unit == "" {
				r.ask(Weight, OfWeight, head, "")
				return plan.Optional{}, nil
			}
		}
		mass, _, err := readWeight(text, unit)
		return plan.Some(mass), err
	})
}

// service reads the last line of the reel's history.
func (r *stockReader) service() plan.Service {
	line := plan.Service{Day: take(&r.sheetRows, LastService, readDay), Work: r.line(ServiceNote), By: r.line(ServicedBy)}
	switch {
	case line == plan.Service{}:
	case r.text(LastService) == "":
		r.fail(LastService, errors.New("a service has no day: write it as year-month-day, for instance 2027-06-22"))
	case line.Work == "":
		line.Work = "service"
	}
	return line
}

// line is a cell of one line that is no field of a reel.
func (r *stockReader) line(field string) string {
	text := strings.Join(strings.Fields(tidy(r.text(field), false)), " ")
	if len([]rune(text)) > longestName {
		r.fail(field, fmt.Errorf("it is longer than %d signs", longestName))
		return ""
	}
	return text
}

// note is the row's note, with what the user wants there of other columns.
func (r *stockReader) note() string {
	note := tidy(r.text(Note), true)
	for column, field := range r.layout.Fields {
		if cell := r.grid.cell(r.at, column); field == IntoNote && cell != "" {
			if r.layout.Head > 0 && r.grid.cell(r.layout.Head-1, column) != "" {
				cell = r.grid.cell(r.layout.Head-1, column) + ": " + cell
			}
			note, r.says[Note] = strings.TrimSpace(note+"\n"+tidy(cell, true)), true
		}
	}
	note, err := r.field(Note).Words(note)
	if err != nil {
		r.fail(Note, err)
	}
	return note
}
