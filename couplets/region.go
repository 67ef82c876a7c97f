package couplets

import (
	"io/fs"

	"rillkey/taxa"
	"rillkey/taxa/authored"
)

// Region is the taxa that people of a region will meet.
type Region struct {
	Title  string
	Source string
	Taxa   []Resident
}

// Resident is a taxon of a region, and where it was named. One of higher rank
// means all that belongs to it.
type Resident struct {
	Taxon string
	At    authored.Pos
}

// ReadRegion reads a region's file. What is wrong with it is in the error, of
// type [authored.Findings] where the file could be read.
func ReadRegion(fsys fs.FS, name, shown string, catalog *taxa.Catalog) (*Region, error) {
	var report authored.Report
	top, err := authored.ReadTable(fsys, name, shown, &report)
	if err != nil {
		return nil, err
	}
	if top == nil {
		return nil, report.Findings()
	}
	top.Need("region")
	r := &Region{}
	if t := top.Sub("region"); t != nil {
		r.Title, r.Source = t.NeedStr("title"), t.NeedStr("source")
		t.Need("taxa")
		for i, id := range t.Strs("taxa") {
			if problem, hint := catalog.Unknown(id); problem != "" {
				report.Add(t.Elem("taxa", i), "unknown-taxon", problem, hint)
			}
			r.Taxa = append(r.Taxa, Resident{id, t.Elem("taxa", i)})
		}
		if t.Has("taxa") && len(r.Taxa) == 0 {
			t.Fail("taxa", "empty", "the region holds no taxon", "name the taxa that people will meet there")
		}
		t.Done()
	}
	top.Done()
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return r, nil
}

// Holds reports whether an end point is met in the region: it belongs to one of
// the region's taxa, or holds one.
func (r *Region) Holds(end string, catalog *taxa.Catalog) bool {
	for _, t := range r.Taxa {
		if catalog.IsUnder(end, t.Taxon) || catalog.IsUnder(t.Taxon, end) {
			return true
		}
	}
	return false
}
