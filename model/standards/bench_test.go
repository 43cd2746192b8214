package standards_test

import (
	"testing"

	"stageloom/model/standards"
)

func BenchmarkReckonTwoReels(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := standards.Reckon(standards.Question{Chain: "cat6a-own:17.6 70 + cat5e 45"}); err != nil {
			b.Fatal(err)
		}
	}
}
