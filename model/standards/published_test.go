package standards_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

func cable(t *testing.T, slug standards.CableSlug) standards.Cable {
	t.Helper()
	found, err := standards.CableBySlug(slug)
	require.NoError(t, err)
	return found
}

func hardware(t *testing.T, slug standards.HardwareSlug) standards.Hardware {
	t.Helper()
	found, err := standards.HardwareBySlug(slug)
	require.NoError(t, err)
	return found
}

func rule(t *testing.T, slug standards.RuleSlug) standards.LimitRule {
	t.Helper()
	found, err := standards.LimitRuleBySlug(slug)
	require.NoError(t, err)
	return found
}

// solid is a solid, unscreened cable at 20 °C.
func solid(t *testing.T, slug standards.CableSlug, length float64) pairline.Segment {
	t.Helper()
	built := standards.Reel(cable(t, slug))
	built.Screened = false
	var err error
	built.Conductor, err = standards.ConductorBySlug("24awg-solid")
	require.NoError(t, err)
	return built.Segment(length, 20)
}

func TestCat5eCableTable(t *testing.T) {
	// TIA-568-C loss tables as printed in a textbook chapter on LAN wiring, published.
	table := map[float64]float64{
		1: 2.0, 4: 4.1, 8: 5.8, 10: 6.5, 16: 8.2, 20: 9.3, 25: 10.4, 31.25: 11.7, 62.5: 17.0, 100: 22.0,
	}
	for freq, want := range table {
		t.Run(fmt.Sprintf("100 m of solid Cat 5e lose %g dB at %g MHz", want, freq), func(t *testing.T) {
			require.InDelta(t, want, solid(t, "cat5e", 100).Loss().At(freq), 0.05+1e-9)
		})
	}
}

// channel is 90 m of solid cable and two stranded cords of 5 m with a connection at each of four places.
func channel(t *testing.T, slug standards.CableSlug) pairline.Line {
	t.Helper()
	joint := hardware(t, standards.HardwareSlug(slug)).Figures
	cord := standards.Reel(cable(t, slug)).Segment(5, 20)
	return pairline.Line{Parts: []pairline.Part{joint, cord, joint, solid(t, slug, 90), joint, cord, joint}}
}

func TestComponentsSumToTheirChannel(t *testing.T) {
	// TIA-568 figures of cable, connection and channel at 100 MHz, published.
	cases := []struct {
		slug                                   standards.CableSlug
		cable, connection, channel             float64
		cableNEXT, connectionNEXT, channelNEXT float64
		cableACRF, connectionFEXT, channelACRF float64
	}{
		{"cat5e", 22.0, 0.4, 24.0, 35.3, 43.0, 30.1, 23.8, 35.1, 17.4},
		{"cat6", 19.8, 0.2, 21.3, 44.3, 54.0, 39.9, 27.8, 43.1, 23.3},
	}
	for _, c := range cases {
		t.Run(string(c.slug), func(t *testing.T) {
			kind, joint := cable(t, c.slug).Figures, hardware(t, standards.HardwareSlug(c.slug)).Figures
			require.InDelta(t, c.cable, kind.Loss().At(100), 0.1)
			require.InDelta(t, c.connection, joint.Loss().At(100), 0.1)
			require.InDelta(t, c.channel, rule(t, standards.RuleSlug("channel-"+c.slug)).LimitDB(), 0.1)
			require.InDelta(t, c.cableNEXT, kind.NEXTDB, 0)
			require.InDelta(t, c.connectionNEXT, joint.NEXTDB, 0)
			require.InDelta(t, c.cableACRF, kind.ACRFDB, 0)
			require.InDelta(t, c.connectionFEXT, joint.FEXTDB, 0)
			// The published channel adds two connections to the cable in voltage at the near end, four at the far end.
			volts := func(db float64) float64 { return math.Pow(10, -db/20) }
			next := -20 * math.Log10(volts(c.cableNEXT)+2*volts(c.connectionNEXT))
			acrf := -20 * math.Log10(volts(c.cableACRF)+4*volts(c.connectionFEXT))
			require.InDelta(t, c.channelNEXT, next, 0.1)
			require.InDelta(t, c.channelACRF, acrf, 0.1)
		})
	}
	t.Run("a channel as built keeps inside its own limits", func(t *testing.T) {
		for _, c := range cases {
			line := channel(t, c.slug)
			require.LessOrEqual(t, line.Loss().At(100), c.channel+0.1, c.slug)
			require.GreaterOrEqual(t, line.ACRF(100).WorstDB, c.channelACRF-0.1, c.slug)
			require.GreaterOrEqual(t, line.WorseEndNEXT(100).WorstDB, c.channelNEXT-0.1, c.slug)
		}
	})
}

func TestChannelLimits(t *testing.T) {
	cases := []struct {
		slug       standards.RuleSlug
		freq, want float64
	}{
		// TIA-568-C.2, published.
		{"channel-cat5e", 100, 24.0},
		{"channel-cat6", 100, 21.3},
		{"channel-cat6a", 100, 20.9},
		{"channel-cat6a", 250, 33.9},
		{"channel-cat6a", 500, 49.3},
		// Channel Cat 5 of TSB-95, published, which the formula of IEEE 802.3 40.7.2.1 (from memory) reproduces.
		{"ieee-link-segment", 1, 2.5},
		{"ieee-link-segment", 4, 4.5},
		{"ieee-link-segment", 100, 24.0},
		// Common practice, no source.
		{"aes50-field", 100, 25},
	}
	for _, c := range cases {
		t.Run(fmt.Sprintf("%s at %g MHz is %g dB", c.slug, c.freq, c.want), func(t *testing.T) {
			require.InDelta(t, c.want, rule(t, c.slug).LimitAt(c.freq), 0.1)
			require.GreaterOrEqual(t, rule(t, c.slug).TopMHz, c.freq)
		})
	}
	t.Run("the shares of cable in a channel are 90 m and 10 m of cords", func(t *testing.T) {
		// Arithmetic of the published limits: 1.02 = (90 + 1.2·10)/100, 1.05 = (90 + 1.5·10)/100.
		kind, joint := cable(t, "cat5e").Figures.Loss(), hardware(t, "cat5e").Figures.Loss()
		require.InDelta(t, kind.Times(1.02).Plus(joint.Times(4)).At(31.25), rule(t, "channel-cat5e").LimitAt(31.25), 1e-12)
		kind, joint = cable(t, "cat6a").Figures.Loss(), hardware(t, "cat6a").Figures.Loss()
		require.InDelta(t, kind.Times(1.05).Plus(joint.Times(4)).At(31.25), rule(t, "channel-cat6a").LimitAt(31.25), 1e-12)
		kind, joint = cable(t, "cat6").Figures.Loss(), hardware(t, "cat6").Figures.Loss()
		require.InDelta(t, kind.Times(1.02).Plus(joint.Times(4)).At(64)+0.0003*512, rule(t, "channel-cat6").LimitAt(64), 1e-12)
	})
	t.Run("the field rule leans on the link segment away from 100 MHz, every other rule on itself", func(t *testing.T) {
		for _, r := range standards.LimitRules() {
			want := r.Slug
			if r.Slug == "aes50-field" {
				want = "ieee-link-segment"
			}
			require.Equal(t, want, r.CurveRule().Slug)
		}
	})
}

func TestChannelDelay(t *testing.T) {
	// TIA-568, published: a channel of 100 m delays by at most 548 ns at 100 MHz, its pairs differ by at most 50 ns.
	line := channel(t, "cat5e")
	require.InDelta(t, 548, line.DelayNs(100), 1)
	require.InDelta(t, 50, line.SkewNs(), 1)
}

func TestCopper(t *testing.T) {
	// AWG: 0.127 mm · 92^((36−n)/39). Annealed copper at 20 °C, 1/58 Ω·mm²/m: the basis of NBS Handbook 100, published.
	for _, conductor := range standards.Conductors() {
		diameter := 0.127 * math.Pow(92, float64(36-conductor.Gauge)/39)
		ohm := 100 / (58 * math.Pi / 4 * diameter * diameter)
		t.Run(string(conductor.Slug), func(t *testing.T) {
			if !conductor.Stranded {
				require.InEpsilon(t, ohm, conductor.OhmPer100m, 0.001)
				require.InDelta(t, 1, conductor.StrandFactor, 0)
				return
			}
			// Strands of the same gauge have 4 to 7 % more: lay, and strands that do not fill the circle. From memory.
			require.InDelta(t, 1.055, conductor.OhmPer100m/ohm, 0.015)
		})
	}
}

func TestStrandFactor(t *testing.T) {
	// TIA-568 and ISO 11801, published; stranded 28 AWG from memory of TIA-568.2-D.
	for slug, want := range map[standards.ConductorSlug]float64{
		"24awg-solid": 1, "23awg-stranded": 1.2, "24awg-stranded": 1.2, "26awg-stranded": 1.5, "28awg-stranded": 1.95,
	} {
		conductor, err := standards.ConductorBySlug(slug)
		require.NoError(t, err)
		require.InDelta(t, want, conductor.StrandFactor, 0, slug)
	}
}

func TestPowerTypes(t *testing.T) {
	// IEEE 802.3 clauses 33 and 145: over 100 m of cabling, 20 Ω a loop for type 1 and 12.5 Ω shared by two pairs for the
	// others, each class leaves its device power. Classes 3, 4, 6 and 8 published, 5 and 7 from memory.
	for _, power := range standards.PowerTypes() {
		t.Run(power.Name+" leaves its device power and its least voltage", func(t *testing.T) {
			loop := 25.0
			if power.Slug == "type1" {
				loop = 40
			}
			feed, err := power.Deliver(loop)
			require.NoError(t, err)
			require.InDelta(t, power.DevicePower, feed.DevicePower, 0.1)
			require.InDelta(t, power.DeviceVoltage, feed.DeviceVoltage, 0.15)

			drawn, err := power.Draw(loop)
			require.NoError(t, err)
			require.InDelta(t, power.DevicePower, drawn.DevicePower, 1e-9)
			_, err = power.Draw(loop * 1.2)
			require.ErrorIs(t, err, pairline.ErrVoltageLow)
			_, err = power.Draw(loop * 4)
			require.ErrorIs(t, err, pairline.ErrPowerBeyond)
		})
	}
}
