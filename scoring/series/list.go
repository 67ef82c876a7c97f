package series

import (
	"cmp"
	"io/fs"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"rillkey/scoring"
	"rillkey/scoring/visit"
)

// Suffix ends the name of every visit's file.
const Suffix = visit.Suffix

// Progress is how far a visit has come.
type Progress string

// The states.
const (
	Open       Progress = "open"
	Finished   Progress = "finished"
	Unreadable Progress = "unreadable"
)

// VisitFile is what a list says of one visit's file.
type VisitFile struct {
	File     string // path from the folder listed, with slashes
	State    Progress
	Problem  string // why it cannot be read
	Remarks  int    // what reading found wrong
	ID       string
	Site     string
	Date     string // YYYY-MM-DD
	People   []string
	Protocol string
	Region   string // id; empty where the file does not say
	Spot     *visit.Spot
	Obscured bool // the place is not given to others exactly
	Samples  int
	Animals  int
	Taxa     []string // ids, sorted, without those set aside
	Index    string   // title of the protocol's main index; empty where the protocol is not known
	Value    *float64 // nil where there is none
	Rating   string   // empty where it is withheld
	Between  []string // then the worst and the best rating that it may have, where that is why
	Reason   string   // why it is withheld
	SameAs   string   // another file that holds this visit, before this one by its name

	ids []string // under which the visit is known
}

// List reads the visits below dir and gives them by date, then site, then file.
// It is made from the files each time: a memory of what was read would save under
// half a second of work with a thousand visits, and would keep names and places
// in a second spot.
// Files that cannot be read are entries too. The error says that the folder
// cannot be read.
func List(dir string, rules *scoring.Rules) ([]VisitFile, error) {
	files, err := Files(dir)
	if err != nil {
		return nil, err
	}
	entries := make([]VisitFile, len(files))
	inParallel(len(files), func(i int) { entries[i] = readEntry(dir, files[i], rules) })
	first := map[string]string{} // the file of a visit's id
	for i := range entries {
		for _, id := range entries[i].ids {
			if other, there := first[id]; there {
				entries[i].SameAs = other
			}
		}
		for _, id := range entries[i].ids {
			first[id] = files[i]
		}
	}
	slices.SortFunc(entries, func(a, b VisitFile) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.Site, b.Site), cmp.Compare(a.File, b.File))
	})
	return entries, nil
}

// Files are the files of visits below dir, as paths from there with slashes, in
// the order of their names.
func Files(dir string) (files []string, err error) {
	err = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil && path == dir:
			return err
		case err != nil: // a folder that cannot be read is told of like a file
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
		return nil
	})
	return files, err
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

func readEntry(dir, file string, rules *scoring.Rules) VisitFile {
	v, err := visit.Read(filepath.Join(dir, filepath.FromSlash(file)))
	if err != nil {
		return VisitFile{File: file, State: Unreadable, Problem: err.Error()}
	}
	a := rules.Account(v)
	h, t := v.Header, a.Tally
	e := VisitFile{
		File: file, State: Open, Remarks: len(v.Notices) + len(t.Notices), ID: h.ID, Site: h.Site, Date: h.Date,
		Protocol: h.Protocol, Region: h.Region, Spot: h.Spot, Obscured: t.Obscured, Samples: len(t.Samples),
	}
	if t.Finished {
		e.State = Finished
	}
	e.ids = append(e.ids, h.ID)
	e.ids = append(e.ids, h.Joined...)
	e.People = people(v, t)
	for _, r := range t.Records {
		e.Animals += r.Count
		if r.Taxon != "" && !r.Undecided {
			e.Taxa = append(e.Taxa, r.Taxon)
		}
	}
	slices.Sort(e.Taxa)
	e.Taxa = slices.Compact(e.Taxa)
	if b, err := rules.Summary(a, 0); err == nil { // the seed that grades have everywhere
		e.Index, e.Value, e.Rating, e.Between, e.Reason = b.Title, b.Value, b.Rating, b.Between, b.Reason
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
