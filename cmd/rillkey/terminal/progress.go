//go:build !js

package terminal

import (
	"fmt"
	"io"
	"rillkey/taxa/wording"
	"strings"
	"sync"
	"time"
)

// The line is first shown after a moment, so that quick work does not flicker,
// and drawn anew a few times a second.
const (
	progressDelay    = 400 * time.Millisecond
	progressInterval = 200 * time.Millisecond
)

// ProgressLine is a line of a terminal that says how far long work is, and goes when
// it is done; work that is done at once shows nothing. A nil Progress shows
// nothing, and all its methods may be called, also by several goroutines.
type ProgressLine struct {
	mu     sync.Mutex
	output io.Writer
	width  int
	what   string
	done   int
	total  int
	drawn  bool
	closed bool // nothing is drawn any more
	quit   chan struct{}
	ended  chan struct{}
}

// StartProgress shows on a terminal of so many columns how much of the work is done:
// what is counted ("visits") and how many there are. With of = 0 nobody knows how
// many, and what names the work ("drafting"); the line then says how long it has
// taken. The caller must call [Progress.Done].
func StartProgress(out io.Writer, width int, what string, of int) *ProgressLine {
	ticks := make(chan time.Duration)
	p := startProgress(out, width, what, of, ticks)
	go p.tick(ticks)
	return p
}

// startProgress draws the line whenever a tick says how long the work has taken.
func startProgress(out io.Writer, width int, what string, of int, ticks <-chan time.Duration) *ProgressLine {
	p := &ProgressLine{output: out, width: width, what: what, total: of, quit: make(chan struct{}), ended: make(chan struct{})}
	go p.run(ticks)
	return p
}

func (p *ProgressLine) run(ticks <-chan time.Duration) {
	defer close(p.ended)
	for {
		select {
		case <-p.quit:
			return
		case since := <-ticks:
			p.draw(since)
		}
	}
}

func (p *ProgressLine) tick(ticks chan<- time.Duration) {
	begun := time.Now()
	wait := time.NewTimer(progressDelay)
	defer wait.Stop()
	for {
		select {
		case <-p.quit:
			return
		case <-wait.C:
		}
		select {
		case <-p.quit:
			return
		case ticks <- time.Since(begun):
		}
		wait.Reset(progressInterval)
	}
}

// Step says how many are done.
func (p *ProgressLine) Step(done int) {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.done = done
}

// Interrupt takes the line away while something else is written to the terminal.
func (p *ProgressLine) Interrupt(write func()) {
	if p == nil {
		write()
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.erase()
	write()
}

// Done takes the line away for good.
func (p *ProgressLine) Done() {
	if p == nil {
		return
	}
	p.mu.Lock()
	over := p.closed
	p.closed = true
	p.erase()
	p.mu.Unlock()
	if !over {
		close(p.quit)
		<-p.ended
	}
}

// erase is the way back to the start of the line and the end of what stands on
// it (ECMA-48, erase in line).
func (p *ProgressLine) erase() {
	if p.drawn {
		fmt.Fprint(p.output, "\r\x1b[K")
		p.drawn = false
	}
}

func (p *ProgressLine) draw(since time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.closed {
		return
	}
	fmt.Fprint(p.output, "\r"+p.text(since)+"\x1b[K")
	p.drawn = true
}

// The bar in cells, and the columns from which on there is one: words alone say
// the same where it has no room.
const barCells, minBarWidth = 20, 50

func (p *ProgressLine) text(since time.Duration) string {
	if p.total <= 0 {
		return Cut(fmt.Sprintf("%s, %d s ...", p.what, int(since.Seconds())), p.width-1)
	}
	done := max(0, min(p.done, p.total))
	text := wording.Sprintf("%d of %d %s", done, p.total, p.what)
	if p.width >= minBarWidth {
		full := barCells * done / p.total
		text = "[" + strings.Repeat("#", full) + strings.Repeat(".", barCells-full) + "] " + text
	}
	return Cut(text, p.width-1)
}
