package standards

// Caution is a usual caution of the trade; local codes, the venue and licensed practice come before it.
type Caution struct {
	// About says in a word or two what it is about.
	About string
	// Text says what to do and what not.
	Text string
}

// cautions are common practice, no source, except where local codes say more.
var cautions = []Caution{
	{"Walkways, roads, exits", "Cables across walkways, roads and exits lie under ramps or covers that are lit and leave no trip loops; fire lanes, exits and wheelchair ways stay clear."},
	{"Over people", "Nothing hangs over people without a rated fixing made by a competent rigger."},
	{"Protective earth", "Protective earth is never lifted to cure hum, and a screen is never cut for it. Screens stay connected at both ends in metal shells."},
	{"Separate supplies, outdoors", "Copper between separately fed or outdoor structures carries lightning and earth differences: use fibre there instead."},
	{"Static", "In dry air discharge yourself and the cable's shell before plugging in."},
	{"Fibre", "Never look into the end of a fibre or into its port; caps stay on what is not plugged in."},
	{"Power over data", "No power over data on a coiled drum or in a tight hot bundle."},
	{"Figures", "All figures here are computed from catalogue maxima and stated rules. They do not replace a test of the real link. Local codes, the venue's rules and licensed practice come before this plan."},
}

// Cautions returns the usual cautions in the order they are printed.
func Cautions() []Caution { return append([]Caution(nil), cautions...) }
