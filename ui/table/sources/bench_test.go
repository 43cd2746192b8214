package sources_test

import (
	"testing"

	"stageloom/model/assess"
	"stageloom/model/demo/demotest"
	"stageloom/ui/table/sources"
)

// BenchmarkPatch is what the tables of the patch cost after each step: 2,000 inputs, 20 acts, 500 devices.
func BenchmarkPatch(b *testing.B) {
	p := demotest.LargeShow(1)
	a := assess.Of(p)
	for _, name := range []string{"patch", "sockets", "outputs", "acts"} {
		sheet, _ := sources.Named(name)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				sheet.Of(a, sources.View{Act: p.Acts.At(3).ID})
			}
		})
	}
}
