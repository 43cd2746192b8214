package plan

import (
	"slices"
	"strings"
)

// houseOwners are what people write where a reel is the house's own. Common practice, no source.
var houseOwners = []string{"", OfTheHouse, "the house", "in-house", "in house", "us", "ours", "own", "our own"}

// OwnedByHouse reports whether a word in the place of an owner means the house itself; blank does.
func OwnedByHouse(owner string) bool {
	return slices.Contains(houseOwners, strings.ToLower(strings.Join(strings.Fields(owner), " ")))
}

// Lender tells whether a reel is hired or borrowed, and of whom; blank where nobody said. What a show has of the house's stock
// is the house's to it, whoever the house has it from; a reel whose owner is the house's is not hired, whatever else it says.
func (r Reel) Lender() (by string, hired bool) {
	switch {
	case r.Taking != "":
		return "", false
	case !OwnedByHouse(r.Owner):
		return strings.TrimSpace(r.Owner), true
	case strings.TrimSpace(r.Owner) != "":
		return "", false
	}
	return "", r.Hire != "" || r.Return != ""
}
