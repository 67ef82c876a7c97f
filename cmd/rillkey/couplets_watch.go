package main

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"strings"
	"time"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/taxa"
	"rillkey/taxa/plain"
)

// lookEvery is how often a watched file is looked at. Editors save in several
// steps; a file caught halfway is simply checked again.
const lookEvery = 300 * time.Millisecond

// watchKey checks a key again whenever it is saved, and shows the branch that was
// just edited, to be walked with the letters of its leads. It ends with Ctrl-C,
// "q", or the end of input.
func watchKey(a *app, file string, flags checkFlags) error {
	ctx, stop := a.leaving.untilSignal()
	defer stop()
	w := &watcher{app: a, file: file, flags: flags}
	typed := make(chan string)
	go read(ctx, a.lines, typed)
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	if err := w.look(); err != nil {
		return err
	}
	for {
		select {
		case <-ctx.Done():
			fmt.Fprintln(a.out)
			return nil
		case line, more := <-typed:
			if !more || line == "q" {
				return nil
			}
			if err := w.step(line); err != nil {
				return err
			}
		case <-tick.C:
			if err := w.look(); err != nil {
				return err
			}
		}
	}
}

// read sends what is typed, line by line, and closes the channel at its end.
func read(ctx context.Context, lines *bufio.Reader, typed chan<- string) {
	defer close(typed)
	for {
		line, err := lines.ReadString('\n')
		if line = strings.TrimSpace(line); line != "" || err == nil {
			select {
			case typed <- line:
			case <-ctx.Done():
				return
			}
		}
		if err != nil {
			return
		}
	}
}

type watcher struct {
	*app
	file  string
	flags checkFlags

	size  int64
	saved time.Time
	seen  bool

	catalog *taxa.Catalog
	before  *couplets.File
	sound   *couplets.Sound
	at      []string // the couplets walked through, the present one last
}

// look checks the file when it has changed.
func (w *watcher) look() error {
	info, err := os.Stat(w.file)
	switch {
	case err != nil && !w.seen:
		_, _, err := w.examine(w.file, w.catalog)
		return err
	case err != nil: // between two steps of saving
		return nil
	case w.seen && info.Size() == w.size && info.ModTime().Equal(w.saved):
		return nil
	}
	again := w.seen
	w.seen, w.size, w.saved = true, info.Size(), info.ModTime()
	return w.check(again)
}

func (w *watcher) check(again bool) error {
	var err error
	if w.catalog, err = w.app.wholeCatalog(); err != nil {
		return err
	}
	region, err := w.regionMeant(w.catalog)
	if err != nil {
		return err
	}
	report := show.NewChecked()
	subject, err := checkFile(w.app, report, w.file, w.catalog, region)
	if err != nil {
		return err
	}
	fmt.Fprintf(w.out, "\n-- %s, %s\n", plain.Printable(w.file), w.saved.Format("15:04:05"))
	if err := report.Text(w.out); err != nil {
		return err
	}
	return w.preview(subject, again)
}

// preview shows the couplet that was edited last, or the first one.
func (w *watcher) preview(subject *rules.Input, again bool) error {
	if subject.Sound == nil {
		w.sound = nil
		fmt.Fprintln(w.out, "\nThe preview comes back once the errors are mended. Watching; q or Ctrl-C ends.")
		return nil
	}
	edited := subject.File.Start
	if again && w.before != nil {
		if id := firstChange(w.before, subject.File); id != "" {
			edited = id
		}
	}
	w.before, w.sound, w.at = subject.File, subject.Sound, []string{edited}
	return w.branch()
}

// firstChange is the first couplet that says something else than before, or is
// new; empty when none is.
func firstChange(before, after *couplets.File) string {
	old := map[string]string{}
	for i := range before.Couplets {
		old[before.Couplets[i].ID] = said(&before.Couplets[i])
	}
	for i := range after.Couplets {
		if c := &after.Couplets[i]; old[c.ID] != said(c) {
			return c.ID
		}
	}
	return ""
}

// said is all that a couplet says.
func said(c *couplets.Couplet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%q %q %q", c.Ask, c.Wait, c.Stop)
	for _, l := range c.Leads {
		fmt.Fprintf(&b, " %q %q %q", l.Text, l.To, l.Taxa)
		for _, cond := range l.Conditions {
			fmt.Fprintf(&b, " %q %q", cond.Trait, cond.States)
		}
	}
	return b.String()
}

// previewDepth is how many questions of a branch are shown at once.
const previewDepth = 2

func (w *watcher) branch() error {
	fmt.Fprintln(w.out)
	here := w.at[len(w.at)-1]
	if err := show.Tree(w.out, w.width, w.sound, w.catalog, here, previewDepth); err != nil {
		return err
	}
	return show.Say(w.out, w.width, "Walk on with a lead's letter and Enter; < goes back; a couplet's number goes there. "+
		"Watching; q or Ctrl-C ends.")
}

// step walks in the preview.
func (w *watcher) step(typed string) error {
	if w.sound == nil || typed == "" {
		return nil
	}
	if typed == "<" {
		if len(w.at) > 1 {
			w.at = w.at[:len(w.at)-1]
		}
		return w.branch()
	}
	if w.sound.Couplet(typed) != nil {
		w.at = append(w.at, typed)
		return w.branch()
	}
	for _, l := range w.sound.Couplet(w.at[len(w.at)-1]).Leads {
		if l.Letter != typed {
			continue
		}
		if l.To == "" {
			return show.Say(w.out, w.width, "The walk ends at %s.", show.Either(w.catalog, l.Taxa))
		}
		w.at = append(w.at, l.To)
		return w.branch()
	}
	return show.Say(w.out, w.width, "%s is no lead here and no couplet.", plain.Quote(typed))
}
