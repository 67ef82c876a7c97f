package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// visitFiles are the files meant, each once: those named, and those below the
// folders named, as a list of the folder has them.
func visitFiles(paths []string) ([]string, error) {
	var out []string
	seen := map[string]bool{}
	add := func(file string) {
		if file = filepath.Clean(file); !seen[file] {
			seen[file] = true
			out = append(out, file)
		}
	}
	for _, path := range paths {
		info, err := os.Stat(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil, wording.Errorf("%s: there is no such file or folder", plain.Printable(path))
		case err != nil || !info.IsDir():
			add(path)
			continue
		}
		names, err := series.FindFiles(path)
		if err != nil {
			return nil, err
		}
		if len(names) == 0 {
			return nil, wording.Errorf("%s: this folder holds no visit; their names end in %s", plain.Printable(path), visit.Suffix)
		}
		for _, name := range names {
			add(filepath.Join(path, filepath.FromSlash(name)))
		}
	}
	return out, nil
}

// visitFolder finds visits in the present folder, or by --visit, and adds to them.
type visitFolder struct {
	*console
	*disk
	visitFile string                          // of --visit
	found     string                          // the visit's file, where no --visit names it
	passed    []string                        // files that were passed over
	sources   []string                        // files that were read
	damage    error                           // what the command ends with because of the visit's file
	record    recordFlags                     // of the animal before, in one sitting
	habitats  func(*visit.Visit) []ask.Option // that its protocol goes by
	looked    map[string]looked               // at which visits, to find the one meant
}

// looked is a visit with the file that it was read from, as that was then.
type looked struct {
	visit *visit.Visit
	file  os.FileInfo
}

// lookAt reads a visit's file, and reads it anew only if it is another one since, or
// grew: to find the visit meant, and to read it, is one reading and one replay.
func (vf *visitFolder) lookAt(path string) (*visit.Visit, error) {
	file, err := os.Stat(path)
	if err != nil {
		return visit.Read(path) // which says what is wrong
	}
	if was, ok := vf.looked[path]; ok && os.SameFile(was.file, file) && was.file.Size() == file.Size() &&
		was.file.ModTime().Equal(file.ModTime()) {
		return was.visit, nil
	}
	v, err := visit.Read(path)
	if err == nil {
		if vf.looked == nil {
			vf.looked = map[string]looked{}
		}
		vf.looked[path] = looked{v, file}
	}
	return v, err
}

// take is lookAt for a visit that its reader may change.
func (vf *visitFolder) take(path string) (*visit.Visit, error) {
	v, err := vf.lookAt(path)
	delete(vf.looked, path)
	return v, err
}

// visitPath is the file of the visit meant: that of --visit, else the one
// unfinished visit in the present folder, else, where finished ones will do, the
// only visit there.
func (vf *visitFolder) visitPath(finishedToo bool) (string, error) {
	if vf.visitFile != "" {
		return vf.visitFile, nil
	}
	open, all, err := vf.visitsHere()
	switch {
	case err != nil:
		return "", err
	case len(open) == 1:
		vf.found = open[0]
		return open[0], nil
	case len(open) == 0 && finishedToo && len(all) == 1:
		vf.found = all[0]
		return all[0], nil
	case len(all) == 0:
		return "", misused("there is no visit in this folder; start one with 'rillkey visit begin', or name its file with --visit")
	case len(open) == 0:
		return "", misused("every visit in this folder is finished; name the one you mean with --visit %s, start one with "+
			"'rillkey visit begin', or open the latest again: rillkey visit reopen --visit %s", someFiles(all),
			plain.ShellWord(all[len(all)-1]))
	}
	words := make([]string, len(open))
	for i, file := range open {
		words[i] = plain.ShellWord(file)
	}
	return "", misused("there are %d unfinished visits in this folder; say which with --visit: %s", len(open), strings.Join(words, ", "))
}

// someFiles are the names of files to choose from, the last few where they are many:
// files begin with their day.
func someFiles(all []string) string {
	const most = 4
	shown := make([]string, 0, most)
	for _, f := range all[max(0, len(all)-most):] {
		shown = append(shown, plain.ShellWord(f))
	}
	if len(all) > most {
		shown = append(shown, wording.Sprintf("one of %s older ones", strconv.Itoa(len(all)-most)))
	}
	return strings.Join(shown, wording.Text(" or "))
}

// namesHere are the files of visits in the present folder, not in those below it.
func namesHere() []string { return series.FilesIn(".") }

// visitsHere are the files of the visits in the present folder: the unfinished
// ones, and all that can be read. The others are passed over with a word; it is an
// error if there are only such.
func (vf *visitFolder) visitsHere() (open, all []string, err error) {
	names := namesHere()
	for _, name := range names {
		v, err := vf.lookAt(name)
		if err != nil {
			vf.passOver(name, err)
			continue
		}
		all = append(all, name)
		if !v.Finished() {
			open = append(open, name)
		}
	}
	if len(all) == 0 && len(names) > 0 {
		err = misused("there is no visit in this folder that can be read; a sound file may be made of a damaged one by: rillkey visit "+
			"salvage %s", plain.ShellFiles(names[0]))
	}
	return open, all, err
}

// passOver says once why a file is passed over.
func (vf *visitFolder) passOver(name string, why error) {
	if !slices.Contains(vf.passed, name) {
		vf.passed = append(vf.passed, name)
		vf.complain(wording.Sprintf("rillkey: passed over: %s", wording.Reason(why).Error()))
	}
}

// readVisit reads the visit meant, finished or not, and says on standard error what
// is wrong with its file.
func (vf *visitFolder) readVisit() (*visit.Visit, error) {
	v, err := vf.readQuietly()
	if err == nil {
		vf.tellDamage(v, v.File)
	}
	return v, err
}

// readQuietly reads the visit meant, finished or not.
func (vf *visitFolder) readQuietly() (*visit.Visit, error) {
	path, err := vf.visitPath(true)
	if err != nil {
		return nil, err
	}
	v, err := vf.take(path)
	if err != nil {
		return nil, err
	}
	vf.sources = append(vf.sources, path)
	return v, nil
}

// tellDamage says on standard error what is wrong with a visit's file.
func (vf *visitFolder) tellDamage(v *visit.Visit, path string) {
	for _, n := range append(v.Notices, v.Tally().Notices...) {
		vf.complain("rillkey: " + n.String())
		vf.damage = fault{status: statusBadData}
	}
	vf.offerSalvage(v, path)
}

// warnOfDamage says what a file holds that is not counted, to whoever adds to it. A torn
// end is told where it is put right, as something is added.
func (vf *visitFolder) warnOfDamage(v *visit.Visit, path string) {
	for _, n := range v.Notices {
		if n.Trouble == visit.Damaged {
			vf.complain("rillkey: " + n.String())
		}
	}
	vf.offerSalvage(v, path)
}

func (vf *visitFolder) offerSalvage(v *visit.Visit, path string) {
	if slices.ContainsFunc(v.Notices, func(n visit.Notice) bool { return n.Trouble == visit.Damaged }) {
		vf.complain("rillkey: " + wording.Sprintf("what is damaged in it may be brought back by: rillkey visit salvage %s",
			plain.ShellFiles(path)))
	}
}

// savedJSON tells a script which entry of a visit's file was saved.
func (c *console) savedJSON(v *visit.Visit, saved visit.Saved) error {
	return show.JSON(c.stdout, show.SavedJSON{Visit: v.Header.ID, File: v.File, Event: saved.Event.ID})
}

// save appends an event and says that it is saved, which it then is.
func (vf *visitFolder) save(path, who string, body visit.Body) (visit.Saved, error) {
	saved, err := visit.Append(path, vf.now(), who, body, vf.random)
	vf.notices(saved)
	if err == nil {
		vf.kept(wording.Sprintf("entry %s in %s", saved.Event.ID, path))
	}
	return saved, err
}

// notices says how a file was repaired on the way.
func (vf *visitFolder) notices(saved visit.Saved) {
	for _, n := range saved.Notices {
		vf.complain("rillkey: " + n.String())
	}
}

// inFolder makes sure that a path can be shown and opened as given.
func inFolder(path string) error {
	if path == "" || strings.ContainsRune(path, 0) {
		return misused("a file needs a name")
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return misused("%s is a folder; name a file in it", path)
	}
	return nil
}
