package stocklist

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// Pieces are so many cables of a row of a stock.
type Pieces struct {
	Reel  plan.Reel
	Count int
}

// Lot is cables of one kind and length that are alike to who counts them. Whole names the loom or the trunk piece that they
// are tied into, blank for cables by themselves.
type Lot struct {
	Whole string
	// Kind is the name of the kind, Length metres of each; Count is how many, and Tags those of the cables that have one.
	Kind   string
	Length float64
	Tags   []string
	Count  int
	// Reels are the rows that they are of.
	Reels []plan.ReelID
}

// Lots gathers cables by kind and length, the longest first; behind them those that are tied into one piece, piece by piece.
func Lots(p *plan.Plan, pieces []Pieces) (lots []Lot) {
	for _, one := range pieces {
		if one.Count < 1 {
			continue
		}
		lot := Lot{Whole: Whole(one.Reel), Kind: KindName(p, one.Reel.Kind), Length: one.Reel.Length}
		at := slices.IndexFunc(lots, func(l Lot) bool {
			return strings.EqualFold(l.Whole, lot.Whole) && l.Kind == lot.Kind && l.Length == lot.Length
		})
		if at < 0 {
			if like := slices.IndexFunc(lots, func(l Lot) bool { return strings.EqualFold(l.Whole, lot.Whole) }); like >= 0 {
				lot.Whole = lots[like].Whole // as it was written first
			}
			at, lots = len(lots), append(lots, lot)
		}
		lots[at].Count += one.Count
		lots[at].Reels = append(lots[at].Reels, one.Reel.ID)
		if one.Reel.Tag != "" {
			lots[at].Tags = append(lots[at].Tags, one.Reel.Tag)
		}
	}
	for i := range lots {
		slices.SortFunc(lots[i].Tags, words.Natural)
	}
	slices.SortStableFunc(lots, func(a, b Lot) int {
		if (a.Whole == "") != (b.Whole == "") {
			return cmp.Compare(a.Whole, b.Whole)
		}
		return cmp.Or(words.Natural(a.Whole, b.Whole), words.Natural(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length))
	})
	return lots
}

// Count adds up cables.
func Count(pieces []Pieces) (sum int) {
	for _, one := range pieces {
		sum += max(0, one.Count)
	}
	return sum
}

// KindName is what a kind of cable is called, its slug where the plan has no such kind.
func KindName(p *plan.Plan, id plan.CableKindID) string {
	kind, _ := p.CableKinds.Get(plan.Key(id))
	return cmp.Or(kind.Name, string(id))
}

// Bare is the length of one cable without its unit, to a centimetre and without needless noughts: "50", "60.96".
func Bare(length float64) string {
	return strconv.FormatFloat(math.Round(length*100)/100, 'f', -1, 64)
}

// Whole is the name of the loom or the trunk piece that a reel is tied into, blank for one by itself. Names that differ in
// capitals alone are of one piece.
func Whole(reel plan.Reel) string { return strings.TrimSpace(reel.TiedInto) }

// InWhole counts the cables that are tied into a piece.
func InWhole(lots []Lot, whole string) (sum int) {
	for _, lot := range lots {
		if lot.Whole == whole {
			sum += lot.Count
		}
	}
	return sum
}
