package plan

import (
	"cmp"
	"strings"
)

// TapeColour is the colour of the tape at both ends of a link in the user's word: its own, else that of its loom; blank for
// none.
func (p *Plan) TapeColour(link Link) string {
	loom, _ := p.Looms.Get(Key(link.Loom))
	return cmp.Or(strings.TrimSpace(link.Colour), strings.TrimSpace(loom.Colour))
}
