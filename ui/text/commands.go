package text

import (
	"cmp"
	"slices"
	"strings"
)

// Command is something that the window can do, as the list of commands names it.
type Command struct {
	// Name is what it does, In the menus that it lies in, Keys its shortcut; each may hold several words.
	Name, In, Keys string
	// Ready is false where it can't be done now.
	Ready bool
}

// Ticked begins the name of a command that is chosen now.
const Ticked = "✓ "

// FindCommands are the places in a list of the commands in which every word of text stands, in the name, the menus or the
// keys. Those whose name begins so come first, then those in whose name a word begins so; else the order stays.
func FindCommands(all []Command, text string) (places []int) {
	words := strings.Fields(strings.ToLower(text))
	ranks := map[int]int{}
	for i, command := range all {
		rank := command.rank(words)
		if rank < noMatch {
			ranks[i] = rank
			places = append(places, i)
		}
	}
	slices.SortStableFunc(places, func(a, b int) int { return cmp.Compare(ranks[a], ranks[b]) })
	return places
}

// The ranks of a command that is found, and of one that is not.
const (
	beginsSo = iota
	wordBeginsSo
	holdsSo
	elsewhere
	noMatch
)

func (c Command) rank(words []string) int {
	name := strings.TrimPrefix(strings.ToLower(c.Name), Ticked)
	everything := name + " " + strings.ToLower(c.In+" "+c.Keys)
	rank := beginsSo
	for i, word := range words {
		switch {
		case i == 0 && strings.HasPrefix(name, word):
		case strings.HasPrefix(name, word), strings.Contains(name, " "+word):
			rank = max(rank, wordBeginsSo)
		case strings.Contains(name, word):
			rank = max(rank, holdsSo)
		case strings.Contains(everything, word):
			rank = max(rank, elsewhere)
		default:
			return noMatch
		}
	}
	return rank
}
