package standards

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

const ownSuffix = "-own"

// ParseConstruction reads the KIND[:OPTION,OPTION…] of a chain, such as "cat6a-own:19.2,26awg", without a length.
func ParseConstruction(text string) (Construction, error) {
	name, list, _ := strings.Cut(strings.ToLower(text), ":")
	slug, own := strings.CutSuffix(name, ownSuffix)
	cable, err := CableBySlug(CableSlug(slug))
	if err != nil {
		return Construction{}, err
	}
	var options []string
	if list != "" {
		options = strings.Split(list, ",")
	}
	built := Reel(cable)
	if own {
		if len(options) == 0 {
			return Construction{}, fmt.Errorf("%q lacks its own figure; write, for instance, %s%s:19.2", shorten(text), slug, ownSuffix)
		}
		options = decimalComma(options)
		if built.OwnFigureDB, err = ownFigure(cable, options[0]); err != nil {
			return Construction{}, err
		}
		options = options[1:]
	}
	reading := optionReader{built: built, gauge: built.Conductor.Gauge, stranded: true, seen: map[string]string{}}
	for _, option := range options {
		if err := reading.take(option); err != nil {
			return Construction{}, err
		}
	}
	return reading.finish()
}

var (
	digits   = regexp.MustCompile(`^\d+$`)
	decimals = regexp.MustCompile(`^\d+(db)?$`)
)

// decimalComma joins an own figure that is written with a decimal comma, as in cat6a-own:18,5: no option is digits alone.
func decimalComma(options []string) []string {
	if len(options) < 2 || !digits.MatchString(options[0]) || !decimals.MatchString(options[1]) {
		return options
	}
	mark := "."
	if len(strings.TrimSuffix(options[1], "db")) > 2 {
		mark = "," // thousands or decimals: refused, as it is written
	}
	return append([]string{options[0] + mark + options[1]}, options[2:]...)
}

// ownFigure reads a maker's figure and refuses one that its category cannot have.
func ownFigure(cable Cable, text string) (float64, error) {
	figure, err := strconv.ParseFloat(strings.TrimSuffix(text, "db"), 64)
	if err != nil || math.IsNaN(figure) {
		return 0, fmt.Errorf("own figure %q is no number; write dB per 100 m at 100 MHz, for instance %s%s:19.2", shorten(text), cable.Slug, ownSuffix)
	}
	return figure, cable.CheckOwnFigure(figure)
}

// optionReader gathers the options of one cable.
type optionReader struct {
	built    Construction
	gauge    int
	stranded bool
	seen     map[string]string // what was stated, to refuse a second statement of the same thing
}

// take reads one option.
func (r *optionReader) take(option string) error {
	switch option {
	case "solid", "stranded":
		r.stranded = option == "stranded"
		return r.once("conductors", option)
	case "screened", "unscreened":
		r.built.Screened = option == "screened"
		return r.once("screen", option)
	case "iso50":
		r.built.WholeAllowance = true
		return r.once("allowance", option)
	}
	if number, found := strings.CutSuffix(option, "awg"); found {
		gauge, err := strconv.Atoi(number)
		if err != nil {
			return fmt.Errorf("%q is no gauge; write, for instance, 24awg", shorten(option))
		}
		r.gauge = gauge
		return r.once("gauge", option)
	}
	if number, found := strings.CutSuffix(option, "ohm"); found {
		ohm, err := strconv.ParseFloat(number, 64)
		if err != nil {
			return fmt.Errorf("%q is no impedance; write, for instance, 95ohm", shorten(option))
		}
		r.built.Impedance = ohm
		return r.once("impedance", option)
	}
	return r.unknown(option)
}

// unknown refuses an option, with the likeliest remedy first.
func (r *optionReader) unknown(option string) error {
	if option == "" {
		return errors.New("an option is empty; join options by commas without blanks, for instance cat5e:solid,unscreened 50")
	}
	if _, err := strconv.ParseFloat(strings.TrimSuffix(option, "db"), 64); err == nil {
		return fmt.Errorf("a figure needs the own kind; write %s%s:%s", r.built.Cable.Slug, ownSuffix, option)
	}
	return fmt.Errorf("%w option %q; write one of 22awg, 23awg, 24awg, 26awg, 28awg, iso50, screened, solid, stranded, unscreened, or an impedance such as 95ohm",
		ErrUnknown, shorten(option))
}

func (r *optionReader) once(matter, option string) error {
	if before, found := r.seen[matter]; found {
		return fmt.Errorf("%s and %s both state the %s; write one of them", before, option, matter)
	}
	r.seen[matter] = option
	return nil
}

// finish settles the conductor and refuses options that contradict each other.
func (r *optionReader) finish() (Construction, error) {
	built := r.built
	conductor, err := ConductorOf(r.gauge, !r.stranded)
	switch {
	case errors.Is(err, ErrNoFactor):
		return Construction{}, fmt.Errorf("%w; leave out the gauge and write its maker's own figure, for instance %s%s:19.2", err, built.Cable.Slug, ownSuffix)
	case err != nil:
		return Construction{}, err
	case conductor.Gauge != r.gauge:
		return Construction{}, fmt.Errorf("%w %s conductor of %d AWG; write one of %s", ErrUnknown, makeOf(r.stranded), r.gauge, gaugesOf(r.stranded))
	}
	built.Conductor = conductor
	switch {
	case built.WholeAllowance && !r.stranded:
		return Construction{}, errors.New("iso50 is for stranded conductors; leave out iso50 or solid")
	case built.WholeAllowance && built.OwnFigureDB != 0:
		return Construction{}, errors.New("an own figure holds for the cable as built; leave out iso50")
	case built.Cable.AlwaysScreened && !built.Screened:
		return Construction{}, fmt.Errorf("%s is made screened only; leave out unscreened", built.Cable.Name)
	}
	return built, nil
}

func makeOf(stranded bool) string {
	if stranded {
		return "stranded"
	}
	return "solid"
}

// gaugesOf lists the known gauges of one make, as options are written.
func gaugesOf(stranded bool) string {
	var gauges []string
	for _, c := range conductors {
		if c.Stranded == stranded {
			gauges = append(gauges, fmt.Sprintf("%dawg", c.Gauge))
		}
	}
	return strings.Join(gauges, ", ")
}
