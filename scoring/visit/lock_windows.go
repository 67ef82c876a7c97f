package visit

import (
	"errors"
	"os"
	"syscall"
	"unsafe"
)

// The system library is called directly, which saves a dependency.
var (
	kernel       = syscall.NewLazyDLL("kernel32.dll")
	lockFileEx   = kernel.NewProc("LockFileEx")
	unlockFileEx = kernel.NewProc("UnlockFileEx")
)

const (
	lockFailAtOnce     = 1
	lockAlone          = 2
	errorLockViolation = syscall.Errno(33)
)

// lockedByte lies far behind any file, because Windows forbids reading what
// is locked.
func lockedByte() *syscall.Overlapped { return &syscall.Overlapped{OffsetHigh: 0x7fffffff} }

func tryLock(f *os.File, alone bool) error {
	how := uintptr(lockFailAtOnce)
	if alone {
		how |= lockAlone
	}
	ok, _, err := lockFileEx.Call(f.Fd(), how, 0, 1, 0, uintptr(unsafe.Pointer(lockedByte())))
	switch {
	case ok != 0:
		return nil
	case errors.Is(err, errorLockViolation):
		return errBusy
	}
	return err
}

func releaseLock(f *os.File) {
	_, _, _ = unlockFileEx.Call(f.Fd(), 0, 1, 0, uintptr(unsafe.Pointer(lockedByte())))
}
