// Package archive lists the visits in a folder: a group's archive.
//
// A list is made from the files. What was read of a file is remembered with
// the file's size, times and number on the disk, and used again only while all
// of these are as they were; so a memory that is lost, foreign or too old costs
// time and never changes the list.
package archive

import (
	"cmp"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/visit"
)

// Suffix ends the name of every visit's file.
const Suffix = ".visit.toml"

// State is how far a visit has come.
type State string

// The states.
const (
	Open       State = "open"
	Finished   State = "finished"
	Unreadable State = "unreadable"
)

// Entry is what a list says of one visit's file.
type Entry struct {
	File     string // path from the folder listed, with slashes
	State    State
	Problem  string // why it cannot be read
	Remarks  int    // what reading found wrong
	ID       string
	Site     string
	Date     string // YYYY-MM-DD
	People   []string
	Protocol string
	Spot     *visit.Spot
	Obscured bool // the place is not given to others exactly
	Samples  int
	Animals  int
	Taxa     []string // ids, sorted, without those set aside
	Index    string   // title of the protocol's main index; empty where the protocol is not known
	Value    *float64 // nil where it is withheld
	Rating   string
	Reason   string // why it is withheld
}

// mark tells a file that was changed from one that was not.
type mark struct {
	Size, Modified, Changed int64 // bytes, nanoseconds
	Inode                   uint64
}

// settling is how old a change must be before a file is remembered: a second
// change within one tick of the file system's clock would not show, and the
// coarsest clock, that of memory cards, ticks every two seconds.
const settling = 2 * time.Second

// Memory is what was read of the files of a folder before.
type Memory struct {
	Read map[string]Remembered // by File
}

// Remembered is an entry with what its file looked like.
type Remembered struct {
	Mark  mark
	Entry Entry
}

// List reads the visits below dir and gives them by date, then site, then file,
// together with the memory for the next time. Files that cannot be read are
// entries too. The error says that the folder cannot be read.
func List(dir string, rules *scoring.Rules, before Memory, now time.Time) ([]Entry, Memory, error) {
	files, marks, err := find(dir)
	if err != nil {
		return nil, Memory{}, err
	}
	entries := make([]Entry, len(files))
	fresh := make([]bool, len(files))
	inParallel(len(files), func(i int) {
		if r, ok := before.Read[files[i]]; ok && r.Mark == marks[i] {
			entries[i], fresh[i] = r.Entry, true
			return
		}
		entries[i] = read(dir, files[i], rules)
		latest := time.Unix(0, max(marks[i].Modified, marks[i].Changed))
		fresh[i] = entries[i].State != Unreadable && now.Sub(latest) > settling && markOf(filepath.Join(dir, filepath.FromSlash(files[i]))) == marks[i]
	})
	after := Memory{Read: make(map[string]Remembered, len(files))}
	for i, f := range files {
		if fresh[i] {
			after.Read[f] = Remembered{marks[i], entries[i]}
		}
	}
	slices.SortFunc(entries, func(a, b Entry) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.Site, b.Site), cmp.Compare(a.File, b.File))
	})
	return entries, after, nil
}

// Files are the files of visits below dir, as paths from there with slashes, in
// the order of their names.
func Files(dir string) ([]string, error) {
	files, _, err := find(dir)
	return files, err
}

func find(dir string) (files []string, marks []mark, err error) {
	err = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && path != dir && strings.HasPrefix(d.Name(), "."):
			return fs.SkipDir
		case d.IsDir() || !strings.HasSuffix(d.Name(), Suffix):
			return nil
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		files = append(files, filepath.ToSlash(rel))
		marks = append(marks, markOf(path))
		return nil
	})
	return files, marks, err
}

// markOf is the zero mark, which matches none remembered, for a file that is
// gone.
func markOf(path string) mark {
	info, err := os.Stat(path)
	if err != nil {
		return mark{}
	}
	m := mark{Size: info.Size(), Modified: info.ModTime().UnixNano()}
	m.fill(info)
	return m
}

func inParallel(n int, do func(i int)) {
	var running sync.WaitGroup
	next := make(chan int)
	for range min(n, runtime.GOMAXPROCS(0)) {
		running.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	running.Wait()
}

func read(dir, file string, rules *scoring.Rules) Entry {
	v, err := visit.Read(filepath.Join(dir, filepath.FromSlash(file)))
	if err != nil {
		return Entry{File: file, State: Unreadable, Problem: err.Error()}
	}
	h, t := v.Header, v.Tally()
	e := Entry{
		File: file, State: Open, Remarks: len(v.Notices) + len(t.Notices), ID: h.ID, Site: h.Site, Date: h.Date,
		Protocol: h.Protocol, Spot: h.Spot, Obscured: t.Obscured, Samples: len(t.Samples),
	}
	if t.Finished {
		e.State = Finished
	}
	e.People = people(v, t)
	for _, r := range t.Records {
		e.Animals += r.Count
		if r.Taxon != "" && !r.Undecided {
			e.Taxa = append(e.Taxa, r.Taxon)
		}
	}
	slices.Sort(e.Taxa)
	e.Taxa = slices.Compact(e.Taxa)
	if g, err := rules.GradeAs(v, scoring.Wish{Plain: true}); err == nil {
		i := g.Indices[0]
		e.Index, e.Value, e.Rating, e.Reason = i.Title, i.Value, i.Rating, i.Reason
	}
	return e
}

// people are all who took part or entered something, each once.
func people(v *visit.Visit, t visit.Tally) []string {
	names := slices.Clone(v.Header.People)
	for _, s := range t.Samples {
		names = append(names, s.Who)
	}
	for _, r := range t.Records {
		names = append(names, r.Who)
		for _, l := range r.Looks {
			names = append(names, l.Who)
		}
	}
	var out []string
	for _, n := range names {
		if n = v.Person(n); n != "" && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}
