package main

import (
	"context"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/scoring/wholefile"
)

// leaving sees to it that nothing stays behind when a signal ends the program: no
// file that is not whole, no program that it started. A nil leaving, as in tests,
// does nothing.
type leaving struct {
	mu   sync.Mutex
	held int            // how many end their work by themselves
	last map[int]func() // what to do first
	next int
}

// watchSignals begins to wait for signals that end the program. One that whoever
// started the program has it ignore stays ignored.
func watchSignals() *leaving {
	l := &leaving{last: map[int]func(){}}
	signals := make(chan os.Signal, 1)
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) {
			signal.Notify(signals, s)
		}
	}
	go func() {
		for s := range signals {
			l.mu.Lock()
			if s == syscall.SIGHUP || l.held == 0 && !terminal.Running() {
				l.leave(s)
			}
			l.mu.Unlock()
		}
	}()
	return l
}

// leave ends the program by the signal it got.
func (l *leaving) leave(s os.Signal) {
	for _, do := range l.last {
		do()
	}
	wholefile.Abandon()
	signal.Reset(s)
	if self, err := os.FindProcess(os.Getpid()); err == nil && self.Signal(s) == nil {
		time.Sleep(time.Second)
	}
	os.Exit(statusBadData)
}

// first has do done before the program leaves, until it is called off.
func (l *leaving) first(do func()) (callOff func()) {
	if l == nil {
		return func() {}
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	id := l.next
	l.next++
	l.last[id] = do
	return func() {
		l.mu.Lock()
		defer l.mu.Unlock()
		delete(l.last, id)
	}
}

// untilSignal is done at a signal to end, which then does not end the program,
// until stop is called.
func (l *leaving) untilSignal() (ctx context.Context, stop func()) {
	l.hold(1)
	ctx, release := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	return ctx, func() {
		release()
		l.hold(-1)
	}
}

func (l *leaving) hold(n int) {
	if l == nil {
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.held += n
}
