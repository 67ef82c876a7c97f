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
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
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
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), variable+"=1", "TERM=xterm-256color")
	return Start(t, cmd, width, height)
}

// Start runs a program on a pseudo-terminal of this size, and ends it with the
// test.
func Start(t *testing.T, cmd *exec.Cmd, width, height int) *Session {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("there are no pseudo-terminals of this kind")
	}
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

// Patience is how long a test waits for what must come, on a busy machine too.
const Patience = 2 * time.Minute

// Await waits until the text comes, after what was awaited before.
func (s *Session) Await(text string) {
	s.t.Helper()
	if !s.until(Patience, func(news string) int { return end(news, text) }) {
		s.t.Fatalf("%q did not come:\n%q", text, s.all.String())
	}
}

func end(in, text string) int {
	if i := strings.Index(in, text); i >= 0 {
		return i + len(text)
	}
	return -1
}

// Reads waits so long for words that a person can read, whatever moves the cursor
// or breaks the line between them.
func (s *Session) Reads(words string, wait time.Duration) bool {
	return s.until(wait, func(news string) int {
		shows := func(n int) bool {
			text := strings.Join(strings.Fields(ansi.Strip(news[:n])), " ")
			// A line may break behind a hyphen too.
			return strings.Contains(strings.ReplaceAll(text, "- ", "-"), strings.ReplaceAll(words, "- ", "-"))
		}
		if !shows(len(news)) {
			return -1
		}
		return sort.Search(len(news), shows)
	})
}

// until waits until found says where in the news what is awaited ends.
func (s *Session) until(wait time.Duration, found func(news string) int) bool {
	deadline := time.After(wait)
	for {
		if n := found(s.all.String()[s.mark:]); n >= 0 {
			s.mark += n
			return true
		}
		select {
		case part, ok := <-s.more:
			if !ok {
				return false
			}
			s.all.WriteString(part)
		case <-deadline:
			return false
		}
	}
}

// News is what was written since what was awaited last, as far as it was looked
// at.
func (s *Session) News() string { return s.all.String()[s.mark:] }

// Ends waits for the program and gives its exit status and all that it wrote.
func (s *Session) Ends() (status int, all string) {
	s.t.Helper()
	if s.until(Patience, func(string) int { return -1 }); s.ended() {
		_ = s.cmd.Wait()
		return s.cmd.ProcessState.ExitCode(), s.all.String()
	}
	s.t.Fatal("the program does not end")
	return -1, ""
}

// ended reports whether all was read that there is.
func (s *Session) ended() bool {
	select {
	case _, more := <-s.more:
		return !more
	default:
		return false
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
