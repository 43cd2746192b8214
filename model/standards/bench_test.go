package standards_test

import (
	"testing"

	"stageloom/model/standards"
)

func BenchmarkReckonTwoReels(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := standards.Reckon(standards.Question{Chain: "cat6a-own:18.5 60 + cat5e 50"}); err != nil {
			b.Fatal(err)
		}
	}
}
