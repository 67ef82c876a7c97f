package series

import (
	"cmp"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// Stage is how far a visit has come.
type Stage string

// The states.
const (
	Unfinished Stage = "open"
	Finished   Stage = "finished"
	Unreadable Stage = "unreadable"
)

// VisitFile is what a list says of one visit's file.
type VisitFile struct {
	File     string // path from the folder listed, with slashes
	State    Stage
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
	// RatingProvisional tells that the rating rests on fewer animals than a firm one does.
	RatingProvisional bool
	RatingRange       []string // then the worst and the best rating that it may have, where that is why
	Reason            string   // why it is withheld
	// Reference is the site that the visit is to be compared with, empty for none, and
	// ReferenceDay the day of the visit there that it stands beside, empty where none does.
	Reference, ReferenceDay string
	SameAs                  string // another file that holds this visit, before this one by its name

	ids     []string         // under which the visit is known
	summary *scoring.Summary // nil where it has none
}

// ReadFolder reads the visits below dir and gives them by date, then site, then file.
// It is made from the files each time: a memory of what was read would save under
// half a second of work with a thousand visits, and would keep names and places
// in a second spot.
// Files that cannot be read are entries too. The error says that the folder
// cannot be read.
func ReadFolder(dir string, rules *scoring.Rules) ([]VisitFile, error) {
	files, err := FindFiles(dir)
	if err != nil {
		return nil, err
	}
	return ListOf(FileSource{Dir: dir, Files: files}, rules)
}

// ListOf lists the visits of a source as [ReadFolder] does those of a folder. The error says that
// the source ended early.
func ListOf(from Source, rules *scoring.Rules) ([]VisitFile, error) {
	entries := make([]VisitFile, from.Len())
	err := inParallel(runtime.GOMAXPROCS(0), from.Each, func(i int, item Item) {
		if i < len(entries) { // what came meanwhile is listed next time
			entries[i] = readEntry(item, rules)
		}
	})
	if err != nil {
		return nil, err
	}
	SetBeside(entries, func(i int) *scoring.Summary { return entries[i].summary }, rules)
	first := map[string]string{} // the file of a visit's id
	for i := range entries {
		for _, id := range entries[i].ids {
			if other, there := first[id]; there {
				entries[i].SameAs = other
			}
		}
		for _, id := range entries[i].ids {
			first[id] = entries[i].File
		}
	}
	slices.SortFunc(entries, func(a, b VisitFile) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.Site, b.Site), cmp.Compare(a.File, b.File))
	})
	return entries, nil
}

// FilesByVisit are the files of visits below dir by folder and id of their visit, joined as
// a path, and by the ids of those that were joined to it. A file that cannot be read goes
// to unread.
func FilesByVisit(dir string, unread func(path string, err error)) (map[string]string, error) {
	files, err := FindFiles(dir)
	if err != nil {
		return nil, err
	}
	found := make(map[string]string, len(files))
	for _, name := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		v, err := visit.Read(path)
		if err != nil {
			unread(path, err)
			continue
		}
		for _, id := range append([]string{v.Header.ID}, v.Header.Joined...) {
			found[filepath.Join(filepath.Dir(path), id)] = path
		}
	}
	return found, nil
}

// FindFiles are the files of visits below dir, as paths from there with slashes, in
// the order of their names.
func FindFiles(dir string) (files []string, err error) {
	err = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil && path == dir:
			return err
		case err != nil: // a folder that cannot be read is told of like a file
		case d.IsDir() && path != dir && strings.HasPrefix(d.Name(), "."):
			return fs.SkipDir
		case !isVisit(d):
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

// FilesIn are the files of visits in dir itself, as paths that begin with dir, in the
// order of their names; none where it cannot be read.
func FilesIn(dir string) (files []string) {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if isVisit(e) {
			files = append(files, filepath.Join(dir, e.Name()))
		}
	}
	return files
}

// isVisit reports whether a file goes by the name of a visit's.
func isVisit(d fs.DirEntry) bool { return !d.IsDir() && strings.HasSuffix(d.Name(), visit.Suffix) }

func readEntry(item Item, rules *scoring.Rules) VisitFile {
	v, err := item.Read()
	if err != nil {
		return VisitFile{File: item.Name, State: Unreadable, Problem: wording.Reason(err).Error()}
	}
	return entry(item.Name, rules.Account(v), rules)
}

// entry is what a list says of a visit that was read.
func entry(name string, a *account.Account, rules *scoring.Rules) VisitFile {
	summary, err := rules.Summary(a, 0) // the seed that grades have everywhere
	return EntryOf(name, a, summary, err)
}

// EntryOf is [entry] where the main index is worked out already; err says that it could not be.
func EntryOf(name string, a *account.Account, b scoring.Summary, err error) VisitFile {
	v := a.Visit
	h, t := v.Header, a.Tally
	e := VisitFile{
		File: name, State: Unfinished, Remarks: len(v.Notices) + len(t.Notices), ID: h.ID, Site: h.Site, Date: h.Date,
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
	if err == nil {
		e.summary = &b
		e.Index, e.Value, e.Rating, e.RatingRange, e.Reason = b.Title, b.Value, b.Rating, b.RatingRange, b.Reason
		e.RatingProvisional = b.RatingProvisional
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
