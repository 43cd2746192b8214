package standards

import "slices"

// TransportSlug names a transport, such as "aes50".
type TransportSlug string

// Media is what a transport runs on.
type Media string

// The media.
const (
	BalancedPair      Media = "balanced pair" // four-pair data cable, 100 Ω
	BalancedAudioPair Media = "balanced audio pair"
	AnalogueMulticore Media = "analogue multicore"
	Coax              Media = "coax"
	Fibre             Media = "fibre"
)

// RateChannels is how many audio channels a transport carries each way at a sample rate in Hz.
type RateChannels struct {
	SampleRate int
	EachWay    int
}

// Transport is how a link carries what it carries. One with a limit rule is graded; others have length, cables and
// labels but no decibels.
type Transport struct {
	Slug      TransportSlug
	Name      string
	Media     Media
	Connector string
	// Rule grades the transport; empty where it carries no grade.
	Rule RuleSlug
	// ScreenRequired: the cable must be screened, its screen connected at both ends in metal shells.
	ScreenRequired bool
	// PairsNeeded is how many pairs must be there and sound; 0 where it is not made of pairs.
	PairsNeeded int
	// NeverIntoNetworkPort: it looks like a network cable and must not be plugged into a network port.
	NeverIntoNetworkPort bool
	// PowerOverLink: the standard provides for power to the device over the same pairs.
	PowerOverLink bool
	// OneWay: one cable carries one direction.
	OneWay bool
	// Channels by sample rate; empty where the number depends on the equipment.
	Channels []RateChannels
	// StatedDistance in metres that the standard promises; 0 where it states none, or none is held here.
	StatedDistance float64
	// DelayLimitNs and SkewLimitNs in nanoseconds; 0 where there is none. Exceeding the delay informs and never fails a
	// full-duplex link.
	DelayLimitNs, SkewLimitNs float64
	// NEXTLimitDB and ACRFLimitDB are the least pair-to-pair crosstalk figures in dB at 100 MHz; 0 where there are none.
	NEXTLimitDB, ACRFLimitDB float64
	// Impedance of its coax in ohms; 0 where it runs on something else.
	Impedance int
	// Accepts lists the other transports that a port of this one takes as well.
	Accepts []TransportSlug
	Provenance
}

// Graded says whether the transport has a loss budget.
func (t Transport) Graded() bool { return t.Rule != "" }

// AcceptedBy says whether a port of the given transport takes a link of this one.
func (t Transport) AcceptedBy(port Transport) bool {
	return port.Slug == t.Slug || slices.Contains(port.Accepts, t.Slug)
}

// ChannelsAt is how many channels it carries each way at a sample rate in Hz; false where that is not stated.
func (t Transport) ChannelsAt(sampleRate int) (int, bool) {
	for _, c := range t.Channels {
		if c.SampleRate == sampleRate {
			return c.EachWay, true
		}
	}
	return 0, false
}

// byRate gives channel numbers at single (44.1 and 48 kHz) and double (88.2 and 96 kHz) sample rates.
func byRate(single, double int) []RateChannels {
	return []RateChannels{{44100, single}, {48000, single}, {88200, double}, {96000, double}}
}

const (
	modularPlug = "8P8C (RJ45)"
	lockingPlug = "8P8C (RJ45) in a locking metal shell"
	noBudget    = "trade term; no budget held here"
)

var transports = []Transport{
	{
		Slug: "aes50", Name: "AES50", Media: BalancedPair, Connector: lockingPlug, Rule: "aes50-field",
		ScreenRequired: true, PairsNeeded: 4, NeverIntoNetworkPort: true, Channels: byRate(48, 24), StatedDistance: 100,
		Provenance: Provenance{Memory, "AES50; 100 Mb/s signalling of IEEE 802.3 on two pairs, clock on the other two; screen and all four pairs: common practice"},
	},
	{
		Slug: "100base-tx", Name: "100BASE-TX", Media: BalancedPair, Connector: modularPlug, Rule: "ieee-link-segment",
		PairsNeeded: 2, PowerOverLink: true, StatedDistance: 100,
		Provenance: Provenance{Memory, "IEEE 802.3 clause 25"},
	},
	{
		Slug: "1000base-t", Name: "1000BASE-T", Media: BalancedPair, Connector: modularPlug, Rule: "ieee-link-segment",
		PairsNeeded: 4, PowerOverLink: true, StatedDistance: 100, DelayLimitNs: 570, SkewLimitNs: 50,
		NEXTLimitDB: 27.1, ACRFLimitDB: 17,
		Accepts:    []TransportSlug{"100base-tx"},
		Provenance: Provenance{Memory, "IEEE 802.3 clause 40; crosstalk 40.7.3"},
	},
	{
		Slug: "aes10", Name: "AES10", Media: Coax, Connector: "BNC, 75 Ω", OneWay: true, Channels: byRate(64, 32), Impedance: 75, StatedDistance: 50,
		Provenance: Provenance{Memory, "AES10; 64 channels without varispeed; 50 m on coax as its published summary states; on fibre plan it as fibre"},
	},
	{
		Slug: "aes3", Name: "AES3", Media: BalancedAudioPair, Connector: "XLR-3, 110 Ω", OneWay: true,
		ScreenRequired: true, PairsNeeded: 1, Channels: byRate(2, 2), StatedDistance: 100,
		Provenance: Provenance{Memory, "AES3"},
	},
	{
		Slug: "analogue-multicore", Name: "Analogue multicore", Media: AnalogueMulticore,
		Connector: "multipin, or XLR-3 tails", ScreenRequired: true,
		Provenance: Provenance{CommonPractice, noBudget},
	},
	{
		Slug: "analogue-line", Name: "Analogue line", Media: BalancedAudioPair, Connector: "XLR-3", OneWay: true,
		ScreenRequired: true, PairsNeeded: 1,
		Provenance: Provenance{CommonPractice, noBudget},
	},
	{
		Slug: "fibre", Name: "Fibre", Media: Fibre, Connector: "duplex LC, or expanded beam",
		Provenance: Provenance{CommonPractice, noBudget},
	},
	{
		Slug: "coax-video", Name: "Coax video", Media: Coax, Connector: "BNC, 75 Ω", OneWay: true, Impedance: 75,
		Provenance: Provenance{CommonPractice, noBudget},
	},
	{
		Slug: "word-clock", Name: "Word clock", Media: Coax, Connector: "BNC, 75 Ω", OneWay: true, Impedance: 75, StatedDistance: 100,
		Provenance: Provenance{CommonPractice, noBudget + "; 100 m is judgement, no source"},
	},
	{
		Slug: "antenna", Name: "Antenna", Media: Coax, Connector: "BNC, 50 Ω", OneWay: true, Impedance: 50,
		Provenance: Provenance{CommonPractice, noBudget},
	},
	{
		Slug: "intercom", Name: "Intercom", Media: BalancedAudioPair, Connector: "XLR-3", ScreenRequired: true, PairsNeeded: 1,
		Provenance: Provenance{CommonPractice, noBudget},
	},
}

// Transports gives all transports, graded ones of a medium first.
func Transports() []Transport { return slices.Clone(held.Transports) }

// TransportBySlug finds a transport, or an error that wraps ErrUnknown and lists the slugs there are.
func TransportBySlug(slug TransportSlug) (Transport, error) {
	return lookup(held.Transports, func(t Transport) TransportSlug { return t.Slug }, slug, "transport")
}
