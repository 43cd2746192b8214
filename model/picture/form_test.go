package picture_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/demo/demotest"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// formOf is what a picture makes of positions: how many boxes, and rows of devices.
func formOf(a *picture.Arrangement) string {
	v := a.Sheet(a.Bounds().Centre(), 3000, 2000)
	p := picture.Letter(a, v, picture.Options{Plain: true})
	rows := 0
	for _, m := range p.Marks {
		if m.Role == picture.RoleRowRule {
			rows++
		}
	}
	switch blocks := len(blocksOf(p)); {
	case a.Dots:
		return "dots"
	case rows > 0:
		return "rows"
	case blocks > 0:
		return "heads"
	}
	return "places"
}

func TestANotchOfTheWheelInAndOutDoesNotFlicker(t *testing.T) {
	for name, of := range map[string]*plan.Plan{"the demo": demo.Weekender(), "a theatre": demotest.Theatre(), "a field of 500": demotest.Large(1)} {
		t.Run(name, func(t *testing.T) {
			s := gathered(of)
			seen, changes := map[string]bool{}, 0
			for scale := 0.5; scale < 40; scale *= 1.03 {
				last := picture.Arrange(s, scale, 1, wide)
				was, flips := formOf(last), 0
				for _, at := range []float64{scale * 1.125, scale, scale * 1.125, scale, scale / 1.125, scale} {
					last = picture.ArrangeAfter(last.Form(), s, at, 1, wide)
					now := formOf(last)
					if now != was && (now != "places" && was != "places") {
						flips++
					}
					was = now
				}
				seen[was] = true
				changes += flips
				require.LessOrEqual(t, flips, 1, "at %g", scale)
			}
			require.True(t, seen["rows"])
			if len(seen) > 2 {
				require.Positive(t, changes, "the sequence meets a change of form")
			}
		})
	}
}

func TestAFormIsGivenUpWhenTheViewGoesOnGrowing(t *testing.T) {
	s := gathered(demotest.Large(1))
	last := picture.Arrange(s, 40, 1, wide)
	for scale := 40.0; scale > 0.5; scale /= 1.125 {
		last = picture.ArrangeAfter(last.Form(), s, scale, 1, wide)
	}
	require.Equal(t, formOf(picture.Arrange(s, last.Scale, 1, wide)), formOf(last), "far out it is as if seen for the first time")
	for scale := last.Scale; scale < 40; scale *= 1.125 {
		last = picture.ArrangeAfter(last.Form(), s, scale, 1, wide)
	}
	require.Equal(t, formOf(picture.Arrange(s, last.Scale, 1, wide)), formOf(last))
}
