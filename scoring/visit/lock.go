package visit

import (
	"errors"
	"os"
	"time"

	"rillkey/taxa/wording"
)

// A lock is held for the few milliseconds of one append, so one that is still
// held after all these tries belongs to a program that hangs.
const (
	lockTries = 200
	lockPause = 25 * time.Millisecond
)

var errBusy = errors.New("busy")

// lock takes the advisory lock on an open file, alone or shared with readers.
func lock(f *os.File, alone bool) (unlock func(), err error) {
	for range lockTries {
		err = tryLock(f, alone)
		if !errors.Is(err, errBusy) {
			break
		}
		time.Sleep(lockPause)
	}
	switch {
	case err == nil:
		return func() { releaseLock(f) }, nil
	case errors.Is(err, errBusy):
		return nil, wording.NewError("another program keeps the visit file busy; close it and try again")
	}
	// Some file systems know no locks. Recording matters more than guarding
	// against a second program there.
	return func() {}, nil
}
