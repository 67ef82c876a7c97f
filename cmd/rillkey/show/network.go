//go:build !js

package show

import (
	"io"

	"rillkey/scoring/network"
	"rillkey/taxa/plain"
)

// Sent says what came of sending visits to a network; early where it ended before its time.
func Sent(w io.Writer, width int, r network.Report, early bool) error {
	begin := "Sent"
	if early {
		begin = "Sent before it ended"
	}
	known := r.Events - r.New
	words := begin + ": " + plain.Count(r.Visits, "visit") + ", " + plain.Counted(r.New, "new entry", "new entries")
	if known > 0 {
		words += "; " + plain.Counted(known, "entry was", "entries were") + " there before or kept apart"
	}
	if err := Say(w, width, "%s.", words); err != nil || len(r.Refused) == 0 {
		return err
	}
	return Say(w, width, "%s kept apart in the network with the reason; the files are as they were.",
		plain.Counted(len(r.Refused), "entry is", "entries are"))
}

// Fetched is what came of fetching visits from a network.
type Fetched struct {
	To       string   `json:"to"`
	New      int      `json:"new"`      // files written
	Added    int      `json:"added_to"` // files that got entries they lacked
	Same     int      `json:"same"`     // files that lacked none
	Problems []string `json:"problems"`
}

// Text writes it for people.
func (f Fetched) Text(w io.Writer, width int) error {
	return Say(w, width, "Fetched into %s: %s new, %d added to, %d as they were.", f.To, plain.Count(f.New, "visit"), f.Added, f.Same)
}

// GradeChanges says what other rules would change.
func GradeChanges(w io.Writer, width int, c network.Changes) error {
	p := newPage(w, width)
	moved := 0
	for _, r := range c.Ratings {
		moved += r.Visits
	}
	p.text(0, 2, "%s would be graded: %d for the first time, %d with the same value and word, %d with another value, %d with another word.",
		plain.Capital(plain.Count(c.Graded, "visit")), c.First, c.Same, c.Values, moved)
	for _, r := range c.Ratings {
		p.text(2, 4, "%s, by %s: from %s to %s", plain.Count(r.Visits, "visit"), r.Protocol, wordOrNone(r.From), wordOrNone(r.To))
	}
	p.text(0, 2, "Nothing was kept.")
	return p.err
}

func wordOrNone(rating string) string {
	if rating == "" {
		return "no word"
	}
	return rating
}
