package standards

// Edition numbers the figures of this package, and the rules by which lengths and losses are reckoned from them, as a
// whole. It rises when a landed figure changes, so that a plan can say which edition it was graded by.
const Edition = 2

// editionChanges says, for each edition after the first, what is reckoned otherwise than in the one before.
var editionChanges = map[int][]string{
	2: {
		"Cable in the shade is reckoned at the worst air where that is warmer than 40 °C; cable in the sun at no less than in the shade and at 60 °C at most, where figures for cable end.",
		"AES10 on coax states 50 m, and 100 m are taken for word clock: longer links are told.",
		"Crosstalk of 1000BASE-T is held against NEXT of 27.1 dB and ACR-F of 17.0 dB at 100 MHz: a note beside the grade.",
		"A drawn way counts at least the straight one times the plan's factor, and one of three points in all is still a guess: runs of such links are longer.",
		"Way, rises and slack of a run are each rounded up to a tenth of a metre and then added: a run is up to 0.3 m longer than before.",
		"Stranded 28 AWG counts 1.95 times its category, not 1.5 as 26 AWG does; thinner stranded cable without an own figure has no grade.",
		"A kind whose own figure no cable of its category can have (under 80 % or over twice the category's) has no grade; it counted as 80 % at best.",
		"A link whose metres nobody gave has no grade until it has a cable: the loss of its slack alone says nothing.",
		"Limits at 100 MHz are whole tenths of a dB, as standards print them: a margin may differ by up to 0.05 dB.",
		"A digital link carries the channels of its own sample rate, that of its ends: one whose ends run at two rates carries none, and a console passes nothing on unless it says so.",
	},
}

// ChangesSince lists, oldest first, in whole sentences what is reckoned otherwise now than in the given edition; none
// for the present one and for later ones.
func ChangesSince(edition int) []string {
	var changes []string
	for next := max(edition, 1) + 1; next <= Edition; next++ {
		changes = append(changes, editionChanges[next]...)
	}
	return changes
}
