package show

import (
	"fmt"
	"io"

	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
)

// SalvagedJSON says what was brought back of a damaged visit's file.
type SalvagedJSON struct {
	File    string   `json:"file"` // the new one
	Events  int      `json:"events"`
	Whole   int      `json:"whole"`  // events that were whole
	Header  string   `json:"header"` // where it comes from, if the file's own was lost
	Back    []string `json:"back"`   // events brought back, and how
	Lost    []string `json:"lost"`   // what could not be brought back
	PutAway string   `json:"put_away"`
}

// NewSalvaged describes what was brought back into the file to.
func NewSalvaged(s *visit.Salvaged, to string) *SalvagedJSON {
	out := &SalvagedJSON{File: to, Events: len(s.Visit.Events), Whole: s.Whole, Header: s.Header, Back: []string{}, Lost: []string{}}
	for _, n := range s.Back {
		out.Back = append(out.Back, n.String())
	}
	for _, n := range s.Lost {
		out.Lost = append(out.Lost, n.String())
	}
	return out
}

// Text says it in lines, what is lost last.
func (s *SalvagedJSON) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	entries := "1 entry"
	if s.Events != 1 {
		entries = fmt.Sprintf("%d entries", s.Events)
	}
	p.text(0, 2, "Saved: %s in %s; %d were whole.", entries, plain.Printable(s.File), s.Whole)
	if s.Header != "" {
		p.text(0, 2, "Header: %s.", s.Header)
	}
	for _, line := range s.Back {
		p.text(0, 2, "Brought back: %s.", line)
	}
	for _, line := range s.Lost {
		p.text(0, 2, "Lost: %s.", line)
	}
	if len(s.Lost) > 0 {
		p.text(0, 2, "The lines of what is lost are still in the damaged file; another copy of the visit may have it whole.")
	}
	if s.PutAway != "" {
		p.text(0, 2, "Put away: the damaged file is now %s.", plain.Printable(s.PutAway))
	}
	return p.err
}
