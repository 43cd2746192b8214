package plan

// The conditions of a reel; blank counts as good.
const (
	Good    = "good"
	Suspect = "suspect"
	Faulty  = "faulty"
)

// Mark is what somebody found out about one cable: its condition, why, where and when.
type Mark struct {
	Condition                string
	Reason, FoundAt, FoundOn string
}

// MarkReel marks one cable of the stock and returns its row. Of several equal ones it takes one that no link uses into a
// row of its own. Good clears what was found before.
func (e *Edit) MarkReel(id ReelID, mark Mark) (ReelID, error) {
	own, err := e.SplitReel(id, 1)
	if err != nil {
		return "", err
	}
	return own, e.mark(own, mark)
}

// MarkSegment marks the reel that a segment of a link is made of; of several equal ones the link keeps the marked one.
func (e *Edit) MarkSegment(link LinkID, order int, mark Mark) (ReelID, error) {
	chain := e.next.SegmentsOf(link)
	if order < 1 || order > len(chain) || chain[order-1].Reel == "" {
		return "", refuse("cable %d of this link is no reel of the stock", order)
	}
	segment := chain[order-1]
	heap := segment.Reel
	if reel, _ := e.next.Reels.Get(Key(heap)); reel.Count() == 1 {
		return heap, e.mark(heap, mark)
	}
	Drop[Segment](e, segment.Key())
	own, err := e.SplitReel(heap, 1)
	if err != nil {
		return "", err
	}
	segment.Reel = own
	Put(e, segment)
	return own, e.mark(own, mark)
}

func (e *Edit) mark(id ReelID, mark Mark) error {
	reel, _ := e.next.Reels.Get(Key(id))
	switch mark.Condition {
	case Suspect, Faulty:
		reel.Reason, reel.FoundAt, reel.FoundOn = mark.Reason, mark.FoundAt, mark.FoundOn
	case Good, "":
		reel.Reason, reel.FoundAt, reel.FoundOn = "", "", ""
	default:
		return refuse("a reel is good, suspect or faulty, not %q", mark.Condition)
	}
	reel.Condition = mark.Condition
	Put(e, reel)
	return nil
}
