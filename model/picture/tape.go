package picture

import (
	"image/color"
	"slices"
	"strings"
	"unicode"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Sizes of the patch that shows the colour of a link's tape, in points: scaled with the text.
const (
	patchWidth  = 13.0
	patchHeight = 8.5
	patchGap    = 5.0 // between it and the words before it
	patchRadius = 1.0
	labelEnds   = 7.0 // what a label has at either end beside its words
)

// tape is a colour of tape as one buys it.
type tape struct {
	role   Role
	colour color.NRGBA
	words  []string // in English, German and French
}

// tapes are the colours of electrical tape in the trade: common practice, no source. The shades are this program's own.
var tapes = []tape{
	{RoleTapeRed, shade(0xC8, 0x24, 0x2C), []string{"red", "rot", "rouge"}},
	{RoleTapeBlue, shade(0x1E, 0x5A, 0xB8), []string{"blue", "blau", "bleu", "bleue"}},
	{RoleTapeGreen, shade(0x24, 0x8A, 0x3D), []string{"green", "grün", "gruen", "vert", "verte"}},
	{RoleTapeYellow, shade(0xF6, 0xD3, 0x1A), []string{"yellow", "gelb", "jaune"}},
	{RoleTapeWhite, shade(0xFF, 0xFF, 0xFF), []string{"white", "weiß", "weiss", "blanc", "blanche"}},
	{RoleTapeBlack, shade(0x10, 0x10, 0x10), []string{"black", "schwarz", "noir", "noire"}},
	{RoleTapeOrange, shade(0xF0, 0x82, 0x14), []string{"orange"}},
	{RoleTapeBrown, shade(0x74, 0x47, 0x22), []string{"brown", "braun", "brun", "brune", "marron"}},
	{RoleTapeViolet, shade(0x7B, 0x3F, 0xA6), []string{"violet", "purple", "violett", "lila", "violette"}},
	{RoleTapeGrey, shade(0x8E, 0x8E, 0x8E), []string{"grey", "gray", "grau", "gris", "grise"}},
	{RoleTapePink, shade(0xF2, 0x9A, 0xBC), []string{"pink", "rosa", "rose"}},
}

func shade(r, g, b uint8) color.NRGBA { return color.NRGBA{R: r, G: g, B: b, A: 0xFF} }

// TapeColours are the colours of tape by their role: the same on every medium, for they stand for one thing.
func TapeColours() map[Role]color.NRGBA {
	colours := make(map[Role]color.NRGBA, len(tapes))
	for _, t := range tapes {
		colours[t.role] = t.colour
	}
	return colours
}

// joining are the words between the two colours of a striped tape.
var joining = []string{"and", "und", "et"}

// TapeRoles are the one or two colours that words for a tape mean: "red", "rot/weiß". None for words that are not known.
func TapeRoles(said string) []Role {
	var roles []Role
	for _, word := range strings.FieldsFunc(strings.ToLower(said), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if slices.Contains(joining, word) {
			continue
		}
		at := slices.IndexFunc(tapes, func(t tape) bool { return slices.Contains(t.words, word) })
		if at < 0 {
			return nil
		}
		if !slices.Contains(roles, tapes[at].role) {
			roles = append(roles, tapes[at].role)
		}
	}
	if len(roles) > 2 {
		return nil
	}
	return roles
}

// TapePatch draws a patch of tape in a box: its one or two colours side by side, outlined, so that one sees the tape
// that is as light or as dark as what it lies on.
func TapePatch(ref Ref, roles []Role, box geom.Box) []Mark {
	marks := make([]Mark, 0, len(roles)+1)
	wide := box.Width() / float64(max(1, len(roles)))
	for i, role := range roles {
		left := box.Min.X + float64(i)*wide
		marks = append(marks, Mark{Ref: ref, Shape: Fill, Role: role, Points: []geom.Point{
			{X: left, Y: box.Min.Y}, {X: left + wide, Y: box.Min.Y}, {X: left + wide, Y: box.Max.Y}, {X: left, Y: box.Max.Y},
		}})
	}
	return append(marks, Mark{Ref: ref, Shape: Panel, Edge: RoleTapeEdge, Points: []geom.Point{box.Min, box.Max}, Radius: patchRadius})
}

// tapeWords says the colour of a link's tape where no patch can.
func (l *LinkFigure) tapeWords() string { return "tape " + l.Tape }

// tapeRoom is how much wider a label is for its link's tape; 0 for none that is known.
func (p *Picture) tapeRoom(link *LinkFigure) float64 {
	scale := p.arrangement.textScale
	switch {
	case len(TapeRoles(link.Tape)) == 0:
		return 0
	case p.options.TapeInWords:
		return p.arrangement.measure(link.tapeWords(), labelTextSize*scale, false) + patchGap*scale
	}
	return (patchWidth + patchGap) * scale
}

// tapeMarks shows the tape of a link at the right end of its label.
func (p *Picture) tapeMarks(link *LinkFigure, label geom.Box) {
	ref, scale := Ref{Table: plan.LinksTable, Key: plan.Key(link.ID)}, p.arrangement.textScale
	at := geom.Point{X: label.Max.X - labelEnds*scale, Y: label.Centre().Y}
	if p.options.TapeInWords {
		p.add(Mark{
			Ref: ref, Shape: Words, Role: RoleTapeText, Points: []geom.Point{at}, Anchor: Right,
			Text: link.tapeWords(), Size: labelTextSize * scale,
		})
		return
	}
	at.X -= patchWidth * scale / 2
	for _, m := range TapePatch(ref, TapeRoles(link.Tape), geom.BoxAround(at, patchWidth*scale, patchHeight*scale)) {
		p.add(m)
	}
}

// untaped is a label that shows the tape of its link where room is left for it.
type untaped struct {
	link          *LinkFigure
	solid, target int
	hung          bool
	foot          geom.Point // of its leader, if it hangs on one
}

// tapes shows the tape of links that are no multicores, where neither a label nor a name needs the room.
func (p *Picture) tapes() {
	for _, label := range p.untaped {
		p.fadeLink(label.link)
		p.widen(label)
		p.fade()
	}
}

// widen lengthens a label for the tape of its link: to the right, or to the left, but not across its leader.
func (p *Picture) widen(label untaped) {
	box, room, frame := p.solids[label.solid].box, p.tapeRoom(label.link), p.View.Box()
	if seen := frame.Inset(p.options.Margin); seen.ContainsBox(box) {
		frame = seen
	}
	for _, side := range []float64{1, -1} {
		wider, strip := box, box
		if side > 0 {
			wider.Max.X += room
			strip.Min.X, strip.Max.X = box.Max.X+1, wider.Max.X
		} else {
			wider.Min.X -= room
			strip.Min.X, strip.Max.X = wider.Min.X, box.Min.X-1
		}
		across := label.hung && (label.foot.X-box.Centre().X)*side > box.Width()/2
		if across || !frame.ContainsBox(wider) || !p.blocked.free(strip) || p.underLeader(strip) {
			continue
		}
		p.blocked.add(strip.Inset(-1))
		p.lengthen(label, wider, min(0, side)*room)
		return
	}
}

// underLeader reports whether the leader of a label crosses a box.
func (p *Picture) underLeader(box geom.Box) bool {
	return slices.ContainsFunc(p.leaders, func(leader geom.Polyline) bool { return leader.Meets(box) })
}

// lengthen gives a label a wider box, its words moved along, with the tape at its right end.
func (p *Picture) lengthen(label untaped, wider geom.Box, shift float64) {
	s := &p.solids[label.solid]
	s.box, p.targets[label.target].box = wider, wider
	for i := s.from; i < s.to; i++ {
		m := &p.Marks[i]
		if m.Shape == Panel {
			m.Points = []geom.Point{wider.Min, wider.Max}
			continue
		}
		moved := make([]geom.Point, len(m.Points))
		for n, at := range m.Points {
			moved[n] = at.Add(geom.Point{X: shift})
		}
		m.Points = moved
	}
	p.solidly(wider, func() { p.tapeMarks(label.link, wider) })
}
