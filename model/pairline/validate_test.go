package pairline_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
)

func TestValidateNamesFieldValueAndRange(t *testing.T) {
	cases := []struct {
		name   string
		change func(*pairline.Segment)
		want   string
	}{
		{"too short", func(s *pairline.Segment) { s.Length = 0.05 }, "segment 1 (Cat 5e): length is 0.05 m; it must be from 0.1 to 1000 m"},
		{"too long", func(s *pairline.Segment) { s.Length = 1000.5 }, "length is 1000.5 m"},
		{"no number for a length", func(s *pairline.Segment) { s.Length = math.NaN() }, "length is NaN m"},
		{"an infinite length", func(s *pairline.Segment) { s.Length = math.Inf(1) }, "length is +Inf m"},
		{"a negative length", func(s *pairline.Segment) { s.Length = -5 }, "length is -5 m"},
		{"a strand factor under 0.8", func(s *pairline.Segment) { s.StrandFactor = 0.79 }, "strand factor is 0.79; it must be from 0.8 to 2"},
		{"a strand factor left out", func(s *pairline.Segment) { s.StrandFactor = 0 }, "strand factor is 0;"},
		{"a unit factor over 2", func(s *pairline.Segment) { s.UnitFactor = 2.01 }, "unit factor is 2.01; it must be from 0.8 to 2"},
		{"colder than specified", func(s *pairline.Segment) { s.TemperatureC = -21 }, "temperature is -21 °C; it must be from -20 to 60 °C"},
		{"hotter than specified", func(s *pairline.Segment) { s.TemperatureC = 61 }, "temperature is 61 °C"},
		{"no number for a temperature", func(s *pairline.Segment) { s.TemperatureC = math.NaN() }, "temperature is NaN °C"},
		{"impedance too low", func(s *pairline.Segment) { s.Impedance = 69 }, "impedance is 69 Ω; it must be from 70 to 150 Ω"},
		{"impedance too high", func(s *pairline.Segment) { s.Impedance = math.Inf(1) }, "impedance is +Inf Ω"},
		{"a conductor without resistance", func(s *pairline.Segment) { s.ConductorOhmPer100m = 0 }, "conductor resistance per 100 m is 0 Ω"},
		{"a cable without figures", func(s *pairline.Segment) { s.Cable = pairline.Cable{Name: "Cat 5e"} }, "k1 is 0 dB"},
		{"a cable with a crosstalk that is no number", func(s *pairline.Segment) { s.Cable.NEXTDB = math.NaN() }, "NEXT at 100 MHz is NaN dB"},
	}
	for _, c := range cases {
		t.Run(c.name+" is refused", func(t *testing.T) {
			segment := reel("cat5e", 50)
			c.change(&segment)
			err := lineOf(segment).Validate()
			require.ErrorContains(t, err, c.want)
			var outside *pairline.RangeError
			require.ErrorAs(t, err, &outside)
			require.Error(t, segment.Validate())
		})
	}
	t.Run("both ends of every range are allowed", func(t *testing.T) {
		for _, change := range []func(*pairline.Segment){
			func(s *pairline.Segment) { s.Length = 0.1 }, func(s *pairline.Segment) { s.Length = 1000 },
			func(s *pairline.Segment) { s.StrandFactor = 0.8 }, func(s *pairline.Segment) { s.UnitFactor = 2 },
			func(s *pairline.Segment) { s.TemperatureC = -20 }, func(s *pairline.Segment) { s.TemperatureC = 60 },
			func(s *pairline.Segment) { s.Impedance = 70 }, func(s *pairline.Segment) { s.Impedance = 150 },
		} {
			segment := reel("cat5e", 50)
			change(&segment)
			require.NoError(t, lineOf(segment).Validate())
		}
	})
}

// foreign pretends to be a part by holding one.
type foreign struct{ pairline.Part }

func TestValidateTheLine(t *testing.T) {
	t.Run("a line without a cable is refused", func(t *testing.T) {
		require.ErrorIs(t, lineOf().Validate(), pairline.ErrNoSegment)
		require.ErrorIs(t, lineOf(connection("cat6")).Validate(), pairline.ErrNoSegment)
	})
	t.Run("32 segments are a line and 33 are not", func(t *testing.T) {
		var line pairline.Line
		for range pairline.MaxSegments {
			line.Parts = append(line.Parts, reel("cat6", 1))
		}
		require.NoError(t, line.Validate())
		line.Parts = append(line.Parts, reel("cat6", 1))
		require.EqualError(t, line.Validate(), "line: number of segments is 33; it must be from 1 to 32")
	})
	t.Run("the offending one of several segments is named", func(t *testing.T) {
		bad := reel("cat6a", 2000)
		require.ErrorContains(t, lineOf(reel("cat5e", 5), connection("cat6a"), bad).Validate(), "segment 2 (Cat 6A): length")
	})
	t.Run("a connection out of range is refused", func(t *testing.T) {
		bad := connection("cat6a")
		bad.K = math.NaN()
		require.ErrorContains(t, lineOf(reel("cat5e", 5), bad).Validate(), "interface 1 (Cat 6A hardware): k is NaN dB")
		require.Error(t, bad.Validate())
	})
	t.Run("what is no part is refused", func(t *testing.T) {
		require.ErrorContains(t, lineOf(reel("cat5e", 5), nil).Validate(), "part 2 is neither")
		require.ErrorContains(t, lineOf(foreign{reel("cat5e", 5)}).Validate(), "part 1 is neither")
	})
	t.Run("more connections than any line has are refused", func(t *testing.T) {
		line := lineOf(reel("cat5e", 5))
		for range 1000 {
			line.Parts = append(line.Parts, connection("cat6a"))
		}
		require.ErrorContains(t, line.Validate(), "number of interfaces is 1000")
	})
}
