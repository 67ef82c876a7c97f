//go:build !windows && !js

package wholefile

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// lockAlone locks a file until it is closed. The error is [fs.ErrExist] where another
// program has it, else that nothing can be locked here.
func lockAlone(f *os.File) error {
	err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if errors.Is(err, syscall.EWOULDBLOCK) || errors.Is(err, syscall.EINTR) {
		return fs.ErrExist
	}
	return err
}
