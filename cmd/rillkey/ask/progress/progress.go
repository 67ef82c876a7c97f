// Package progress shows on one line of a terminal how far long work is, and
// takes the line away when it is done. Work that is done at once shows nothing.
package progress

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"rillkey/cmd/rillkey/ask/terminal"
)

// The line is first shown after a moment, so that quick work does not flicker,
// and drawn anew a few times a second.
const (
	moment = 400 * time.Millisecond
	beat   = 200 * time.Millisecond
)

// Line is one line that says how far work is. A nil Line shows nothing, and all
// its methods may be called. It may be used by several goroutines.
type Line struct {
	mu    sync.Mutex
	out   io.Writer
	width int
	what  string
	done  int
	of    int
	drawn bool
	over  bool // nothing is drawn any more
	quit  chan struct{}
	ended chan struct{}
}

// Start shows on a terminal of so many columns how much of the work is done:
// what is counted ("visits") and how many there are. With of = 0 nobody knows how
// many, and what names the work ("drafting"); the line then says how long it has
// taken. The caller must call [Line.Done].
func Start(out io.Writer, width int, what string, of int) *Line {
	ticks := make(chan time.Duration)
	l := start(out, width, what, of, ticks)
	go l.tick(ticks)
	return l
}

// start draws the line whenever a tick says how long the work has taken.
func start(out io.Writer, width int, what string, of int, ticks <-chan time.Duration) *Line {
	l := &Line{out: out, width: width, what: what, of: of, quit: make(chan struct{}), ended: make(chan struct{})}
	go l.run(ticks)
	return l
}

func (l *Line) run(ticks <-chan time.Duration) {
	defer close(l.ended)
	for {
		select {
		case <-l.quit:
			return
		case since := <-ticks:
			l.draw(since)
		}
	}
}

func (l *Line) tick(ticks chan<- time.Duration) {
	begun := time.Now()
	wait := time.NewTimer(moment)
	defer wait.Stop()
	for {
		select {
		case <-l.quit:
			return
		case <-wait.C:
		}
		select {
		case <-l.quit:
			return
		case ticks <- time.Since(begun):
		}
		wait.Reset(beat)
	}
}

// Step says how many are done.
func (l *Line) Step(done int) {
	if l == nil {
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.done = done
}

// Around takes the line away while something else is written to the terminal.
func (l *Line) Around(write func()) {
	if l == nil {
		write()
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.erase()
	write()
}

// Done takes the line away for good.
func (l *Line) Done() {
	if l == nil {
		return
	}
	l.mu.Lock()
	over := l.over
	l.over = true
	l.erase()
	l.mu.Unlock()
	if !over {
		close(l.quit)
		<-l.ended
	}
}

// erase is the way back to the start of the line and the end of what stands on
// it (ECMA-48, erase in line).
func (l *Line) erase() {
	if l.drawn {
		fmt.Fprint(l.out, "\r\x1b[K")
		l.drawn = false
	}
}

func (l *Line) draw(since time.Duration) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.over {
		return
	}
	fmt.Fprint(l.out, "\r"+l.text(since)+"\x1b[K")
	l.drawn = true
}

// cells of the bar; words alone say the same where it has no room.
const cells, least = 20, 50

func (l *Line) text(since time.Duration) string {
	if l.of <= 0 {
		return terminal.Cut(fmt.Sprintf("%s, %d s ...", l.what, int(since.Seconds())), l.width-1)
	}
	done := max(0, min(l.done, l.of))
	text := fmt.Sprintf("%d of %d %s", done, l.of, l.what)
	if l.width >= least {
		full := cells * done / l.of
		text = "[" + strings.Repeat("#", full) + strings.Repeat(".", cells-full) + "] " + text
	}
	return terminal.Cut(text, l.width-1)
}
