package stocklist

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// mostNamed is how many cables a sentence names before it counts the rest.
const mostNamed = 20

// Conflicts say which promises cannot be kept as things are on a day: what one show wants and another has overdue, or what is not
// there. One sentence a pair of shows, the first wanted first.
func Conflicts(s house.Stock, day string) (said []string) {
	type clash struct {
		from, words string
		pieces      []Pieces
	}
	var clashes []*clash
	add := func(from, words string, one Pieces) {
		at := slices.IndexFunc(clashes, func(c *clash) bool { return c.words == words })
		if at < 0 {
			at, clashes = len(clashes), append(clashes, &clash{from: from, words: words})
		}
		clashes[at].pieces = append(clashes[at].pieces, one)
	}
	for _, c := range s.Conflicts(day) {
		has := fmt.Sprintf("%s has overdue since %s", showName(c.Has), c.Has.Until)
		add(c.Wants.From, wanting(c.Wants)+" what "+has, Pieces{c.Reel, c.Quantity})
	}
	for _, taking := range s.Takings {
		reel, found := s.Plan.Reels.Get(plan.Key(taking.Reel))
		if show := showOf(s, taking); found && reel.State != "" && taking.Quantity > 0 {
			add(show.From, wanting(show)+" what is "+stateWords(reel), Pieces{reel, taking.Quantity})
		}
	}
	slices.SortStableFunc(clashes, func(a, b *clash) int { return cmp.Compare(a.from, b.from) })
	for _, c := range clashes {
		var names []string
		for _, one := range c.pieces {
			names = append(names, pieceName(s.Plan, one))
		}
		said = append(said, c.words+": "+words.And(names, mostNamed)+".")
	}
	return said
}

func showName(show house.Show) string { return Holder{Show: show}.Name() }

// wanting says who wants something from when on.
func wanting(show house.Show) string {
	if show.From == "" {
		return showName(show) + " wants"
	}
	return showName(show) + " wants from " + show.From
}

// showOf is the show that a taking is of, with its name alone where no more is known.
func showOf(s house.Stock, taking house.Taking) house.Show {
	for _, show := range s.Shows {
		if show.ID == taking.Plan {
			return show
		}
	}
	return house.Show{ID: taking.Plan, Name: taking.Show}
}

func stateWords(reel plan.Reel) string {
	if reel.State == plan.InRepair {
		return "in repair"
	}
	return strings.ReplaceAll(reel.State, "_", " ")
}

// pieceName names cables of a row: by tag, else by number, length and kind.
func pieceName(p *plan.Plan, one Pieces) string {
	if one.Reel.Tag != "" {
		return one.Reel.Tag
	}
	return fmt.Sprintf("%d × %s\u00a0m %s", one.Count, Bare(one.Reel.Length), KindName(p, one.Reel.Kind))
}
