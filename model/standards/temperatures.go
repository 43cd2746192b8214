package standards

// Surroundings is where a cable lies, for want of a measured temperature.
type Surroundings string

// The surroundings.
const (
	Indoors Surroundings = "indoors"
	Shade   Surroundings = "shade"
	Sun     Surroundings = "sun"
)

// Cable temperatures in °C taken where nobody has stated one. Judgement, common practice.
const (
	indoorsC    = 30
	shadeC      = 40
	sunUnknownC = 55
	sunOverAirC = 20
)

// DefaultTemperatureC is the worst cable temperature in °C to expect in surroundings: indoors 30, in shade 40, in sun 55,
// or the worst air plus 20 where worstAirC is given (only sun uses it). The cable counts, not the air. The result may
// exceed the 60 °C to which loss over temperature is specified.
func DefaultTemperatureC(where Surroundings, worstAirC *float64) float64 {
	switch where {
	case Shade:
		return shadeC
	case Sun:
		if worstAirC != nil {
			return *worstAirC + sunOverAirC
		}
		return sunUnknownC
	default:
		return indoorsC
	}
}

// Wanted margins in dB. Judgement.
const (
	wantedWarmDB    = 1.5
	wantedUnknownDB = 3
	// LeastWantedMarginDB is the least a user may set: from here on every "enough" is inside the standard's own 24.0 dB.
	LeastWantedMarginDB = 1
)

// WantedMarginDB is the margin a link should have: 1.5 dB where its temperature is stated and no cooler than the site's
// default, 3 dB where it is blank (nil) or cooler, so that typing a low temperature buys no grade.
func WantedMarginDB(temperatureC *float64, siteDefaultC float64) float64 {
	if temperatureC != nil && *temperatureC >= siteDefaultC {
		return wantedWarmDB
	}
	return wantedUnknownDB
}
