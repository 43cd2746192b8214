package plan

import "strings"

// Edition is the newest edition of the built-in standards data that plans can name.
const Edition = 2

// Optional is a figure that may be left blank; blank is left out of the file. Its unit is that of its field.
type Optional struct {
	Value float64
	Set   bool
}

// Some returns a set figure.
func Some(value float64) Optional { return Optional{value, true} }

// Or returns the figure, or the given one where it is blank.
func (o Optional) Or(blank float64) float64 {
	if o.Set {
		return o.Value
	}
	return blank
}

// Settings are the figures that decide the grade of every link, and the words on the title strip.
// They live in the plan, so that it grades the same on every machine. Blank slack is taken by rule, link by link; a figure
// that stands here holds for every link that has none of its own. The identity is what the house's stock knows the plan by,
// whatever it is called and wherever its file lies; a copy that is worked on by itself has another. OutOn and BackOn are the days
// from which and until which the show has what it takes of the stock; blank ones are open.
type Settings struct {
	Name         string   `json:"name"`
	Identity     string   `json:"identity,omitzero" slug:"true"`
	Site         string   `json:"site,omitzero"`
	Note         string   `json:"note,omitzero" long:"true"`
	Revision     string   `json:"revision,omitzero"`
	Date         string   `json:"date,omitzero"`
	OutOn        string   `json:"stock_out_on,omitzero"`
	BackOn       string   `json:"stock_back_on,omitzero"`
	Exposure     string   `json:"exposure" oneof:"indoors shade sun"`
	Temperature  Optional `json:"temperature_C,omitzero" range:"-20 60"`
	Air          Optional `json:"worst_air_C,omitzero" range:"-20 60"`
	WantedMargin Optional `json:"wanted_margin_dB,omitzero" range:"1 20"`
	SlackPercent Optional `json:"slack_percent,omitzero" range:"0 100"`
	SlackEnd     Optional `json:"slack_end_m,omitzero" range:"0 100"`
	Detour       float64  `json:"straight_way_factor" range:"1 3"`
	Coupler      string   `json:"coupler" slug:"true"`
	Standards    int      `json:"standards" range:"1 1000"`
	SampleRate   string   `json:"sample_rate_kHz,omitzero" oneof:"44.1 48 88.2 96"`
	North        float64  `json:"north_degrees,omitzero" range:"-360 360"`
	PrintPaper   string   `json:"print_paper" oneof:"A4 A3 Letter"`
	PrintGrey    bool     `json:"print_grey,omitzero"`
}

// DefaultSettings are those of a new plan: slack by rule, a straight way counted × 1.15 until it is drawn (common
// practice, no source), outdoors in the shade, Cat 6A couplers.
func DefaultSettings() Settings {
	return Settings{
		Name: "New plan", Revision: "A", Exposure: "shade", Detour: 1.15,
		Coupler: "cat6a", Standards: Edition, PrintPaper: "A4",
	}
}

func words(list string) []string { return strings.Fields(list) }

// SampleRateHz is the sample rate of the plan's audio in hertz: 48 kHz unless it says otherwise.
func (s Settings) SampleRateHz() int {
	switch s.SampleRate {
	case "44.1":
		return 44100
	case "88.2":
		return 88200
	case "96":
		return 96000
	}
	return 48000
}
