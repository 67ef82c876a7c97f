//go:build !windows

package wholefile

import "os"

// letGo says that a file that is open cannot be renamed over.
const letGo = false

// renameOver renames, over a file that is there.
func renameOver(from, to string) error { return os.Rename(from, to) }
