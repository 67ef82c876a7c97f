package main

import (
	"context"
	"path/filepath"
	"slices"

	"rillkey/scoring"
	"rillkey/scoring/network"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// visitSource is where several visits come from. Commands do not know whether that is
// files and folders or the database of a network.
type visitSource struct {
	series.Source          // the visits one by one, as they were noted
	Files         []string // empty for a database
	db            *network.DB
	named         []string // files and folders, as they were typed
	unread        bool     // some file of a folder could not be read, which was told
}

// passes reports whether a file is passed over that cannot be read, or that holds what
// another one does: it was found in a folder, and nobody named it.
func (s *visitSource) passes(file string) bool {
	return s.db == nil && !slices.ContainsFunc(s.named, func(n string) bool { return filepath.Clean(n) == file })
}

// told is what a command ends with that has told which files could not be read.
func (s *visitSource) told(err error) error {
	if err == nil && s.unread {
		return fault{status: statusBadData}
	}
	return err
}

// visitsAt are the visits in files and folders, or in one database. Files are read by
// open, or as usual where that is nil.
func (a *app) visitsAt(paths []string, open func(string) (*visit.Visit, error)) (*visitSource, error) {
	address, err := oneDatabase(paths)
	if err != nil {
		return nil, misused("%w", err)
	}
	if address == "" {
		files, err := visitFiles(paths)
		return &visitSource{Source: series.FileSource{Files: files, Open: open}, Files: files, named: paths}, err
	}
	db, err := a.database(context.Background(), address)
	if err != nil {
		return nil, err
	}
	return &visitSource{Source: &keptVisits{db: db}, db: db}, nil
}

// Close ends the connection, if there is one.
func (s *visitSource) Close() {
	if s.db != nil {
		s.db.Close()
	}
}

// Obscured are the sites that are not given to others exactly.
func (s *visitSource) Obscured() (series.ObscuredSites, error) {
	if s.db == nil {
		return series.ObscuredBeside(s.Files), nil
	}
	return s.db.Obscured(context.Background())
}

// listed are the visits that a query wants, and how many there are.
func (s *visitSource) listed(a *app, catalog *taxa.Catalog, rules *scoring.Rules, q series.Query) ([]series.VisitFile, int, error) {
	if s.db == nil {
		entries, err := series.ListOf(s, rules)
		return series.Filter(entries, q), len(entries), err
	}
	book, err := a.book(catalog, rules)
	if err != nil {
		return nil, 0, err
	}
	all, of, err := s.db.Listed(context.Background(), book, q)
	if err != nil {
		return nil, of, err
	}
	n := len(all)
	if q.Site != "" || q.FirstDay != "" || q.LastDay != "" {
		if all, err = s.db.WithReferences(context.Background(), book, all); err != nil {
			return nil, of, err
		}
	}
	entries := make([]series.VisitFile, len(all))
	for i, g := range all {
		entries[i] = g.VisitFile
	}
	series.SetBeside(entries, func(i int) *scoring.Summary {
		if all[i].State == series.Unreadable || all[i].Failed != "" {
			return nil
		}
		return &all[i].Summary
	}, rules)
	return series.Filter(entries[:n], q), of, nil
}

// table is the table of the grades of all visits. In a database most of them are kept.
func (s *visitSource) table(a *app, catalog *taxa.Catalog, rules *scoring.Rules, o series.Options) (*series.VisitTable, error) {
	if s.db == nil {
		t := series.GradeVisits(rules, s, o)
		return t, t.Failed
	}
	book, err := a.book(catalog, rules)
	if err != nil {
		return nil, err
	}
	all, _, err := s.db.Listed(context.Background(), book, series.Query{})
	if err != nil {
		return nil, err
	}
	rows, problems := network.SeriesRows(all)
	return series.GradeRows(rules, rows, problems, o), nil
}

// keptVisits are the visits of a database; which there are is asked when the first is
// wanted.
type keptVisits struct {
	db     *network.DB
	source series.Source
	failed error
}

func (k *keptVisits) find() series.Source {
	if k.source == nil {
		keys, err := k.db.Keys(context.Background())
		k.source, k.failed = k.db.Source(context.Background(), keys), err
	}
	return k.source
}

// Len implements [series.Source].
func (k *keptVisits) Len() int { return k.find().Len() }

// Each implements [series.Source].
func (k *keptVisits) Each(yield func(series.Item) bool) error {
	from := k.find()
	if k.failed != nil {
		return k.failed
	}
	return from.Each(yield)
}
