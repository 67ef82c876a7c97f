//go:build !js

// Package terminal is what full screens and plain lines have in common: how
// they look, how text is folded to a width, how a typed line is read, and how a
// screen is run so that the terminal is always given back as it was.
//
// Begin with [Appearance], [Styles] and [ProgressLine].
//
// It decides nothing about colours by asking the terminal, and importing it
// keeps the screen library from asking; see package quiet.
package terminal

import (
	"errors"
	"io"
	"os"
	"sync"
	"sync/atomic"

	tea "github.com/charmbracelet/bubbletea"

	"rillkey/cmd/rillkey/terminal/quiet"
)

func init() { quiet.Restore() }

// Run shows a screen until it quits, and gives its last state. A signal to end
// (SIGINT, SIGTERM), [End] and the end of in quit it without an error; whether the
// person had come to an end is for the model to know. The terminal is restored
// in every case.
func Run(model tea.Model, in io.Reader, out io.Writer, options ...tea.ProgramOption) (tea.Model, error) {
	var p *tea.Program
	ended := func() { p.Quit() }
	options = append(options, tea.WithInput(watch(in, ended)), tea.WithOutput(out), tea.WithFilter(quitOnInterrupt))
	p = tea.NewProgram(model, options...)
	running.Add(1)
	defer running.Add(-1)
	over := make(chan struct{})
	defer close(over)
	go func() {
		select {
		case <-noMore:
			p.Quit()
		case <-over:
		}
	}()
	return p.Run()
}

// noMore is closed once no screen is wanted any more.
var noMore = make(chan struct{})

var endOnce sync.Once

// End quits the screen that is shown, and each that would be shown after it.
func End() { endOnce.Do(func() { close(noMore) }) }

// running counts the screens that are shown.
var running atomic.Int32

// Running reports whether a screen is shown, which a signal to end quits.
func Running() bool { return running.Load() > 0 }

// quitOnInterrupt makes an interrupt a quit like any other. On an interrupt the
// library does not wait for its reader of keys, which then may take the first
// line of whatever is asked next.
func quitOnInterrupt(_ tea.Model, msg tea.Msg) tea.Msg {
	if _, ok := msg.(tea.InterruptMsg); ok {
		return tea.QuitMsg{}
	}
	return msg
}

// watch is in, calling ended once it is at its end: the screen library would
// wait on for keys that can no longer come. A file stays a file, because only
// of a file can raw mode be asked.
func watch(in io.Reader, ended func()) io.Reader {
	if f, ok := in.(*os.File); ok {
		return watchedFile{f, ended}
	}
	return watched{in, ended}
}

type watched struct {
	io.Reader
	ended func()
}

func (w watched) Read(p []byte) (int, error) { return tell(w.Reader, p, w.ended) }

type watchedFile struct {
	*os.File
	ended func()
}

func (w watchedFile) Read(p []byte) (int, error) { return tell(w.File, p, w.ended) }

func tell(r io.Reader, p []byte, ended func()) (int, error) {
	n, err := r.Read(p)
	if errors.Is(err, io.EOF) {
		go ended()
	}
	return n, err
}
