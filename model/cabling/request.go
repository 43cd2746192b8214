package cabling

import "stageloom/model/plan"

// Request says what is to be picked, and how. The zero value picks for all links of a new plan from the good stock.
type Request struct {
	// Links are those to pick for; nil is all. Cables on other links stay there.
	Links []plan.LinkID
	// OnTheDay keeps as much as can be of what is picked already: changes count before joins.
	OnTheDay bool
	// TakeApart lets links that are laid, joined or tested be changed where that serves a link which else stays unserved;
	// without it all their cables stay as they lie, but for faulty ones.
	TakeApart bool
	// Suspect lets reels be taken that are marked so; faulty ones never are.
	Suspect bool
	// Wanted lets only these kinds be taken, where there are any; Barred none of these.
	Wanted, Barred []plan.CableKindID
	// OwnKind lets a link that wants a kind have that one alone, as links without a grade do anyway.
	OwnKind bool
	// MaxJoins is how many joins a link may have that says nothing itself; 0 is DefaultJoins.
	MaxJoins int
	// DifferentKinds asks that main and backup are of different kinds of cable, not only of separate cables.
	DifferentKinds bool
	// HoldBack keeps back at each position, where the stock allows, one cable able to replace the longest main run that
	// begins or ends there and that one cable can make.
	HoldBack bool
	// Offered are rows of the plan that the show does not have yet: of equal reels they are taken last. ForHire tells that they are
	// not picked at all, but named before anything is hired.
	Offered map[plan.ReelID]bool
	ForHire bool
	// OfTheHouse lets only reels be taken that the show has of the house's stock, or is offered.
	OfTheHouse bool
	// Nodes bounds the search; 0 is the optimiser's own bound. The same bound gives the same picks.
	Nodes int
}
