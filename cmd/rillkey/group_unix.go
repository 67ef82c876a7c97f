//go:build unix

package main

import (
	"errors"
	"os/exec"
	"syscall"
	"time"
)

// inItsOwnGroup lets a program and all that it starts be ended together, which
// end does, and waits a moment until they are gone.
func inItsOwnGroup(cmd *exec.Cmd) (end func() error) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	return func() error {
		if cmd.Process == nil {
			return nil
		}
		err := syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL)
		for range 50 {
			if errors.Is(syscall.Kill(-cmd.Process.Pid, 0), syscall.ESRCH) {
				break
			}
			time.Sleep(20 * time.Millisecond)
		}
		return err
	}
}
