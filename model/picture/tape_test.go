package picture_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/assess"
	"stageloom/model/demo/demotest"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

func TestWordsOfTapeMeanOneOrTwoColours(t *testing.T) {
	for said, want := range map[string][]picture.Role{
		"red": {picture.RoleTapeRed}, " Blue ": {picture.RoleTapeBlue}, "green": {picture.RoleTapeGreen},
		"yellow": {picture.RoleTapeYellow}, "white": {picture.RoleTapeWhite}, "black": {picture.RoleTapeBlack},
		"orange": {picture.RoleTapeOrange}, "brown": {picture.RoleTapeBrown}, "violet": {picture.RoleTapeViolet},
		"purple": {picture.RoleTapeViolet}, "grey": {picture.RoleTapeGrey}, "gray": {picture.RoleTapeGrey}, "pink": {picture.RoleTapePink},
		"blau": {picture.RoleTapeBlue}, "GRÜN": {picture.RoleTapeGreen}, "jaune": {picture.RoleTapeYellow}, "weiss": {picture.RoleTapeWhite},
		"red/white": {picture.RoleTapeRed, picture.RoleTapeWhite}, "rot-weiß": {picture.RoleTapeRed, picture.RoleTapeWhite},
		"noir et blanc": {picture.RoleTapeBlack, picture.RoleTapeWhite}, "blue / blau": {picture.RoleTapeBlue},
		"": nil, "/": nil, "turquoise": nil, "light blue": nil, "red/turquoise": nil, "red/white/blue": nil, "and": nil,
	} {
		require.Equal(t, want, picture.TapeRoles(said), said)
	}
}

func TestEveryColourOfTapeIsToldFromTheOthers(t *testing.T) {
	colours := picture.TapeColours()
	require.Len(t, colours, 11)
	for one, a := range colours {
		for other, b := range colours {
			apart := max(int(a.R)-int(b.R), int(b.R)-int(a.R)) + max(int(a.G)-int(b.G), int(b.G)-int(a.G)) + max(int(a.B)-int(b.B), int(b.B)-int(a.B))
			require.True(t, one == other || apart > 90, "%s and %s are %d apart", one, other, apart)
		}
	}
}

// patches are the outlines of patches of tape by their link, and the roles that fill them.
func patches(p *picture.Picture) (boxes map[plan.Key]geom.Box, fills map[plan.Key][]picture.Role) {
	boxes, fills = map[plan.Key]geom.Box{}, map[plan.Key][]picture.Role{}
	for _, m := range p.Marks {
		switch {
		case m.Edge == picture.RoleTapeEdge:
			boxes[m.Ref.Key] = geom.BoxOf(m.Points...)
		case strings.HasPrefix(string(m.Role), "tape-") && m.Shape == picture.Fill:
			fills[m.Ref.Key] = append(fills[m.Ref.Key], m.Role)
		}
	}
	return boxes, fills
}

// tapedScene is a random scene whose links have tape, known or not, or none; some are multicores.
func tapedScene(t *rapid.T) *picture.Scene {
	s := randomScene(t)
	for i := range s.Links {
		s.Links[i].Tape = rapid.SampledFrom([]string{"", "red", "blau", "red/white", "turquoise"}).Draw(t, "tape")
		s.Links[i].Multicore = rapid.Bool().Draw(t, "multicore")
	}
	return s
}

func TestALabelledMulticoreAlwaysShowsItsTape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := tapedScene(t)
		o := picture.Options{Thorough: rapid.Bool().Draw(t, "thorough"), Margin: rapid.Float64Range(0, 60).Draw(t, "margin")}
		p := draw(s, rapid.SampledFrom([]float64{1.5, 4, 12}).Draw(t, "scale"), o)
		shown, fills := patches(p)
		labels := labelBoxes(p.Marks)
		for i := range s.Links {
			link, key := &s.Links[i], plan.Key(s.Links[i].ID)
			patch, drawn := shown[key]
			label, labelled := labels[key]
			switch known := picture.TapeRoles(link.Tape); {
			case drawn && (!labelled || len(known) == 0):
				t.Fatalf("%s has no label, or no known tape (%q), but a patch", key, link.Tape)
			case labelled && link.Multicore && len(known) > 0 && !drawn:
				t.Fatalf("multicore %s is taped %q, and shows no patch", key, link.Tape)
			case drawn && !label.Inset(1).ContainsBox(patch):
				t.Fatalf("the patch of %s, %v, lies across its label %v", key, patch, label)
			case drawn && fmt.Sprint(fills[key]) != fmt.Sprint(known):
				t.Fatalf("%s is taped %v and shows %v", key, known, fills[key])
			}
		}
	})
}

func TestTapeLaysNoLabelOnAnotherAndCostsOtherLinksNoLabel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := tapedScene(t)
		for i := range s.Links {
			s.Links[i].Multicore = false
		}
		scale := rapid.SampledFrom([]float64{1.5, 4, 12}).Draw(t, "scale")
		o := picture.Options{Thorough: rapid.Bool().Draw(t, "thorough"), TapeInWords: rapid.Bool().Draw(t, "words")}
		p := draw(s, scale, o)
		boxes := solid(p)
		for i := range boxes {
			for j := range i {
				if both := boxes[i].Intersection(boxes[j]); both.Width() > 0 && both.Height() > 0 {
					t.Fatalf("boxes %v and %v overlap", boxes[i], boxes[j])
				}
			}
		}
		for i := range s.Links {
			s.Links[i].Tape = ""
		}
		bare := draw(s, scale, o)
		require.Equal(t, bare.Unplaced, p.Unplaced)
		names := func(marks []picture.Mark) (n int) {
			for _, m := range marks {
				if m.Shape == picture.Words && m.Role != picture.RoleTapeText {
					n++
				}
			}
			return n
		}
		require.Equal(t, names(bare.Marks), names(p.Marks), "no name gives way to tape")
	})
}

func TestAWordStandsForThePatchWhereColoursCannot(t *testing.T) {
	s := twoBoxes()
	for i := range s.Links {
		s.Links[i].Tape, s.Links[i].Multicore = "blau", i == 0
	}
	require.NotEmpty(t, s.Links)
	p := draw(s, 8, picture.Options{TapeInWords: true})
	shown, fills := patches(p)
	require.Empty(t, shown)
	require.Empty(t, fills)
	said := map[plan.Key]string{}
	for _, m := range p.Marks {
		if m.Role == picture.RoleTapeText {
			said[m.Ref.Key] = m.Text
		}
	}
	for _, link := range s.Links {
		require.Equal(t, "tape blau", said[plan.Key(link.ID)])
	}
}

func TestALinkShowsItsOwnTapeElseThatOfItsLoom(t *testing.T) {
	p, err := plan.Do(weekender().Plan, plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		for link := range weekender().Plan.Links.All() {
			if link.Name == "L02" {
				if err := plan.Update(e, link.Key(), func(l *plan.Link) { l.Colour = "" }); err != nil {
					return err
				}
			}
		}
		return nil
	})
	require.NoError(t, err)
	a := assess.Of(p)
	tape, multicores := map[string]string{}, 0
	for _, link := range picture.Compose(p, a.Budgets).Links {
		tape[link.Name] = link.Tape
		row, _ := p.Link(link.ID)
		require.Equal(t, row.Transport == "analogue-multicore", link.Multicore, link.Name)
		if link.Multicore {
			multicores++
		}
	}
	require.Equal(t, 6, multicores)
	require.Equal(t, "red", tape["L02"], "of its loom, the FOH lane")
	require.Equal(t, "yellow", tape["L03"], "its own, though the loom is red")
	require.Empty(t, tape["L08"])
}

func TestMoreRoomShowsMoreTape(t *testing.T) {
	a := assess.Of(demotest.Large(1))
	s := picture.Compose(a.Plan, a.Budgets)
	for i := range s.Links {
		s.Links[i].Tape, s.Links[i].Multicore = "green", false
	}
	shown := func(scale float64) (patched, labelled int) {
		arranged := picture.Arrange(s, scale, 1, wide)
		p := picture.Letter(arranged, arranged.Sheet(arranged.Bounds().Centre(), 1400, 900), picture.Options{})
		boxes, _ := patches(p)
		return len(boxes), len(labelBoxes(p.Marks))
	}
	patched, labelled := shown(1)
	require.Less(t, patched, labelled, "labels that have no room beside them are left without")
	require.Positive(t, patched)
}

func TestTapeIsShownWhileItsLinkMoves(t *testing.T) {
	s := twoBoxes()
	for i := range s.Links {
		s.Links[i].Tape = "yellow"
	}
	moving := plan.Moving{
		Devices:   map[plan.DeviceID]bool{"d-33333": true},
		Stretched: map[plan.LinkID]bool{"k-22222": true, "k-33333": true},
	}
	p := draw(s, 8, picture.Options{Hidden: &moving})
	shown, _ := patches(p)
	require.Empty(t, shown)
	shown, fills := patches(&picture.Picture{Marks: p.Overlay(moving, geom.Point{Y: 5}, s.Links)})
	require.Len(t, shown, 2)
	require.Equal(t, []picture.Role{picture.RoleTapeYellow}, fills["k-22222"])
}

func TestTapeIsFaintWithItsLink(t *testing.T) {
	s := twoBoxes()
	s.Links[0].Tape, s.Links[1].Tape = "red", "red"
	s.Links[0].Levels, s.Links[1].Levels = [2]plan.LevelID{"v-22222", "v-22222"}, [2]plan.LevelID{"v-33333", "v-33333"}
	for _, m := range draw(s, 8, picture.Options{Level: "v-22222"}).Marks {
		if m.Role == picture.RoleTapeRed || m.Edge == picture.RoleTapeEdge {
			require.Equal(t, m.Ref.Key == "k-33333", m.Faded, m.Ref.Key)
		}
	}
}
