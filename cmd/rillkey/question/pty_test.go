package question

import (
	"fmt"
	"os"
	"strings"
	"syscall"
	"testing"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/cmd/rillkey/terminal/ttytest"
)

const childVariable = "RILLKEY_TEST_QUESTION"

// TestMain lets the test binary be the program at the other end of a
// pseudo-terminal: it asks the small key on a screen and says what came of it.
func TestMain(m *testing.M) {
	if os.Getenv(childVariable) == "" {
		os.Exit(m.Run())
	}
	q := begin(&testing.T{}, small(&testing.T{}))
	outcome, err := Screen(q, Destination{}, nil, os.Stdin, os.Stdout, terminal.Appearance{Color: true, Dark: true})
	fmt.Printf("outcome %d, error %v, path %q\n", outcome, err, strings.Join(q.Path(), " "))
	ttytest.Repeat()
}

func closes(t *testing.T, s *ttytest.Session, result string) {
	t.Helper()
	s.Await(result)
	s.Restored()
	if !s.Wrote("\x1b[?1049h") || !s.Wrote("\x1b[?25l") {
		t.Error("there never was a screen of its own")
	}
}

func TestAWalkTypedIntoATerminal(t *testing.T) {
	for _, size := range []size{{80, 24}, {40, 20}} {
		t.Run(fmt.Sprintf("%dx%d", size.width, size.height), func(t *testing.T) {
			s := ttytest.Open(t, childVariable, size.width, size.height)
			s.Await("Question 1")
			s.Send("a")
			s.Await("Question 2")
			s.Send("?")
			s.Await("Question 3")
			s.Send("\x7f")
			s.Await("taken away")
			s.Send("a")
			s.Await("Question 3")
			s.Send("c")
			s.Await("How long is it?")
			s.Send("\r")
			closes(t, s, `outcome 1, error <nil>, path "1a 2a 3c"`)
		})
	}
}

func TestCtrlCGivesTheTerminalBackAtEveryQuestion(t *testing.T) {
	for _, row := range []struct{ keys, at, path string }{
		{"", "Question 1", ""},
		{"a", "Question 2", "1a"},
		{"aa", "Question 3", "1a 2a"},
		{"h", "How to look", ""},
		{"as", "Stop here?", "1a"},
		{"q", "Leave without a name?", ""},
	} {
		t.Run(row.at, func(t *testing.T) {
			s := ttytest.Open(t, childVariable, 80, 24)
			s.Await("Question 1")
			for i, key := range row.keys {
				if i > 0 { // letters that come at once answer one question
					s.Await("Question 2")
				}
				s.Send(string(key))
			}
			s.Rewind()
			s.Await(row.at)
			s.Send("\x03")
			closes(t, s, fmt.Sprintf("outcome 0, error <nil>, path %q", row.path))
		})
	}
}

func TestASignalToEndGivesTheTerminalBack(t *testing.T) {
	for _, sig := range []os.Signal{syscall.SIGTERM, os.Interrupt} {
		t.Run(sig.String(), func(t *testing.T) {
			s := ttytest.Open(t, childVariable, 40, 20)
			s.Await("Question 1")
			s.Send("a")
			s.Await("Question 2")
			s.Signal(sig)
			closes(t, s, `outcome 0, error <nil>, path "1a"`)
		})
	}
}

func TestATerminalThatIsResized(t *testing.T) {
	s := ttytest.Open(t, childVariable, 80, 24)
	s.Await("Question 1")
	// The library listens for a new size only some time after the first paint.
	s.Send("h")
	s.Await("How to look")
	s.Send("h")
	s.Resize(20, 5)
	s.Await("↓ more")
	s.Send("b")
	s.Await("long is it?")
	s.Send("\r")
	closes(t, s, `outcome 1, error <nil>, path "1b"`)
}
