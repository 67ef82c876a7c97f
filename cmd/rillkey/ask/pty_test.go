package ask

import (
	"errors"
	"fmt"
	"os"
	"syscall"
	"testing"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/cmd/rillkey/terminal/ttytest"
)

const childVariable = "RILLKEY_TEST_ASK"

// TestMain lets the test binary be the program at the other end of a
// pseudo-terminal: it shows a form and says what came of it.
func TestMain(m *testing.M) {
	if os.Getenv(childVariable) == "" {
		os.Exit(m.Run())
	}
	a, err := Screen("", visit(), os.Stdin, os.Stdout, terminal.Appearance{Dark: true})
	fmt.Printf("left %v, answers %v\n", errors.Is(err, ErrLeft), a)
	ttytest.Repeat()
}

func TestAFormTypedIntoATerminal(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {40, 20}} {
		t.Run(fmt.Sprint(size), func(t *testing.T) {
			s := ttytest.Open(t, childVariable, size[0], size[1])
			for _, step := range []struct{ await, send string }{
				{"1 of 5", "\x1b[F x\r"}, {"2 of 5", "\x1b[B\r"}, {"3 of 5", "3"}, {"3", "\r"}, {"4 of 5", "\r"}, {"5 of 5", "y"},
			} {
				s.Await(step.await)
				s.Send(step.send)
			}
			s.Await("cautions? yes") // the lines above it stay as they are
			s.Await("left false, answers map[cell: count:3 protocol:jab read:yes site:Otter Run x]")
			s.Restored()
		})
	}
}

// What comes in one go is kept: words that are names of keys, and what was typed
// ahead of the field that it is for.
func TestABurstTypedIntoATerminal(t *testing.T) {
	s := ttytest.Open(t, childVariable, 80, 24)
	s.Await("1 of 5")
	s.Send("left bank by the mill, south end")
	s.Await("left bank by the mill, south end")
	s.Send("\r\r3\rhome\ry")
	s.Await("left false, answers map[cell:home count:3 protocol:kick read:yes site:left bank by the mill, south end]")
	s.Restored()
}

// What is typed after an answer was refused takes its place.
func TestARefusedAnswerIsReplacedInATerminal(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {40, 20}} {
		s := ttytest.Open(t, childVariable, size[0], size[1])
		s.Await("1 of 5")
		s.Send("\r\r")
		s.Await("3 of 5")
		s.Send("4\r")
		s.Await("is not three")
		s.Send("3\r")
		s.Await("4 of 5")
		s.Send("\ry")
		s.Await("left false, answers map[cell: count:3 protocol:kick read:yes site:Otter Run]")
		s.Restored()
	}
}

func TestAFormThatIsLeftGivesTheTerminalBack(t *testing.T) {
	for _, row := range []struct {
		why   string
		leave func(*ttytest.Session)
	}{
		{"Ctrl-C", func(s *ttytest.Session) { s.Send("\x03") }},
		{"SIGTERM", func(s *ttytest.Session) { s.Signal(syscall.SIGTERM) }},
		{"SIGINT", func(s *ttytest.Session) { s.Signal(os.Interrupt) }},
	} {
		t.Run(row.why, func(t *testing.T) {
			s := ttytest.Open(t, childVariable, 80, 24)
			s.Await("1 of 5")
			s.Send("\r")
			s.Await("2 of 5")
			row.leave(s)
			s.Await("left true, answers map[]")
			s.Restored()
		})
	}
}

// Without colour the place to type is still marked, by reversed letters, and
// nothing sets a colour.
func TestAFormWithoutColour(t *testing.T) {
	s := ttytest.Open(t, childVariable, 80, 24)
	s.Await("1 of 5")
	s.Send("\x03")
	s.Await("left true")
	s.Restored()
	if !s.Wrote("\x1b[7m") {
		t.Error("the cursor is not to be seen")
	}
	for _, colour := range []string{"\x1b[3", ";3", "\x1b[9", "\x1b[4", "38;"} {
		if s.Wrote(colour) {
			t.Errorf("%q sets a colour", colour)
		}
	}
}
