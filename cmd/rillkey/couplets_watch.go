package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/couplets/versions"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// lookEvery is how often a watched file is looked at. Editors save in several
// steps; a file caught halfway is simply checked again.
const lookEvery = 300 * time.Millisecond

// watchKey checks a key again whenever it or a file of its animals or its region is saved, and shows the branch that was
// just edited, to be walked with the letters of its leads. It ends with Ctrl-C,
// "q", or the end of input.
func watchKey(a *app, file string) error {
	ctx, stop := a.leaving.untilSignal()
	defer stop()
	w := &watcher{app: a, file: file}
	if _, err := w.folder(); err != nil { // the region's, whose files are watched too
		return err
	}
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
			fmt.Fprintln(a.stdout)
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
	file string // the key; empty for that of the region's folder

	state string // of the watched files when they were last checked
	gone  int    // how often in a row the key was not there
	seen  bool

	catalog  *taxa.Catalog
	previous *couplets.File
	sound    *couplets.Sound
	trail    *couplets.Trail // where the preview is
}

// goneAfter is after how many looks in a row a key that is not there is gone, and
// not between two steps of saving.
const goneAfter = 3

// look checks again when any of the watched files has changed, is new or is gone.
func (w *watcher) look() error {
	if _, err := os.Stat(w.shown()); err != nil {
		return w.missing()
	}
	state := w.states()
	if w.seen && w.gone < goneAfter && state == w.state {
		w.gone = 0
		return nil
	}
	again := w.seen
	w.seen, w.state, w.gone = true, state, 0
	return w.check(again)
}

// shown is the key's file as people know it.
func (w *watcher) shown() string {
	if w.file != "" || w.home == nil {
		return w.file
	}
	return w.home.Join(folder.KeyFile)
}

// missing says once that the key is gone; at the beginning it ends the watch.
func (w *watcher) missing() error {
	if !w.seen {
		_, _, err := w.examine(w.file, w.catalog)
		return err
	}
	if w.gone++; w.gone == goneAfter {
		w.sound = nil
		fmt.Fprintln(w.stdout)
		return show.Say(w.stdout, w.width, "%s is gone. Watching for it to come back; q or Ctrl-C ends.", plain.Printable(w.shown()))
	}
	return nil
}

// mostWatched is how many files of a folder are watched.
const mostWatched = 5000

// filesBeneath are all files of a folder, drawings and photographs too, without those
// that are hidden; or the one file that it is.
func filesBeneath(dir string) (names []string) {
	_ = filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error { // what cannot be read is not watched
		switch {
		case err != nil || len(names) == mostWatched:
			return fs.SkipDir
		case name != dir && strings.HasPrefix(d.Name(), "."):
			if d.IsDir() {
				return fs.SkipDir
			}
		case !d.IsDir():
			names = append(names, name)
		}
		return nil
	})
	return names
}

// states is what each of the watched files is like: the key, and all files of the
// animals and of the region that it is checked with.
func (w *watcher) states() string {
	names := []string{w.shown(), w.regionName}
	if w.taxaDir != "" {
		names = append(names, filesBeneath(w.taxaDir)...)
	}
	if w.home != nil {
		names = append(names, filesBeneath(w.home.Shown)...)
	}
	var b strings.Builder
	for _, name := range names {
		if info, err := os.Stat(name); err == nil && !info.IsDir() {
			fmt.Fprintln(&b, name, info.Size(), info.ModTime().UnixNano())
		}
	}
	return b.String()
}

func (w *watcher) check(again bool) error {
	fmt.Fprintf(w.stdout, "\n-- %s, %s\n", plain.Printable(w.shown()), w.now().Format("15:04:05"))
	report := show.NewChecked()
	subject, err := w.examineAll(report)
	var found authored.Findings
	switch {
	case errors.As(err, &found): // of the animals or the region
		report.Add(w.shown(), 0, 0, found, nil)
		subject = &rules.Input{}
	case err != nil && again: // a file that is gone may come back
		fmt.Fprintln(w.stdout, plain.Printable(wording.Reason(err).Error()))
		return w.preview(&rules.Input{})
	case err != nil:
		return err
	}
	if err := report.Text(w.stdout); err != nil {
		return err
	}
	return w.preview(subject)
}

// examineAll reads all files anew and checks the key.
func (w *watcher) examineAll(report *show.CheckJSON) (*rules.Input, error) {
	before := w.home
	w.home = nil
	var err error
	if w.catalog, err = w.app.wholeCatalog(); err != nil {
		w.home = before // its files go on being watched
		return nil, err
	}
	region, err := w.regionMeant(w.catalog)
	if err != nil {
		return nil, err
	}
	if w.file != "" || w.home == nil {
		return checkFile(w.app, report, w.file, w.catalog, region)
	}
	*report = *checkRegion(w.home)
	f, s, err := w.examine("", w.catalog)
	return &rules.Input{File: f, Sound: s}, unlessRead(f, notFindings(err))
}

// notFindings is an error that is more than findings, which are told already.
func notFindings(err error) error {
	var found authored.Findings
	if errors.As(err, &found) {
		return nil
	}
	return err
}

// preview shows the couplet that was edited last, or the first one.
func (w *watcher) preview(subject *rules.Input) error {
	if subject.Sound == nil {
		w.sound = nil
		fmt.Fprintln(w.stdout, "\n"+wording.Text("The preview comes back once the errors are mended. Watching; q or Ctrl-C ends."))
		return nil
	}
	edited := versions.LastEdited(w.previous, subject.File)
	w.previous, w.sound, w.trail = subject.File, subject.Sound, subject.Sound.Follow(edited)
	return w.branch()
}

// previewDepth is how many questions of a branch are shown at once.
const previewDepth = 2

func (w *watcher) branch() error {
	fmt.Fprintln(w.stdout)
	if err := show.Tree(w.stdout, w.width, w.sound, w.catalog, w.trail.Here(), previewDepth); err != nil {
		return err
	}
	return show.Say(w.stdout, w.width, "Walk on with a lead's letter and Enter; < goes back; a couplet's number goes there. "+
		"Watching; q or Ctrl-C ends.")
}

// step walks in the preview.
func (w *watcher) step(typed string) error {
	if w.sound == nil || typed == "" {
		return nil
	}
	ends, known := w.trail.Step(typed)
	switch {
	case !known:
		return show.Say(w.stdout, w.width, "%s is no lead here and no couplet.", plain.Quote(typed))
	case ends != nil:
		return show.Say(w.stdout, w.width, "The walk ends at %s.", show.Either(w.catalog, ends))
	}
	return w.branch()
}
