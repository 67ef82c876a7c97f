//go:build unix

package wholefile_test

import (
	"os"
	"os/exec"
	"syscall"
	"testing"

	"rillkey/scoring/wholefile"
)

// A program that ends without a chance to tidy up leaves none of what it put aside.
func TestNothingIsLeftOfAFileThatAKilledProgramPutAside(t *testing.T) {
	const folder = "SCRATCH_OF_A_KILLED_PROGRAM"
	if dir := os.Getenv(folder); dir != "" { // it is that program
		f, err := wholefile.Scratch(dir)
		if err == nil {
			_, err = f.Write(make([]byte, 1<<20))
		}
		if err != nil {
			os.Exit(3)
		}
		signal := syscall.SIGKILL
		if os.Getenv("BY_CTRL_C") != "" {
			signal = syscall.SIGINT
		}
		_ = syscall.Kill(os.Getpid(), signal)
		select {} // until it arrives
	}
	for _, row := range []struct {
		variable string
		signal   syscall.Signal
	}{{"", syscall.SIGKILL}, {"BY_CTRL_C=1", syscall.SIGINT}} {
		dir := t.TempDir()
		cmd := exec.Command(os.Args[0], "-test.run=^"+t.Name()+"$")
		cmd.Env = append(os.Environ(), folder+"="+dir)
		if row.variable != "" {
			cmd.Env = append(cmd.Env, row.variable)
		}
		err := cmd.Run()
		if status, is := cmd.ProcessState.Sys().(syscall.WaitStatus); !is || !status.Signaled() || status.Signal() != row.signal {
			t.Fatalf("%v: it ended by %v", row.signal, err)
		}
		if left := names(t, dir); len(left) > 0 {
			t.Errorf("%v: left behind: %q", row.signal, left)
		}
	}
}
