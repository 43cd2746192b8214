package patch

import (
	"slices"
	"strings"
)

// PhantomSheet says what is to be written of 48 V in an act, beside inputs and at sockets. One goroutine may use it.
type PhantomSheet struct {
	view *View
	act  *Act
	left map[Socket]PhantomLeft
}

// PhantomSheet makes that of an act.
func (v *View) PhantomSheet(act *Act) *PhantomSheet {
	return &PhantomSheet{v, act, v.LeftOn(act)}
}

// Beside is what stands beside an input on sheets: "48 V", a caution, both, or nothing.
func (s *PhantomSheet) Beside(l *Line) string {
	if l.Struck {
		return ""
	}
	return withCaution(l.Input.Phantom && BearingOf(l.Input) != Suffers, s.Caution(l))
}

// At is what stands on sheets at a socket that an input lies on: 48 V where it is switched and where it stands on the line, and
// cautions where it could come, nowhere else. Where none comes to an input that wants it, that stands where it is plugged in.
func (s *PhantomSheet) At(l *Line, at Socket) string {
	if _, direct := s.view.direct(s.act, l)[at]; !l.Patched() || !direct {
		return ""
	}
	if l.Input.Phantom && at == s.view.pluggedAt(l) && len(s.view.Feeds(s.act, l)) == 0 {
		return "wants 48 V"
	}
	return withCaution(s.Stands(l, at) && BearingOf(l.Input) != Suffers, s.Caution(l))
}

func withCaution(on bool, caution string) string {
	if on {
		return strings.TrimSuffix("48 V; "+caution, "; ")
	}
	return caution
}

// Stands reports whether an input's 48 V stands on a socket.
func (s *PhantomSheet) Stands(l *Line, at Socket) bool {
	_, stands := s.view.Powered(s.act, l)[at]
	return stands
}

// Caution says what is to be heeded before an input is plugged in: "NO 48 V – ribbon", "48 V off before plugging". An input that 48 V
// cannot come to has none.
func (s *PhantomSheet) Caution(l *Line) string {
	var said []string
	feeds := s.view.Feeds(s.act, l)
	if len(feeds) > 0 && BearingOf(l.Input) == Suffers {
		said = append(said, "NO 48 V – "+TypeWords(l.Input))
	}
	if slices.ContainsFunc(feeds, func(f Feed) bool { return s.leftFor(l, f.Socket).Line != nil }) {
		said = append(said, "48 V off before plugging")
	}
	return strings.Join(said, "; ")
}

// leftFor is another input that a preamp was left with 48 V for, before one is plugged in.
func (s *PhantomSheet) leftFor(l *Line, at Socket) PhantomLeft {
	if was, on := s.left[at]; on && was.Line.Input.ID != l.Input.ID {
		return was
	}
	return PhantomLeft{}
}

// Say tells of 48 V at an input in whole sentences: who switches it where and across what, what must not have it, and what the act
// before left on. None where there is nothing to say.
func (s *PhantomSheet) Say(l *Line) (said []string) {
	v, feeds := s.view, s.view.Feeds(s.act, l)
	switch fed := v.Fed(s.act, l); {
	case !l.Patched():
		return nil
	case BearingOf(l.Input) == Suffers && len(feeds) > 0:
		said = append(said, "NO 48 V: "+TypeWords(l.Input)+". It can come from "+v.FeedWords(feeds[0])+".")
	case len(fed) > 0:
		said = append(said, "48 V from "+v.FeedWords(fed[0])+".")
	case l.Input.Phantom:
		said = append(said, "48 V is wanted and does not come.")
	}
	for _, feed := range feeds {
		if was := s.leftFor(l, feed.Socket); was.Line != nil {
			said = append(said, "48 V off before plugging: "+v.SocketWords(feed.Socket)+" had it for "+was.Line.Input.Name+" in "+was.Act.Act.Name+".")
		}
	}
	return said
}

// FeedWords say where 48 V comes from: "SL in 2, switched by FOH, across Splitter".
func (v *View) FeedWords(feed Feed) string {
	said := v.SocketWords(feed.Socket)
	switch feed.Switch {
	case "":
	case feed.Socket.Device:
		said += ", switched there"
	default:
		said += ", switched by " + v.Name(feed.Switch)
	}
	if len(feed.Across) == 0 {
		return said
	}
	names := make([]string, len(feed.Across))
	for i, id := range feed.Across {
		names[i] = v.Name(id)
	}
	return said + ", across " + strings.Join(names, " and ")
}
