package main

import (
	"context"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// visitSource is where several visits come from. Commands do not know whether that is
// files and folders or the database of a network.
type visitSource struct {
	series.Source
	Files    []string                             // empty for a database
	Obscured func() (series.ObscuredSites, error) // sites that are not given to others exactly
	close    func()
}

// Close ends the connection, if there is one.
func (s *visitSource) Close() {
	if s.close != nil {
		s.close()
	}
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
		if err != nil {
			return nil, err
		}
		return &visitSource{Source: series.FileSource{Files: files, Open: open}, Files: files,
			Obscured: func() (series.ObscuredSites, error) { return obscuredSites(files), nil }}, nil
	}
	ctx := context.Background()
	db, err := a.database(ctx, address)
	if err != nil {
		return nil, err
	}
	keys, err := db.Keys(ctx)
	if err != nil {
		db.Close()
		return nil, err
	}
	return &visitSource{Source: db.Source(ctx, keys), close: db.Close,
		Obscured: func() (series.ObscuredSites, error) { return db.Obscured(ctx) }}, nil
}
