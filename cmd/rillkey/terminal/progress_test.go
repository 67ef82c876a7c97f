package terminal

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal/ttytest"
)

const childVariable = "RILLKEY_TEST_PROGRESS"

// TestMain lets the test binary be a program that works at its own clock: it
// ticks once for every visit.
func TestMain(m *testing.M) {
	if os.Getenv(childVariable) == "" {
		os.Exit(m.Run())
	}
	ticks := make(chan time.Duration)
	l := startProgress(os.Stderr, 80, "visits", 100, ticks)
	for i := range 100 {
		l.Step(i)
		ticks <- 0
		if i == 70 {
			l.Interrupt(func() { fmt.Fprint(os.Stderr, "left out: one\r\n") })
		}
	}
	l.Done()
	fmt.Println("finished")
	ttytest.Repeat()
}

func TestOnATerminalTheLineComesAndGoes(t *testing.T) {
	s := ttytest.Open(t, childVariable, 80, 24)
	s.Await("[#")
	s.Await(" of 100 visits")
	s.Await("\r\x1b[Kleft out: one")
	s.Await("] 9") // it goes on in the nineties
	s.Await("\r\x1b[Kfinished")
}

// By the real clock: nothing at once, then a line that comes by itself.
func TestTheClockTicks(t *testing.T) {
	var out buffer
	l := StartProgress(&out, 80, "visits", 3)
	l.Step(1)
	for until := time.Now().Add(20 * time.Second); out.text() == "" && time.Now().Before(until); {
		time.Sleep(progressInterval / 10)
	}
	l.Done()
	if !strings.HasPrefix(out.text(), "\r[######..............] 1 of 3 visits") {
		t.Errorf("%q", out.text())
	}
}

func TestProgressInWords(t *testing.T) {
	for _, row := range []struct {
		why      string
		width    int
		what     string
		done, of int
		since    time.Duration
		want     string
	}{
		{"a bar and words", 80, "visits", 50, 200, 0, "[#####...............] 50 of 200 visits"},
		{"words alone at 40 columns", 40, "visits", 50, 200, 0, "50 of 200 visits"},
		{"all done", 80, "visits", 200, 200, 0, "[####################] 200 of 200 visits"},
		{"more than all is all", 80, "visits", 300, 200, 0, "[####################] 200 of 200 visits"},
		{"less than nothing is nothing", 80, "visits", -1, 200, 0, "[....................] 0 of 200 visits"},
		{"nobody knows how many", 80, "drafting", 0, 0, 2500 * time.Millisecond, "drafting, 2 s ..."},
		{"never over the edge", 10, "visits", 50, 200, 0, "50 of 200"},
		{"nor on one column", 1, "visits", 50, 200, 0, ""},
	} {
		l := &ProgressLine{width: row.width, what: row.what, done: row.done, total: row.of}
		got := l.text(row.since)
		if got != row.want && strings.TrimSpace(got) != row.want || ansi.StringWidth(got) >= max(row.width, 1) && row.width > 1 {
			t.Errorf("%s: %q, want %q", row.why, got, row.want)
		}
	}
}

// buffer may be written to by the line and read by the test.
type buffer struct {
	mu sync.Mutex
	bytes.Buffer
}

func (b *buffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.Buffer.Write(p)
}

func (b *buffer) text() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.String()
}

func TestQuickWorkShowsNothing(t *testing.T) {
	var out *buffer
	for quick := false; !quick; { // on a busy machine nothing may be quick at first
		out = &buffer{}
		begun := time.Now()
		l := StartProgress(out, 80, "visits", 3)
		l.Step(3)
		l.Done()
		l.Done()
		quick = time.Since(begun) < progressInterval/2
	}
	time.Sleep(2 * progressInterval)
	if out.text() != "" {
		t.Errorf("%q", out.text())
	}
}

func TestWithoutATerminalNothingHappens(t *testing.T) {
	var l *ProgressLine
	said := false
	l.Step(1)
	l.Interrupt(func() { said = true })
	l.Done()
	if !said {
		t.Error("what there was to say was not said")
	}
}
