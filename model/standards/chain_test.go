package standards_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

func TestParseChain(t *testing.T) {
	cases := []struct {
		name, text string
		labels     []string
		lengths    []float64
	}{
		{"a kind and a length is a stranded screened reel", "cat5e 50", []string{"Cat 5e, stranded 24 AWG, screened"}, []float64{50}},
		{
			"an own figure and a second cable", "cat6a-own:17.6 70 + cat5e 45",
			[]string{"Cat 6A at 17.6 dB/100 m, stranded 24 AWG, screened", "Cat 5e, stranded 24 AWG, screened"},
			[]float64{70, 45},
		},
		{"blanks around the plus are free", "cat5e 50+cat6   20m", []string{"Cat 5e, stranded 24 AWG, screened", "Cat 6, stranded 24 AWG, screened"}, []float64{50, 20}},
		{"options in any order", "cat6:unscreened,23awg,solid 90 m", []string{"Cat 6, solid 23 AWG, unscreened"}, []float64{90}},
		{"the own figure may bear a decimal comma", "cat6a-own:19,2,26awg 10", []string{"Cat 6A at 19.2 dB/100 m, stranded 26 AWG, screened"}, []float64{10}},
		{"a decimal comma and the unit", "cat6a-own:19,2dB 10 + cat6a-own:19,solid 5", []string{"Cat 6A at 19.2 dB/100 m, stranded 24 AWG, screened", "Cat 6A at 19 dB/100 m, solid 24 AWG, screened"}, []float64{10, 5}},
		{"the own figure may bear its unit", "cat6a-own:19.2dB,26awg 10", []string{"Cat 6A at 19.2 dB/100 m, stranded 26 AWG, screened"}, []float64{10}},
		{"the whole allowance", "cat5e:iso50 10", []string{"Cat 5e, stranded 24 AWG, screened, ISO 50 % allowance"}, []float64{10}},
		{"an impedance", "cat5e:95ohm 10", []string{"Cat 5e, stranded 24 AWG, screened, 95 Ω"}, []float64{10}},
		{"capitals are read", "CAT7A 10M", []string{"Cat 7A, stranded 24 AWG, screened"}, []float64{10}},
		{"feet", "cat5e 100 ft", []string{"Cat 5e, stranded 24 AWG, screened"}, []float64{30.48}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			chain, err := standards.ParseChain(c.text)
			require.NoError(t, err)
			require.Len(t, chain.Cables, len(c.labels))
			for i, piece := range chain.Cables {
				require.Equal(t, c.labels[i], piece.Label())
				require.InDelta(t, c.lengths[i], piece.Length, 1e-9)
			}
		})
	}
}

func TestParseChainSaysWhereAndWhatToWrite(t *testing.T) {
	cases := []struct{ name, text, want string }{
		{"no text", " ", "chain: there is no cable; write, for instance, cat6a 70 + cat5e 45"},
		{"an unknown kind", "cat5e 50 + cat9 20", `chain, cable 2 at column 12, "cat9 20": unknown cable category "cat9"; write one of cat5e, cat6`},
		{"a column counts letters", "cat5e 50 m +\u00a0 cat9 2", "cable 2 at column 15"},
		{"an unknown kind without a length", "cat9", "unknown cable category"},
		{"damaged text", "cat5e\xff 50", "the text is damaged"},
		{"no length", "cat5e", `cable 1 at column 1, "cat5e": it has no length; write, for instance, cat5e 45`},
		{"nothing beside a plus", "cat5e 50 +", `cable 2 at column 11, "": there is no cable beside the "+"`},
		{"a plus too many", "cat5e 50 + + cat5e 20", "cable 2"},
		{"the length first", "50 cat5e", `unknown cable category "50"`},
		{"a length that is none", "cat5e fifty", `"fifty"`},
		{"a length that two readers read differently", "cat5e 1,500", `"1,500"`},
		{"a negative length", "cat5e -5", "less than nothing"},
		{"no length at all in the length", "cat5e 0", "length is 0 m; it must be from 0.1 to 1000 m"},
		{"a length beyond the formulas", "cat5e 2 km", "length is 2000 m; it must be from 0.1 to 1000 m"},
		{"a unit that is none", "cat5e 50 dB", "dB"},
		{"an own kind without its figure", "cat6a-own 60", "lacks its own figure; write, for instance, cat6a-own:19.2"},
		{"an own figure that is none", "cat6a-own:low 60", `own figure "low" is no number; write dB per 100 m at 100 MHz, for instance cat6a-own:19.2`},
		{"an own figure that is not finite", "cat6a-own:NaN 60", "is no number"},
		{"an own figure without end", "cat6a-own:inf 60", "own figure is +Inf dB per 100 m"},
		{"an own figure no such cable has", "cat6a-own:1.85 60", "own figure is 1.85 dB per 100 m; for Cat 6A it must be from 15.4 to 38.2"},
		{"a figure without the own kind", "cat6a:19.2 60", "a figure needs the own kind; write cat6a-own:19.2"},
		{"an unknown option", "cat6a:shiny 60", `unknown option "shiny"; write one of 22awg`},
		{"an empty option", "cat6a:solid, 60", "an option is empty"},
		{"two gauges", "cat6a:24awg,26awg 60", "24awg and 26awg both state the gauge; write one of them"},
		{"a screen twice", "cat6a:screened,unscreened 60", "both state the screen"},
		{"a gauge that is not made", "cat6a:25awg 60", "unknown stranded conductor of 25 AWG; write one of 22awg, 23awg, 24awg, 26awg, 28awg"},
		{"stranded wire thinner than any known factor", "cat6a:30awg 60", "stranded 30 AWG: no factor is known for the loss of so thin a stranded conductor; the thinnest known is 28 AWG; leave out the gauge and write its maker's own figure, for instance cat6a-own:19.2"},
		{"a gauge that is none", "cat6a:thickawg 60", "is no gauge"},
		{"an impedance that is none", "cat6a:manyohm 60", "is no impedance"},
		{"an impedance no cable has", "cat6a:50ohm 60", "impedance is 50 Ω; it must be from 70 to 150 Ω"},
		{"an allowance for solid conductors", "cat6a:solid,iso50 60", "iso50 is for stranded conductors"},
		{"an allowance on an own figure", "cat6a-own:20,iso50 60", "leave out iso50"},
		{"Cat 7 without its screen", "cat7:unscreened 60", "Cat 7 is made screened only"},
		{"too many cables", strings.Repeat("cat5e 1 + ", 32) + "cat5e 1", "it has 33 cables; write at most 32"},
		{"a text without end", strings.Repeat("x", 5000), "longer than 4096 letters"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := standards.ParseChain(c.text)
			require.ErrorContains(t, err, c.want)
			var at *standards.ChainError
			require.ErrorAs(t, err, &at)
			require.Less(t, len(err.Error()), 600, "a message stays readable")
		})
	}
}

func TestChainGrammarHoldsForItsOwnExamples(t *testing.T) {
	count := 0
	for _, line := range strings.Split(standards.ChainGrammar, "\n") {
		if example, found := strings.CutPrefix(line, "    "); found && strings.HasPrefix(example, "cat") {
			count++
			_, err := standards.ParseChain(example)
			require.NoError(t, err, example)
		}
	}
	require.Equal(t, 2, count)
	for _, c := range standards.Cables() {
		require.Contains(t, standards.ChainGrammar, string(c.Slug))
	}
}

func TestConstruction(t *testing.T) {
	parse := func(text string) standards.Construction {
		built, err := standards.ParseConstruction(text)
		require.NoError(t, err)
		return built
	}
	t.Run("an own figure holds for the cable as built, whatever its conductors", func(t *testing.T) {
		for _, text := range []string{"cat6a-own:19.2", "cat6a-own:19.2,26awg", "cat6a-own:19.2,solid,23awg"} {
			require.InDelta(t, 19.2, parse(text).Segment(100, 20).Loss().At(100), 1e-9, text)
		}
	})
	t.Run("strand factors follow the conductors", func(t *testing.T) {
		for text, want := range map[string]float64{"cat6:solid": 1, "cat6": 1.2, "cat6:26awg": 1.5, "cat6:iso50": 1.5, "cat6:26awg,iso50": 1.5, "cat6:28awg": 1.95, "cat6:28awg,iso50": 1.95, "cat6:28awg,solid": 1, "cat6:22awg": 1.2} {
			require.InDelta(t, want, parse(text).StrandFactor(), 0, text)
		}
	})
	t.Run("the default reel is equal to itself read", func(t *testing.T) {
		require.Equal(t, standards.Reel(cable(t, "cat6a")), parse("cat6a"))
	})
}

func TestChainLine(t *testing.T) {
	t.Run("a coupler is two connections, each the poorer of plug and coupler", func(t *testing.T) {
		chain, err := standards.ParseChain("cat6a 10 + cat5e 10 + cat6 10")
		require.NoError(t, err)
		line, err := chain.Line(20, hardware(t, "cat6a"))
		require.NoError(t, err)
		var names []string
		for _, joint := range line.Interfaces() {
			names = append(names, joint.Name)
		}
		require.Equal(t, []string{"Cat 6A hardware", "Cat 5e hardware", "Cat 5e hardware", "Cat 6A hardware"}, names)
		require.InDelta(t, 64, line.Interfaces()[3].ReturnLossDB, 0, "a Cat 6 plug reflects as Cat 6")
		require.InDelta(t, 30, line.Length(), 1e-12)
	})
}

func TestAnyChainIsReadOrRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		requireReadOrRefused(t, rapid.String().Draw(t, "text"))
	})
	pieces := []string{"cat5e", "cat6a", "-own", ":", "19.2", ",", "solid", "26awg", " ", "+", "50", "m", "ft", "ohm", "NaN", "é", "\x00", "\xff"}
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 30).Draw(t, "parts")
		requireReadOrRefused(t, strings.Join(parts, ""))
	})
}

func requireReadOrRefused(t require.TestingT, text string) {
	chain, err := standards.ParseChain(text)
	if err != nil {
		require.True(t, utf8.ValidString(err.Error()), "a message is text: %q", err.Error())
		return
	}
	coupler, err := standards.HardwareBySlug(standards.DefaultCoupler)
	require.NoError(t, err)
	line, err := chain.Line(20, coupler)
	require.NoError(t, err)
	require.NoError(t, line.Validate(), "what is read can be reckoned")
	require.Less(t, line.Loss().At(pairline.GradeMHz), 1e5)
}

func FuzzParseChain(f *testing.F) {
	for _, seed := range []string{"cat5e 50", "cat6a-own:17.6 70 + cat5e 45", "cat6:solid,unscreened,95ohm 35 m + cat5e:26awg 10 ft", "+", ":"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) { requireReadOrRefused(t, text) })
}
