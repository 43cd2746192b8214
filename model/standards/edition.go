package standards

// Edition numbers the figures of this package, and the rules by which lengths and losses are reckoned from them, as a
// whole. It rises when a landed figure changes, so that a plan can say which edition it was graded by.
const Edition = 2

// editionChanges says, for each edition after the first, what is reckoned otherwise than in the one before.
var editionChanges = map[int][]string{
	2: {
		"Limits at 100 MHz are whole tenths of a dB, as standards print them: a margin may differ by up to 0.05 dB.",
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
