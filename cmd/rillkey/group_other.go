//go:build !unix

package main

import "os/exec"

// inItsOwnGroup gives what ends a program.
func inItsOwnGroup(cmd *exec.Cmd) (end func() error) {
	return func() error {
		if cmd.Process == nil {
			return nil
		}
		return cmd.Process.Kill()
	}
}
