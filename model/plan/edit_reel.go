package plan

// The conditions of a reel and of a house line; blank counts as good.
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

// MarkSegment marks the reel or the house line that a segment of a link is made of, and returns the reel's row; of several
// equal ones the link keeps the marked one.
func (e *Edit) MarkSegment(link LinkID, order int, mark Mark) (ReelID, error) {
	chain := e.next.SegmentsOf(link)
	if order < 1 || order > len(chain) || chain[order-1].Kind != "" {
		return "", refuse("cable %d of this link is no reel of the stock and no house line", order)
	}
	segment := chain[order-1]
	if segment.HouseLine != "" {
		return "", e.MarkHouseLine(segment.HouseLine, mark)
	}
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
	mark, err := mark.settled("a reel")
	if err != nil {
		return err
	}
	return Update(e, Key(id), func(r *Reel) {
		r.Condition, r.Reason, r.FoundAt, r.FoundOn = mark.Condition, mark.Reason, mark.FoundAt, mark.FoundOn
	})
}

// MarkHouseLine marks a line that the venue owns. Good clears what was found before.
func (e *Edit) MarkHouseLine(id HouseLineID, mark Mark) error {
	mark, err := mark.settled("a house line")
	if err != nil {
		return err
	}
	return Update(e, Key(id), func(r *HouseLine) {
		r.Condition, r.Reason, r.FoundAt, r.FoundOn = mark.Condition, mark.Reason, mark.FoundAt, mark.FoundOn
	})
}

// settled is a mark without the findings that a good cable has not.
func (m Mark) settled(what string) (Mark, error) {
	switch m.Condition {
	case Suspect, Faulty:
		return m, nil
	case Good, "":
		return Mark{Condition: m.Condition}, nil
	}
	return m, refuse("%s is good, suspect or faulty, not %q", what, m.Condition)
}

// Away reports whether a segment is of a reel none of which is there: missing, in repair, written off, or not let to the show.
func (p *Plan) Away(segment Segment) bool {
	reel, found := p.Reels.Get(Key(segment.Reel))
	return found && segment.Reel != "" && reel.There() == 0
}

// ConditionOf is the condition of the reel or the house line that a segment is made of; blank counts as good.
func (p *Plan) ConditionOf(segment Segment) string {
	switch {
	case segment.Reel != "":
		reel, _ := p.Reels.Get(Key(segment.Reel))
		return reel.Condition
	case segment.HouseLine != "":
		line, _ := p.HouseLines.Get(Key(segment.HouseLine))
		return line.Condition
	}
	return ""
}
