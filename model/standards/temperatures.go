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
	// SunOverAirC is how many kelvins cable in the sun is warmer than the air.
	SunOverAirC = 20.0
)

// SpecifiedC is the cable temperature in °C up to which loss over temperature is specified: TIA-568-C.2 6.4.7, published.
const SpecifiedC = 60.0

// DefaultTemperatureC is the worst cable temperature in °C to expect in surroundings: indoors 30; in shade 40, or the worst
// air where that is warmer; in sun 55, or the worst air plus 20 where that is given, never cooler than in shade. The cable
// counts, not the air. It ends at the 60 °C to which loss over temperature is specified.
func DefaultTemperatureC(where Surroundings, worstAirC *float64) float64 {
	shade, sun := float64(shadeC), float64(sunUnknownC)
	if worstAirC != nil {
		shade = max(shade, *worstAirC)
		sun = max(shade, *worstAirC+SunOverAirC)
	}
	switch where {
	case Shade:
		return min(shade, SpecifiedC)
	case Sun:
		return min(sun, SpecifiedC)
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
