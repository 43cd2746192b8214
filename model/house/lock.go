package house

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"time"

	"stageloom/model/planfile"
)

// A change takes milliseconds, so a lock that is held is tried again for some seconds, at uneven times so that of many
// programs each comes through.
const (
	lockTries    = 2000
	longestPause = 5 * time.Millisecond
)

// lock makes the folder and locks a file of it while it is read, changed and written. What another computer left is
// taken: nobody holds it for longer than a change.
func (l Library) lock(file string) (lock *planfile.Lock, err error) {
	if err := os.MkdirAll(l.folder, 0o700); err != nil {
		return nil, err
	}
	for range lockTries {
		lock, err = planfile.TakeOver(file, planfile.ThisProcess(time.Now()))
		var held *planfile.Held
		if !errors.As(err, &held) {
			break
		}
		time.Sleep(rand.N(longestPause))
	}
	if err != nil {
		return nil, fmt.Errorf("another program holds it or its folder cannot be written in: %w", err)
	}
	return lock, nil
}
