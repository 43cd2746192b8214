package pairline_test

import (
	"fmt"

	"stageloom/model/pairline"
	"stageloom/model/standards"
)

func ExampleLine_Loss() {
	cat5e, _ := standards.CableBySlug("cat5e")
	coupler, _ := standards.HardwareBySlug("cat6a")
	reel := standards.Reel(cat5e).Segment(50, 20)
	line := pairline.Line{Parts: []pairline.Part{reel, coupler.Figures, coupler.Figures, reel}}
	fmt.Printf("%.1f dB at 100 MHz\n", line.Loss().At(pairline.GradeMHz))
	// Output: 26.8 dB at 100 MHz
}
