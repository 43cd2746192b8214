package demo

import (
	"fmt"

	"stageloom/model/demo/builder"
	"stageloom/model/plan"
)

// stock puts the hire stock into its six cases: 60 cables, the long ones tagged one by one.
func (b *weekender) stock() {
	for i, c := range []plan.Case{
		{Name: "Case 1, low-loss long"},
		{Name: "Case 2, low-loss short"},
		{Name: "Case 3, stage data"},
		{Name: "Case 4, patch"},
		{Name: "Case 5, fibre"},
		{Name: "Case 6, audio and intercom"},
	} {
		c.ID = plan.CaseID("c-2222" + plan.Signs[i:i+1])
		plan.Put(b.Edit, c)
	}
	b.reelRow(1, "LL", "cat6a-own", 70, 1, 10)
	b.reelRow(2, "LM", "cat6a-own", 45, 1, 4)
	b.reelRow(3, "6A", "cat6a", 45, 1, 6)
	b.reelRow(3, "5E", "cat5e", 45, 1, 4)
	b.heap(4, "6 25 m", "cat6", 25, 6)
	b.heap(4, "6 10 m", "cat6", 10, 5)
	b.heap(4, "6U 45 m", "cat6-unscreened", 45, 1)
	b.heap(4, "6U 25 m", "cat6-unscreened", 25, 1)
	b.reelRow(5, "F", "fibre-multimode", 300, 1, 3)
	b.reelRow(5, "F", "fibre-multimode", 150, 4, 7)
	b.reelRow(5, "F", "fibre-multimode", 50, 8, 10)
	b.heap(6, "AES 45 m", "audio-pair", 45, 3)
	b.heap(6, "AES 25 m", "audio-pair", 25, 4)
	b.heap(6, "Multi", "multicore-16", 75, 1)
	b.heap(6, "IC 100 m", "intercom", 100, 3)
	b.heap(6, "IC 25 m", "intercom", 25, 2)
	b.marked()
}

func caseID(number int) plan.CaseID { return plan.CaseID("c-2222" + plan.Signs[number-1:number]) }

// reelRow adds tagged reels, LL01, LL02, …; the low-loss and stage data reels are hired.
func (b *weekender) reelRow(number int, stem string, kind plan.CableKindID, length float64, first, last int) {
	for n := first; n <= last; n++ {
		b.Reel(plan.Reel{Tag: fmt.Sprintf("%s%02d", stem, n), Kind: kind, Length: length, Case: caseID(number), Owner: "hire", Hire: "HM-2027-14", Return: "2027-06-22", Condition: "good"})
	}
}

// heap adds a quantity of equal cables that bear no tag; the name is for this file alone.
func (b *weekender) heap(number int, name string, kind plan.CableKindID, length float64, quantity int) {
	b.Reel(plan.Reel{Tag: name, Kind: kind, Length: length, Quantity: quantity, Case: caseID(number), Owner: "house", Condition: "good"})
	id := b.Reels[name]
	builder.Must(plan.Update(b.Edit, plan.Key(id), func(r *plan.Reel) { r.Tag = "" }))
}

// marked notes what is known of single reels: one measured, one suspect and left in its case.
func (b *weekender) marked() {
	builder.Must(plan.Update(b.Edit, plan.Key(b.Reels["LL01"]), func(r *plan.Reel) { r.Measured = plan.Some(13.2) }))
	builder.Must(plan.Update(b.Edit, plan.Key(b.Reels["5E04"]), func(r *plan.Reel) {
		r.Condition, r.Reason = "suspect", "shell loose at the outer end"
	}))
}
