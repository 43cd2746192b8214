package house

import (
	"bytes"
	"fmt"
	"io"
	"os"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
)

// Step is a change of the house's stock that can be taken back as long as nothing else has changed it.
type Step struct{ before, after []byte }

// Stepped does something by a library that notes how it changes the house's stock, and returns how that can be taken back.
func (l Library) Stepped(do func(Library) error) (Step, error) {
	var step Step
	l.step = &step
	err := do(l)
	return step, err
}

// Changes reports whether the step made the house's stock another than it was.
func (s Step) Changes() bool { return s.after != nil && !bytes.Equal(s.before, s.after) }

// noteStep notes a change that is written now, under the lock; one that stands on the last is part of the same step.
func (l Library) noteStep(after []byte) error {
	if l.step == nil {
		return nil
	}
	now, err := l.stockText()
	if err != nil {
		return err
	}
	if l.step.after == nil || !bytes.Equal(now, l.step.after) {
		l.step.before = now
	}
	l.step.after = after
	return nil
}

func (l Library) stockText() ([]byte, error) {
	text, _, err := l.read(l.stockFile(), theStock)
	return text, err
}

// TakeBack makes the house's stock what it was before a step, where it still is what the step made of it.
func (l Library) TakeBack(step Step) error {
	if l.folder == "" || step.after == nil {
		return nil
	}
	lock, err := l.lock(l.stockFile())
	if err != nil {
		return fmt.Errorf("the house's stock was not changed: %w", err)
	}
	defer func() { _ = lock.Release() }() // the file stands; a lock left behind frees itself with the program
	now, err := l.stockText()
	if err != nil {
		return err
	}
	if !bytes.Equal(now, step.after) {
		return fmt.Errorf("%w: the house's stock was changed since, by another window or with the save of a plan", plan.ErrRefused)
	}
	before := step.before
	if before == nil { // there was no file
		if text, err := encodeStock(Stock{Plan: plan.New("House stock")}); err == nil {
			before = []byte(text)
		}
	}
	return atomicfile.Write(l.stockFile(), func(w io.Writer) error {
		_, err := w.Write(before)
		return err
	}, nil)
}

// Stamp is another whenever the file of the house's stock is another; blank where there is none.
func (l Library) Stamp() string {
	if l.folder == "" {
		return ""
	}
	info, err := os.Stat(l.stockFile())
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%d %d", info.ModTime().UnixNano(), info.Size())
}
