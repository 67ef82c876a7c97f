// Package ttytest runs a test binary as a program on a pseudo-terminal, for the
// tests of screens.
package ttytest

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/creack/pty"
)

// Session is a program on a pseudo-terminal and all that it wrote.
type Session struct {
	t      *testing.T
	cmd    *exec.Cmd // the shell that the program is started by
	tty    *os.File
	more   chan string
	all    string
	mark   int  // what was waited for already
	ended  bool // all is there that the program wrote
	status int
}

// Open runs the test binary again, with the variable set in its environment, on
// a pseudo-terminal of this size that answers no questions. It is ended with the
// test.
func Open(t *testing.T, variable string, width, height int) *Session {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), variable+"=1", "TERM=xterm-256color")
	return Start(t, cmd, width, height)
}

// shell starts a program as a person's shell does, and stays when it has ended: with
// the first program of a terminal Linux takes what was written last and not yet read.
// Behind that it writes the exit status. Signals are for the program.
const shell = `trap : INT TERM; "$@"; printf '\033]ended %d\a' $?; trap '' INT TERM; exec sleep 600`

// Start runs a program on a pseudo-terminal of this size, and ends it with the
// test.
func Start(t *testing.T, cmd *exec.Cmd, width, height int) *Session {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("there are no pseudo-terminals of this kind")
	}
	inShell := exec.Command("sh", append([]string{"-c", shell, "sh", cmd.Path}, cmd.Args[1:]...)...)
	inShell.Dir, inShell.Env = cmd.Dir, cmd.Env
	tty, err := pty.StartWithSize(inShell, &pty.Winsize{Cols: uint16(width), Rows: uint16(height)})
	if err != nil {
		t.Fatal(err)
	}
	s := &Session{t: t, cmd: inShell, tty: tty, more: make(chan string, 1000)}
	go s.read()
	t.Cleanup(func() {
		_ = signalGroup(inShell.Process, os.Kill)
		_ = tty.Close()
		_ = inShell.Wait()
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

// timeout is how long a test waits for what must come, on a busy machine too.
const timeout = 2 * time.Minute

// Await waits until the text comes, after what was awaited before.
func (s *Session) Await(text string) {
	s.t.Helper()
	if !s.waitUntil(timeout, func(news string) int { return end(news, text) }) {
		s.t.Fatalf("%q did not come:\n%q", text, s.all)
	}
}

func end(in, text string) int {
	if i := strings.Index(in, text); i >= 0 {
		return i + len(text)
	}
	return -1
}

// Reads waits until one of these words has come that a person can read, whatever moves
// the cursor or breaks the line between them, and gives its number; -1 where none does.
func (s *Session) Reads(words ...string) int {
	first := -1
	s.waitUntil(timeout, func(news string) int {
		first = -1
		end := len(news) + 1
		for i, w := range words {
			if !shows(news, w) {
				continue
			}
			if n := sort.Search(len(news), func(n int) bool { return shows(news[:n], w) }); n < end {
				first, end = i, n
			}
		}
		if first < 0 {
			return -1
		}
		return end
	})
	return first
}

// shows reports whether words stand in what was written.
func shows(written, words string) bool {
	text := strings.Join(strings.Fields(ansi.Strip(written)), " ")
	// A line may break behind a hyphen too.
	return strings.Contains(strings.ReplaceAll(text, "- ", "-"), strings.ReplaceAll(words, "- ", "-"))
}

// waitUntil waits until found says where in the news what is awaited ends.
func (s *Session) waitUntil(wait time.Duration, found func(news string) int) bool {
	deadline := time.After(wait)
	for {
		s.look()
		if n := found(s.all[s.mark:]); n >= 0 {
			s.mark += n
			return true
		}
		if s.ended {
			return false
		}
		select {
		case part, ok := <-s.more:
			if !ok {
				return false
			}
			s.all += part
		case <-deadline:
			return false
		}
	}
}

// look takes the exit status out of what was written.
func (s *Session) look() {
	before, status, ended := strings.Cut(s.all, "\x1b]ended ")
	status, _, whole := strings.Cut(status, "\a")
	if !ended || !whole {
		return
	}
	s.all, s.ended = before, true
	s.mark = min(s.mark, len(s.all))
	s.status, _ = strconv.Atoi(status)
}

// News is what was written since what was awaited last, as far as it was looked
// at.
func (s *Session) News() string { return s.all[s.mark:] }

// Ends waits for the program and gives its exit status and all that it wrote.
func (s *Session) Ends() (status int, all string) {
	s.t.Helper()
	if s.waitUntil(timeout, func(string) int { return -1 }); !s.ended {
		s.t.Fatalf("the program does not end; since the last: %q", s.News())
	}
	return s.status, s.all
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
	if err := signalGroup(s.cmd.Process, sig); err != nil {
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
	all := s.all
	for _, mode := range []struct{ set, reset string }{{"\x1b[?1049h", "\x1b[?1049l"}, {"\x1b[?25l", "\x1b[?25h"},
		{"\x1b[?2004h", "\x1b[?2004l"}} {
		if strings.LastIndex(all, mode.set) > strings.LastIndex(all, mode.reset) {
			s.t.Errorf("%q is not undone by %q", mode.set, mode.reset)
		}
	}
	for _, query := range []string{"\x1b]10;?", "\x1b]11;?", "\x1b[6n"} {
		if strings.Contains(all, query) {
			s.t.Errorf("the terminal was asked %q, and one that does not answer holds up every command", query)
		}
	}
}

// Wrote reports whether the program has written the text so far.
func (s *Session) Wrote(text string) bool { return strings.Contains(s.all, text) }

// Repeat is what the program does last: it repeats one line of its input.
func Repeat() {
	line, _ := bufio.NewReader(os.Stdin).ReadString('\n')
	fmt.Printf("then %q\n", line)
}
