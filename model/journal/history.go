package journal

import (
	"encoding/json"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// state is one edit and the plan that it led to; size is that of its line.
type state struct {
	name string
	plan *plan.Plan
	size int64
}

// history is what the file of a journal holds: a plan and the edits after it.
type history struct {
	base, last *plan.Plan
	states     []state
	// size is that of all edits, baseSize that of the plan as it was last written.
	size, baseSize int64
}

func (h *history) add(s state) {
	h.states = append(h.states, s)
	h.last = s.plan
	h.size += s.size
}

// A journal holds no more of edits than three times its plan, and a small one a mebibyte; when it lets go, a third of
// that stays. So an edit that touches the whole plan costs the plan a few times, however often it is made, and reading
// takes no longer than opening the plan a few times.
const (
	timesThePlan  = 3
	smallestBound = 1 << 20
)

// bound is how many bytes of edits are kept. No edit is larger than the plans it lies between, so the largest stands for
// a plan that has grown since the base.
func (h *history) bound() int64 {
	largest := h.baseSize
	for _, s := range h.states {
		largest = max(largest, s.size)
	}
	return max(timesThePlan*largest, smallestBound)
}

// outgrown reports whether it is time to let the oldest edits go.
func (h *history) outgrown() bool { return h.size > smallestBound && h.size > h.bound() }

// trim lets the oldest edits of a history that is outgrown become part of its base, and counts them.
func (h *history) trim() (dropped int) {
	if !h.outgrown() {
		return 0
	}
	keep := h.bound() / timesThePlan
	for h.size > keep {
		h.size -= h.states[dropped].size
		dropped++
	}
	if dropped > 0 {
		h.base = h.states[dropped-1].plan
		h.states = append([]state(nil), h.states[dropped:]...)
	}
	return dropped
}

// lines are the base and all edits, as they stand in the file.
func (h *history) lines() ([]byte, error) {
	whole, err := planfile.EncodeDelta(plan.Between(&plan.Plan{}, h.base))
	if err != nil {
		return nil, err
	}
	text := written(whole)
	h.baseSize = int64(len(text))
	now := h.base
	for _, s := range h.states {
		line, err := lineOf(s.name, now, s.plan)
		if err != nil {
			return nil, err
		}
		text, now = append(text, line...), s.plan
	}
	return text, nil
}

// lineOf is one edit as a line.
func lineOf(name string, from, to *plan.Plan) ([]byte, error) {
	delta, err := planfile.EncodeDelta(plan.Between(from, to))
	if err != nil {
		return nil, err
	}
	content, err := json.Marshal(step{name, delta})
	if err != nil {
		return nil, err
	}
	return written(content), nil
}
