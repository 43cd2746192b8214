package catalogue

import (
	"fmt"

	"stageloom/model/plan"
)

// Media of cable kinds: the standards room's names with hyphens, and behind one more hyphen what tells sorts apart that
// do not join: multimode from singlemode, 50 ohm coax from 75.
const (
	pairs       = "balanced-pair"
	multimode   = "fibre-multimode"
	singlemode  = "fibre-singlemode"
	coax        = "coax"
	coax50      = "coax-50"
	audioMulti  = "analogue-multicore"
	audioSingle = "balanced-audio-pair"
)

// CableKinds returns the built-in kinds of cable. The slice is fresh at each call.
//
// Portable cable is stranded 24 AWG, screened, with lockable metal shells, unless its name says otherwise. Shells need a
// port that takes them; kinds with plain plugs are for racks and as tails. A kind whose name
// bears a figure has a maker's own loss at 100 MHz and 20 °C in dB per 100 m in the place of its category's. These figures
// are invented, as examples of such cable: change them to that of the cable at hand.
func CableKinds() []plan.CableKind {
	kinds := append(portable(), fixed()...)
	return append(kinds, others()...)
}

// pair is a four-pair cable with its connecting hardware's category.
func pair(id plan.CableKindID, name, category string, hardware plan.HardwareID, gauge int) plan.CableKind {
	return plan.CableKind{
		ID: id, Name: name, Media: pairs, Category: category, Hardware: hardware, Gauge: gauge, Pairs: 4, Connector: modular,
	}
}

// shelled makes it screened, with lockable metal shells at both ends. It states no form: a short one is coiled by hand, a long
// one kept on a drum.
func shelled(k plan.CableKind) plan.CableKind {
	k.Screened, k.Lockable, k.MetalShell = true, true, true
	return k
}

// bare gives it plain plugs; a screened one has metal-bodied plugs that carry its screen.
func bare(k plan.CableKind, screened bool, form string) plan.CableKind {
	k.Screened, k.MetalShell, k.Form = screened, screened, form
	return k
}

// socketed is a fixed cable between two panels, solid, a socket at each end.
func socketed(k plan.CableKind, screened bool) plan.CableKind {
	k.Solid, k.Screened, k.Lockable, k.MetalShell, k.NearEnd, k.FarEnd = true, screened, screened, screened, "socket", "socket"
	return k
}

func ownFigure(k plan.CableKind, figure float64) plan.CableKind {
	k.OwnFigure = plan.Some(figure)
	k.Note = "The figure is invented, as an example of a maker's own loss at 100 MHz and 20 °C: enter that of the cable at hand."
	return k
}

func portable() []plan.CableKind {
	drumWithSocket := shelled(pair("cat6a-drum-socket", "Cat 6A drum with socket", "cat6a", "cat6a", 24))
	drumWithSocket.Form, drumWithSocket.FarEnd = "drum", "socket"
	drumWithSocket.Note = "The far end is a socket on the drum; its inner connection counts as one more."
	return []plan.CableKind{
		bare(pair("cat5e-unscreened", "Cat 5e unscreened", "cat5e", "cat5e", 24), false, "coil"),
		shelled(pair("cat5e", "Cat 5e", "cat5e", "cat5e", 24)),
		bare(pair("cat5e-tail", "Cat 5e unscreened tail 26 AWG", "cat5e", "cat5e", 26), false, "tail"),
		bare(pair("cat6-unscreened", "Cat 6 unscreened", "cat6", "cat6", 24), false, "coil"),
		shelled(pair("cat6", "Cat 6", "cat6", "cat6", 24)),
		shelled(pair("cat6a", "Cat 6A", "cat6a", "cat6a", 24)),
		shelled(pair("cat6a-26", "Cat 6A 26 AWG", "cat6a", "cat6a", 26)),
		drumWithSocket,
		bare(pair("cat6a-tail", "Cat 6A tail 26 AWG", "cat6a", "cat6a", 26), true, "tail"),
		shelled(pair("cat7", "Cat 7", "cat7", "cat6a", 23)),
		ownFigure(shelled(pair("cat5e-own", "Cat 5e, own figure 22.5", "cat5e", "cat5e", 24)), 22.5),
		ownFigure(shelled(pair("cat6a-own", "Cat 6A low-loss, own figure 19.2", "cat6a", "cat6a", 23)), 19.2),
		ownFigure(shelled(pair("cat7-own", "Cat 7 low-loss, own figure 17.6", "cat7", "cat6a", 22)), 17.6),
	}
}

func fixed() []plan.CableKind {
	return []plan.CableKind{
		socketed(pair("cat5e-solid-unscreened", "Cat 5e solid unscreened, sockets", "cat5e", "cat5e", 24), false),
		socketed(pair("cat6-solid-unscreened", "Cat 6 solid unscreened, sockets", "cat6", "cat6", 23), false),
		socketed(pair("cat6-solid", "Cat 6 solid, sockets", "cat6", "cat6", 23), true),
		socketed(pair("cat6a-solid", "Cat 6A solid, sockets", "cat6a", "cat6a", 23), true),
		socketed(pair("cat7-solid", "Cat 7 solid, sockets", "cat7", "cat6a", 23), true),
	}
}

func others() []plan.CableKind {
	snake := func(id plan.CableKindID, ways int) plan.CableKind {
		return plan.CableKind{
			ID: id, Name: fmt.Sprintf("Analogue multicore %d ways", ways), Media: audioMulti, Screened: true, Pairs: ways, Ways: ways,
			Connector: multiPin, Lockable: true, MetalShell: true, Form: "drum",
		}
	}
	optical := func(id plan.CableKindID, name, media string) plan.CableKind {
		return plan.CableKind{ID: id, Name: name, Media: media, Ways: 2, Connector: fibrePair, Form: "drum"}
	}
	return []plan.CableKind{
		snake("multicore-12", 12), snake("multicore-16", 16), snake("multicore-24", 24), snake("multicore-48", 48),
		optical("fibre-multimode", "Fibre multimode, 2 fibres", multimode),
		optical("fibre-singlemode", "Fibre singlemode, 2 fibres", singlemode),
		{ID: "coax", Name: "Coax 75 ohm", Media: coax, Ways: 1, Screened: true, Connector: coaxial, Form: "drum"},
		{ID: "coax-50", Name: "Coax 50 ohm", Media: coax50, Ways: 1, Screened: true, Connector: coaxial, Form: "coil"},
		{ID: "audio-pair", Name: "Digital audio pair 110 ohm", Media: audioSingle, Pairs: 1, Ways: 1, Screened: true, Connector: audioRound, MetalShell: true, Form: "coil"},
		{ID: "intercom", Name: "Intercom cable", Media: audioSingle, Pairs: 1, Ways: 1, Screened: true, Connector: audioRound, MetalShell: true, Form: "coil"},
	}
}
