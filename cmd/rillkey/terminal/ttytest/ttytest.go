// Package ttytest runs a test binary as a program on a pseudo-terminal, for the
// tests of screens.
package ttytest

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
)

// Session is a program on a pseudo-terminal and all that it wrote.
type Session struct {
	t    *testing.T
	cmd  *exec.Cmd
	tty  *os.File
	more chan string
	all  strings.Builder
	mark int // what was waited for already
}

// Open runs the test binary again, with the variable set in its environment, on
// a pseudo-terminal of this size that answers no questions. It is ended with the
// test.
func Open(t *testing.T, variable string, width, height int) *Session {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("there are no pseudo-terminals of this kind")
	}
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), variable+"=1", "TERM=xterm-256color")
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: uint16(width), Rows: uint16(height)})
	if err != nil {
		t.Fatal(err)
	}
	s := &Session{t: t, cmd: cmd, tty: tty, more: make(chan string, 1000)}
	go s.read()
	t.Cleanup(func() {
		_ = cmd.Process.Kill()
		_ = tty.Close()
		_ = cmd.Wait()
	})
	return s
}

func (s *Session) read() {
	defer close(s.more)
	for buf := make([]byte, 4096); ; {
		n, err := s.tty.Read(buf)
		if n > 0 {
			s.more <- string(buf[:n])
		}
		if err != nil {
			return
		}
	}
}

// Await waits until the text comes, after what was awaited before.
func (s *Session) Await(text string) {
	s.t.Helper()
	deadline := time.After(20 * time.Second)
	for {
		if i := strings.Index(s.all.String()[s.mark:], text); i >= 0 {
			s.mark += i + len(text)
			return
		}
		select {
		case part, ok := <-s.more:
			if !ok {
				s.t.Fatalf("it ended without %q:\n%q", text, s.all.String())
			}
			s.all.WriteString(part)
		case <-deadline:
			s.t.Fatalf("%q did not come:\n%q", text, s.all.String())
		}
	}
}

// Send types keys.
func (s *Session) Send(keys string) {
	s.t.Helper()
	if _, err := s.tty.WriteString(keys); err != nil {
		s.t.Fatal(err)
	}
}

// Rewind lets Await look at all that was written so far.
func (s *Session) Rewind() { s.mark = 0 }

// Signal sends the program a signal.
func (s *Session) Signal(sig os.Signal) {
	s.t.Helper()
	if err := s.cmd.Process.Signal(sig); err != nil {
		s.t.Fatal(err)
	}
}

// Resize changes the size of the terminal.
func (s *Session) Resize(width, height int) {
	s.t.Helper()
	if err := pty.Setsize(s.tty, &pty.Winsize{Cols: uint16(width), Rows: uint16(height)}); err != nil {
		s.t.Fatal(err)
	}
}

// Restored checks that the terminal is as it was: whatever was switched on is
// off again, and a line is echoed and sent off by Enter, which the program has
// to repeat as [Repeat] does. It also checks that the terminal was not asked
// anything.
func (s *Session) Restored() {
	s.t.Helper()
	s.Send("still here\r")
	s.Await("still here\r\n") // the echo
	s.Await(`then "still here\n"`)
	all := s.all.String()
	for _, mode := range []struct{ on, off string }{{"\x1b[?1049h", "\x1b[?1049l"}, {"\x1b[?25l", "\x1b[?25h"},
		{"\x1b[?2004h", "\x1b[?2004l"}} {
		if strings.LastIndex(all, mode.on) > strings.LastIndex(all, mode.off) {
			s.t.Errorf("%q is not undone by %q", mode.on, mode.off)
		}
	}
	for _, query := range []string{"\x1b]10;?", "\x1b]11;?", "\x1b[6n"} {
		if strings.Contains(all, query) {
			s.t.Errorf("the terminal was asked %q, and one that does not answer holds up every command", query)
		}
	}
}

// Wrote reports whether the program has written the text so far.
func (s *Session) Wrote(text string) bool { return strings.Contains(s.all.String(), text) }

// Repeat is what the program does last: it repeats one line of its input.
func Repeat() {
	line, _ := bufio.NewReader(os.Stdin).ReadString('\n')
	fmt.Printf("then %q\n", line)
}
