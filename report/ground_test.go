package report_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/beside"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/report"
	"stageloom/report/paper"
)

// onDrawing is the choice of the plan's page of the demo plan with a drawing of the venue under it.
func onDrawing(t *testing.T) (*assess.Assessment, report.Choice) {
	t.Helper()
	pixels := image.NewNRGBA(image.Rect(0, 0, 60, 40))
	for i := range 60 * 40 {
		pixels.Set(i%60, i/60, color.NRGBA{R: 200, G: uint8(i % 200), A: 255})
	}
	var coded bytes.Buffer
	require.NoError(t, png.Encode(&coded, pixels))
	a := assess.Of(demo.Weekender())
	choice := report.ChoiceOf(a.Plan, day)
	choice.Chapters, choice.Uncompressed = []report.Chapter{report.SitePlan}, true
	choice.Images = []picture.ImageFigure{
		{Source: "drawing", Corners: picture.OnGround(geom.Point{X: 60}, 300, 200, 20), Opacity: 0.5},
		{Source: "lost", Corners: picture.OnGround(geom.Point{X: 60}, 300, 200, 0), Opacity: 1},
	}
	choice.Picture = func(source string) (paper.Picture, bool) {
		if source != "drawing" {
			return paper.Picture{}, false
		}
		decoded, err := beside.Decode(coded.Bytes())
		require.NoError(t, err)
		return paper.PictureOf(decoded), true
	}
	return a, choice
}

var pictureDrawn = regexp.MustCompile(`cm /I\w+ Do Q`)

func TestADrawingLiesUnderThePlanOnEverySheet(t *testing.T) {
	a, choice := onDrawing(t)
	document, done := write(t, a, choice)
	require.Equal(t, 1, bytes.Count(document, []byte("/Subtype /Image")), "it is in the document once, and the one that is lost not at all")
	drawn := pictureDrawn.FindAllIndex(document, -1)
	require.NotEmpty(t, drawn)
	require.LessOrEqual(t, len(drawn), done.Pages)
	contents := strings.Split(string(document), "endstream")
	for _, content := range contents {
		at := pictureDrawn.FindStringIndex(content)
		if at == nil {
			continue
		}
		before := content[:at[0]]
		// What is still saved when the picture is drawn: the frame, the picture's own outline, its matrix.
		saved := strings.Count(before, "q ") - strings.Count(before, "Q\n")
		require.Equal(t, 3, saved, "it is clipped to the frame of the drawing and to its own outline")
		frame := before[strings.Index(before, "re W n"):]
		require.NotContains(t, frame, "S\n", "no line of the plan is drawn before it")
		require.NotContains(t, frame, " Tj", "nor any word")
		require.Contains(t, content[at[1]:], " Tj", "but over it")
	}

	bare := choice
	bare.Images = nil
	_, without := write(t, a, bare)
	require.Equal(t, without, done, "a picture takes no more paper")
}

func TestADrawingIsGreyInAGreyPrint(t *testing.T) {
	a, choice := onDrawing(t)
	document, _ := write(t, a, choice)
	require.Contains(t, imageHead(t, document), "/DeviceRGB")
	choice.Grey = true
	document, _ = write(t, a, choice)
	require.Contains(t, imageHead(t, document), "/DeviceGray")
}

// imageHead is the dictionary of the document's first picture.
func imageHead(t *testing.T, document []byte) string {
	t.Helper()
	at := bytes.Index(document, []byte("/Subtype /Image"))
	require.Positive(t, at)
	return string(document[at : at+bytes.Index(document[at:], []byte("stream"))])
}
