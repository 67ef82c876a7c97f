package wholefile

import (
	"errors"
	"os"
	"time"

	"golang.org/x/sys/windows"
)

// letGo says that a file that is open cannot be renamed over.
const letGo = true

// renameOver renames, over a file that is there.
func renameOver(from, to string) error {
	return patiently(func() error { return os.Rename(from, to) })
}

// patiently tries a rename again while another program has one of the files open, as
// those do that look for viruses in whatever is new: for a second at most.
func patiently(rename func() error) (err error) {
	const longest = 512 * time.Millisecond
	for wait := time.Millisecond; wait <= longest; wait *= 2 {
		err = rename()
		if !errors.Is(err, windows.ERROR_SHARING_VIOLATION) && !errors.Is(err, windows.ERROR_ACCESS_DENIED) {
			return err
		}
		time.Sleep(wait)
	}
	return err
}
