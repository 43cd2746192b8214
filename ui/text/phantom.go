package text

import (
	"strings"

	"stageloom/model/patch"
)

// PhantomOf says what is to be known of 48 V at an input in an act, a sentence each: who switches it at which socket and across what,
// that it must not come, that it is off before plugging. None where there is nothing to say.
func PhantomOf(v *patch.View, act *patch.Act, line *patch.Line) []string {
	return v.PhantomSheet(act).Say(line)
}

// PhantomChangesOf says what is done to 48 V at the changeover to an act from the one before on its stage, a line a socket, what
// hurts first; none where it is the first there, or nothing is done.
func PhantomChangesOf(v *patch.View, act *patch.Act) (said []string) {
	before := v.Previous(act)
	if before == nil {
		return nil
	}
	var others []string
	for _, change := range patch.PhantomChanges(v, before, act) {
		words := v.SocketWords(change.Socket) + ", 48 V: " + v.PhantomWords(change)
		switch {
		case change.Stays():
		case change.Hurts():
			said = append(said, words)
		default:
			others = append(others, words)
		}
	}
	return append(said, others...)
}

// phantomRow is what the card of an input says of 48 V in an act.
func phantomRow(v *patch.View, act *patch.Act, line *patch.Line) string {
	return strings.Join(PhantomOf(v, act, line), " ")
}
