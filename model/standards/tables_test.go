package standards_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

var slugShape = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// requireRow holds what every row of every table must have.
func requireRow(t *testing.T, seen map[string]bool, slug, name string, from standards.Provenance) {
	t.Helper()
	require.Regexp(t, slugShape, slug)
	require.False(t, seen[slug], "slug %s twice", slug)
	seen[slug] = true
	require.NotEmpty(t, name, slug)
	require.NotEmpty(t, from.Source, slug)
	require.Contains(t, []standards.Status{standards.Published, standards.Memory, standards.CommonPractice}, from.Status, slug)
}

func TestEveryRowHasSlugNameStatusAndSource(t *testing.T) {
	t.Run("cables", func(t *testing.T) {
		seen := map[string]bool{}
		for _, c := range standards.Cables() {
			requireRow(t, seen, string(c.Slug), c.Name, c.Provenance)
			require.NoError(t, standards.Reel(c).Segment(50, 20).Validate())
			require.Equal(t, c.Name, c.Figures.Name)
			hardware(t, c.Plug)
			require.Equal(t, c, cable(t, c.Slug))
		}
	})
	t.Run("hardware", func(t *testing.T) {
		seen := map[string]bool{}
		for _, h := range standards.AllHardware() {
			requireRow(t, seen, string(h.Slug), h.Name, h.Provenance)
			require.NoError(t, h.Figures.Validate())
		}
		require.True(t, seen[string(standards.DefaultCoupler)] && seen[string(standards.UnknownCoupler)])
	})
	t.Run("conductors", func(t *testing.T) {
		seen := map[string]bool{}
		for _, c := range standards.Conductors() {
			requireRow(t, seen, string(c.Slug), string(c.Slug), c.Provenance)
		}
	})
}

func TestEveryRuleAndTransportHasSlugNameStatusAndSource(t *testing.T) {
	t.Run("limit rules", func(t *testing.T) {
		seen := map[string]bool{}
		for _, r := range standards.LimitRules() {
			requireRow(t, seen, string(r.Slug), r.Name, r.Provenance)
			last := 0.0
			for _, freq := range pairline.LogGrid(50)[10:] {
				require.Greater(t, r.LimitAt(freq), last, "%s rises with frequency", r.Slug)
				last = r.LimitAt(freq)
			}
		}
	})
	t.Run("types of power", func(t *testing.T) {
		seen := map[string]bool{}
		for _, p := range standards.PowerTypes() {
			requireRow(t, seen, string(p.Slug), p.Name, p.Provenance)
		}
	})
	t.Run("transports", func(t *testing.T) {
		seen := map[string]bool{}
		for _, transport := range standards.Transports() {
			requireRow(t, seen, string(transport.Slug), transport.Name, transport.Provenance)
			require.NotEmpty(t, transport.Media)
			require.NotEmpty(t, transport.Connector)
			if transport.Graded() {
				rule(t, transport.Rule)
				require.Equal(t, standards.BalancedPair, transport.Media, "limits are those of pairs")
			}
			for _, other := range transport.Accepts {
				_, err := standards.TransportBySlug(other)
				require.NoError(t, err)
			}
		}
	})
}

func TestTransports(t *testing.T) {
	find := func(slug standards.TransportSlug) standards.Transport {
		found, err := standards.TransportBySlug(slug)
		require.NoError(t, err)
		return found
	}
	t.Run("AES50 wants a screen, all four pairs and no network port", func(t *testing.T) {
		aes50 := find("aes50")
		require.True(t, aes50.ScreenRequired)
		require.True(t, aes50.NeverIntoNetworkPort)
		require.Equal(t, 4, aes50.PairsNeeded)
		require.Equal(t, standards.RuleSlug("aes50-field"), aes50.Rule)
	})
	t.Run("AES50 carries 48 channels each way at single rates and 24 at double", func(t *testing.T) {
		for rate, want := range map[int]int{44100: 48, 48000: 48, 88200: 24, 96000: 24} {
			got, stated := find("aes50").ChannelsAt(rate)
			require.True(t, stated)
			require.Equal(t, want, got)
		}
		_, stated := find("aes50").ChannelsAt(192000)
		require.False(t, stated)
	})
	t.Run("a 1000BASE-T port takes 100BASE-TX and itself, never AES50", func(t *testing.T) {
		port := find("1000base-t")
		require.True(t, find("100base-tx").AcceptedBy(port))
		require.True(t, port.AcceptedBy(port))
		require.False(t, find("aes50").AcceptedBy(port))
		require.False(t, port.AcceptedBy(find("100base-tx")))
	})
	t.Run("1000BASE-T allows 570 ns and 50 ns of skew", func(t *testing.T) { // IEEE 802.3 40.7, from memory
		require.InDelta(t, 570, find("1000base-t").DelayLimitNs, 0)
		require.InDelta(t, 50, find("1000base-t").SkewLimitNs, 0)
	})
}

func TestWhatTransportsWantOfTheirCable(t *testing.T) {
	t.Run("three transports are graded, the others carry no decibels", func(t *testing.T) {
		var graded []standards.TransportSlug
		for _, transport := range standards.Transports() {
			if transport.Graded() {
				graded = append(graded, transport.Slug)
				require.InDelta(t, 100, transport.StatedDistance, 0)
			}
		}
		require.Equal(t, []standards.TransportSlug{"aes50", "100base-tx", "1000base-t"}, graded)
	})
	t.Run("screens, power and distances are those of each transport", func(t *testing.T) {
		var screened, powered []standards.TransportSlug
		distances := map[standards.TransportSlug]float64{}
		for _, transport := range standards.Transports() {
			if transport.ScreenRequired {
				screened = append(screened, transport.Slug)
			}
			if transport.PowerOverLink {
				powered = append(powered, transport.Slug)
			}
			if transport.StatedDistance != 0 {
				distances[transport.Slug] = transport.StatedDistance
			}
		}
		require.Equal(t, []standards.TransportSlug{"aes50", "aes3", "analogue-multicore", "analogue-line", "intercom"}, screened)
		require.Equal(t, []standards.TransportSlug{"100base-tx", "1000base-t"}, powered)
		require.Equal(t, map[standards.TransportSlug]float64{"aes50": 100, "100base-tx": 100, "1000base-t": 100, "aes3": 100, "aes10": 50, "word-clock": 100}, distances)
	})
	t.Run("crosstalk of 1000BASE-T has its limits", func(t *testing.T) {
		// IEEE 802.3 40.7.3: NEXT 27.1 − 16.8·log(f/100), ELFEXT 17 − 20·log(f/100) dB; memory.
		for _, transport := range standards.Transports() {
			if transport.Slug == "1000base-t" {
				require.InDelta(t, 27.1, transport.NEXTLimitDB, 0)
				require.InDelta(t, 17, transport.ACRFLimitDB, 0)
				continue
			}
			require.Zero(t, transport.NEXTLimitDB+transport.ACRFLimitDB, transport.Name)
		}
	})
	t.Run("coax has the impedance of its transport", func(t *testing.T) {
		ohms := map[standards.TransportSlug]int{}
		for _, transport := range standards.Transports() {
			require.Equal(t, transport.Media == standards.Coax, transport.Impedance != 0, transport.Name)
			if transport.Impedance != 0 {
				ohms[transport.Slug] = transport.Impedance
			}
		}
		require.Equal(t, map[standards.TransportSlug]int{"aes10": 75, "coax-video": 75, "word-clock": 75, "antenna": 50}, ohms)
	})
	t.Run("a caller cannot change a table", func(t *testing.T) {
		standards.Transports()[0].Name = "changed"
		require.Equal(t, "AES50", standards.Transports()[0].Name)
	})
}

func TestCategoriesReachTheirFrequency(t *testing.T) {
	// TIA-568-C.2, TIA-568-C.2-1 and IEC 61156-5, published.
	want := map[standards.CableSlug]float64{"cat5e": 100, "cat6": 250, "cat6a": 500, "cat7": 600, "cat7a": 1000, "cat8": 2000}
	for _, c := range standards.Cables() {
		require.InDelta(t, want[c.Slug], c.Figures.TopMHz, 0, c.Slug)
	}
}

func TestUnknownSlugsAreRefusedWithTheKnownOnes(t *testing.T) {
	_, err := standards.CableBySlug("cat9")
	require.ErrorIs(t, err, standards.ErrUnknown)
	require.EqualError(t, err, `unknown cable category "cat9"; write one of cat5e, cat6, cat6a, cat7, cat7a, cat8`)
	_, err = standards.HardwareBySlug("")
	require.ErrorIs(t, err, standards.ErrUnknown)
	_, err = standards.ConductorBySlug("30awg-solid")
	require.ErrorIs(t, err, standards.ErrUnknown)
	_, err = standards.LimitRuleBySlug("CHANNEL-CAT5E")
	require.ErrorIs(t, err, standards.ErrUnknown)
	_, err = standards.TransportBySlug("aes51")
	require.ErrorContains(t, err, "aes50")
	_, err = standards.PowerTypeBySlug("type5")
	require.ErrorIs(t, err, standards.ErrUnknown)
}

func TestTemperatures(t *testing.T) {
	t.Run("the cable counts, not the air", func(t *testing.T) {
		require.InDelta(t, 30, standards.DefaultTemperatureC(standards.Indoors, celsius(35)), 0)
		require.InDelta(t, 40, standards.DefaultTemperatureC(standards.Shade, nil), 0)
		require.InDelta(t, 40, standards.DefaultTemperatureC(standards.Shade, celsius(-5)), 0)
		require.InDelta(t, 45, standards.DefaultTemperatureC(standards.Shade, celsius(45)), 0, "shade is no cooler than the air")
		require.InDelta(t, 40, standards.DefaultTemperatureC(standards.Sun, celsius(-5)), 0, "sun is no cooler than shade")
		require.InDelta(t, 60, standards.DefaultTemperatureC(standards.Sun, celsius(45)), 0, "figures for cable end at 60 °C: TIA-568-C.2 6.4.7, published")
		require.InDelta(t, 60, standards.DefaultTemperatureC(standards.Shade, celsius(60)), 0)
		require.InDelta(t, 55, standards.DefaultTemperatureC(standards.Sun, nil), 0)
		require.InDelta(t, 52, standards.DefaultTemperatureC(standards.Sun, celsius(32)), 0)
	})
	t.Run("typing a low temperature buys no grade", func(t *testing.T) {
		require.InDelta(t, 1.5, standards.WantedMarginDB(celsius(40), 40), 0)
		require.InDelta(t, 1.5, standards.WantedMarginDB(celsius(55), 40), 0)
		require.InDelta(t, 3, standards.WantedMarginDB(celsius(20), 40), 0)
		require.InDelta(t, 3, standards.WantedMarginDB(nil, 40), 0)
	})
	t.Run("with the least wanted margin an enough on AES50 is inside the standard's 24.0 dB", func(t *testing.T) {
		most := rule(t, "aes50-field").LimitDB() - standards.LeastWantedMarginDB
		require.LessOrEqual(t, most, rule(t, "ieee-link-segment").LimitDB())
	})
}
