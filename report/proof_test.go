package report_test

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/report"
)

// difference is the mean difference of two pictures in grey, 0 to 255, over blocks of 6 × 6 pixels: programs smooth the
// edges of letters each in its own way.
func difference(a, b image.Image) float64 {
	const block = 6
	sum, n := 0.0, 0
	both := a.Bounds().Intersect(b.Bounds())
	for top := both.Min.Y; top+block <= both.Max.Y; top += block {
		for left := both.Min.X; left+block <= both.Max.X; left += block {
			apart := 0.0
			for y := top; y < top+block; y++ {
				for x := left; x < left+block; x++ {
					p, q := color.GrayModel.Convert(a.At(x, y)).(color.Gray), color.GrayModel.Convert(b.At(x, y)).(color.Gray)
					apart += float64(p.Y) - float64(q.Y)
				}
			}
			sum, n = sum+math.Abs(apart)/block/block, n+1
		}
	}
	return sum / float64(n)
}

// A proof is compared with what another program makes of the PDF.
func TestAProofLooksLikeThePrintedPage(t *testing.T) {
	a := assess.Of(demo.Weekender())
	choice := report.ChoiceOf(a.Plan, day)
	choice.Packs = []report.Pack{report.Lay, report.Strike}
	document, done := write(t, a, choice)
	if _, err := exec.LookPath("pdftoppm"); err != nil && os.Getenv("STAGELOOM_TOOLS") != "required" {
		t.Skip("pdftoppm is not installed")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "print.pdf")
	require.NoError(t, os.WriteFile(path, document, 0o600))
	const scale = 3
	out, err := exec.Command("pdftoppm", "-r", fmt.Sprint(25.4*scale), "-png", path, filepath.Join(folder, "page")).CombinedOutput()
	require.NoError(t, err, string(out))
	last := image.Image(nil)
	for page := 1; page <= done.Pages; page += max(1, done.Pages/8) {
		proof, said, err := report.Proof(context.Background(), a, choice, page, scale)
		require.NoError(t, err)
		require.Equal(t, done, said)
		file, err := os.Open(filepath.Join(folder, fmt.Sprintf("page-%0*d.png", len(fmt.Sprint(done.Pages)), page)))
		require.NoError(t, err)
		printed, err := png.Decode(file)
		require.NoError(t, err)
		require.NoError(t, file.Close())
		require.InDelta(t, printed.Bounds().Dx(), proof.Bounds().Dx(), 1)
		require.InDelta(t, printed.Bounds().Dy(), proof.Bounds().Dy(), 1)
		apart := difference(proof, printed)
		require.Less(t, apart, 5.0, "page %d: only hairlines and edges are set otherwise", page)
		if last != nil && last.Bounds() == proof.Bounds() {
			require.Greater(t, difference(proof, last), apart, "page %d differs from another page by more", page)
		}
		last = proof
	}
}

func TestAPageThatIsNotThereGivesNoProof(t *testing.T) {
	a := assess.Of(field(t))
	for _, page := range []int{0, -1, 10_000} {
		picture, done, err := report.Proof(context.Background(), a, report.ChoiceOf(a.Plan, day), page, 2)
		require.NoError(t, err)
		require.Nil(t, picture)
		require.Positive(t, done.Pages)
	}
	nasty := assess.Of(nastyField(t))
	picture, _, err := report.Proof(context.Background(), nasty, report.ChoiceOf(nasty.Plan, day), 2, 1e9)
	require.NoError(t, err)
	require.LessOrEqual(t, picture.Bounds().Dx(), 8000)
}

func BenchmarkProof(b *testing.B) {
	a := assess.Of(demo.Weekender())
	choice := report.ChoiceOf(a.Plan, day)
	for b.Loop() {
		_, _, err := report.Proof(context.Background(), a, choice, 2, 3)
		require.NoError(b, err)
	}
}
