package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"sync"
	"syscall"
	"time"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/wording"
)

// leaving sees to it that nothing stays behind when a signal ends the program: no
// file that is not whole, no program that it started. A nil leaving, as in tests,
// does nothing.
type leaving struct {
	mu   sync.Mutex
	held map[int]context.CancelFunc // tells those that end their work by themselves
	last map[int]func()             // what to do first
	next int
	told time.Time // when those that end their work were told to
}

// insisting is how long after a signal another one means that the program takes too
// long to end. Keys pressed twice come sooner.
const insisting = 2 * time.Second

func newLeaving() *leaving {
	return &leaving{held: map[int]context.CancelFunc{}, last: map[int]func(){}}
}

// watch begins to wait for signals that end the program. One that whoever started the
// program has it ignore stays ignored.
func (l *leaving) watch() {
	if l == nil {
		return
	}
	signals := make(chan os.Signal, 1)
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) {
			signal.Notify(signals, s)
		}
	}
	go func() {
		for s := range signals {
			l.got(s)
		}
	}()
}

// got ends the program, or tells those that end it by themselves. Whoever begins to
// wait afterwards is told too: between two questions nobody waits.
func (l *leaving) got(s os.Signal) {
	l.mu.Lock()
	defer l.mu.Unlock()
	insists := !l.told.IsZero() && time.Since(l.told) > insisting
	if s == syscall.SIGHUP || insists || len(l.held) == 0 && !terminal.Running() {
		l.leave(s)
	}
	if l.told.IsZero() {
		l.told = time.Now()
	}
	for _, tell := range l.held {
		tell()
	}
	terminal.End()
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
	return l.firstOf(do)
}

// firstOf is first for who holds the lock.
func (l *leaving) firstOf(do func()) (callOff func()) {
	id := l.next
	l.next++
	l.last[id] = do
	return func() {
		l.mu.Lock()
		defer l.mu.Unlock()
		delete(l.last, id)
	}
}

// writesNothing says, where a signal ends the program before it is called off, that
// nothing was written.
func (c *console) writesNothing() (callOff func()) {
	return c.ifLeft(wording.Text("left: nothing was written; the same command can be typed again"))
}

// ifLeft says a line where a signal ends the program, until it is called off.
func (c *console) ifLeft(line string) (callOff func()) {
	return c.leaving.first(func() {
		if c.errScreen {
			fmt.Fprintln(c.stderr) // after what the terminal shows for the key, and a line that comes and goes
		}
		c.complain("rillkey: " + line)
	})
}

// runs runs a program, and ends it and all that it starts where this one ends.
func (l *leaving) runs(cmd *exec.Cmd) error {
	end := inItsOwnGroup(cmd)
	cmd.Cancel, cmd.WaitDelay = end, time.Second
	callOff, err := l.starts(cmd, end)
	defer callOff()
	if err != nil {
		return err
	}
	return cmd.Wait()
}

// starts starts a program, which end is to end. A signal that comes meanwhile waits: it
// would miss what runs already and is not yet known.
func (l *leaving) starts(cmd *exec.Cmd, end func() error) (callOff func(), err error) {
	if l == nil {
		return func() {}, cmd.Start()
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := cmd.Start(); err != nil {
		return func() {}, err
	}
	return l.firstOf(func() { _ = end() }), nil
}

// untilSignal is done at a signal to end, which then does not end the program,
// until stop is called. It is done at once where such a signal has come before.
func (l *leaving) untilSignal() (ctx context.Context, stop func()) {
	if l == nil {
		return context.WithCancel(context.Background())
	}
	ctx, tell := context.WithCancel(context.Background())
	l.mu.Lock()
	defer l.mu.Unlock()
	id := l.next
	l.next++
	l.held[id] = tell
	if !l.told.IsZero() {
		tell()
	}
	return ctx, func() {
		l.mu.Lock()
		defer l.mu.Unlock()
		delete(l.held, id)
		tell()
	}
}
