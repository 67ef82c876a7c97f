package series

import (
	"path/filepath"

	"rillkey/scoring/visit"
)

// Source is where visits are read from, one by one: files, or a database of a network.
// Whoever reads visits does not know which.
type Source interface {
	// Len is how many visits there are.
	Len() int
	// Each gives every visit, until yield is false. The error says that the source
	// ended early.
	Each(yield func(Item) bool) error
}

// Item is one visit of a source.
type Item struct {
	Name string                       // of the file, or of the visit in a database
	Read func() (*visit.Visit, error) // may be called by another goroutine, once
}

// Items are visits at hand.
type Items []Item

// Len implements [Source].
func (s Items) Len() int { return len(s) }

// Each implements [Source]; it never fails.
func (s Items) Each(yield func(Item) bool) error {
	for _, i := range s {
		if !yield(i) {
			break
		}
	}
	return nil
}

// FileSource are the visits in files.
type FileSource struct {
	Dir   string // that the files are named from; empty for the present folder
	Files []string
	Open  func(file string) (*visit.Visit, error) // nil for [visit.Read]
}

// Len implements [Source].
func (s FileSource) Len() int { return len(s.Files) }

// Each implements [Source]; it never fails.
func (s FileSource) Each(yield func(Item) bool) error {
	open := s.Open
	if open == nil {
		open = visit.Read
	}
	for _, file := range s.Files {
		path := filepath.Join(s.Dir, filepath.FromSlash(file))
		if !yield(Item{file, func() (*visit.Visit, error) { return open(path) }}) {
			return nil
		}
	}
	return nil
}
