//go:build unix

package ttytest

import (
	"os"
	"syscall"
)

// signalGroup sends a signal to the first process of a terminal and to all that it
// started, as the terminal itself does.
func signalGroup(first *os.Process, sig os.Signal) error {
	return syscall.Kill(-first.Pid, sig.(syscall.Signal))
}
