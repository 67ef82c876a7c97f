//go:build !js

package show

import (
	"cmp"
	"io"
	"math"
	"strings"
	"time"

	"rillkey/scoring/network"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Sent says what came of sending visits to a network; early where it ended before its time.
func Sent(w io.Writer, width int, r network.SendResult, early bool) error {
	begin := wording.Text("Sent")
	if early {
		begin = wording.Text("Sent before it ended")
	}
	known := r.Events - r.New
	words := begin + ": " + plain.Count(r.Visits, "visit") + ", " + plain.CountOf(r.New, "new entry", "new entries")
	if known > 0 {
		words += "; " + wording.Sprintf("%s there before or kept apart", plain.CountOf(known, "entry was", "entries were"))
	}
	if err := Say(w, width, "%s.", words); err != nil || len(r.Refused) == 0 {
		return err
	}
	return Say(w, width, "%s kept apart in the network with the reason; the files are as they were.",
		plain.CountOf(len(r.Refused), "entry is", "entries are"))
}

// Fetched is what came of fetching visits from a network.
type Fetched struct {
	Target   string   `json:"to"`
	New      int      `json:"new"`      // files written
	Added    int      `json:"added_to"` // files that got entries they lacked
	Same     int      `json:"same"`     // files that lacked none
	Problems []string `json:"problems"`
}

// Text writes it for people.
func (f Fetched) Text(w io.Writer, width int) error {
	return Say(w, width, "Fetched into %s: %s new, %d added to, %d as they were.", f.Target, plain.Count(f.New, "visit"), f.Added, f.Same)
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
		p.text(2, 4, "%s, by %s: from %s to %s", plain.Count(r.Visits, "visit"), r.Protocol, wordOrNone(r.Old), wordOrNone(r.New))
	}
	p.text(0, 2, "Nothing was kept.")
	return p.err
}

func wordOrNone(rating string) string {
	if rating == "" {
		return wording.Text("no word")
	}
	return rating
}

// NetworkNews says what came in.
func NetworkNews(w io.Writer, width int, since time.Time, all []network.Came) error {
	p := newPage(w, width)
	p.text(0, 2, "Since %s:", since.Format(time.DateOnly))
	for _, c := range all {
		p.text(2, 4, "%s: %s, %s, last on %s", c.Group, plain.Count(c.Visits, "visit"),
			plain.CountOf(c.Events, "entry", "entries"), c.Last.Format(time.DateTime))
	}
	if len(all) == 0 {
		p.text(2, 4, "Nothing came.")
	}
	return p.err
}

// NetworkWaiting says what waits.
func NetworkWaiting(w io.Writer, width int, all network.Waiting) error {
	p := newPage(w, width)
	p.text(0, 2, "%s with something open; the newest %d:", plain.Capital(plain.Count(all.Total, "visit")), len(all.Visits))
	for _, v := range all.Visits {
		p.text(2, 4, "%s %s [%s]: %s", v.Date, v.Site, v.Visit, strings.Join(OpenAbout(v), ", "))
	}
	end := ":"
	if len(all.Refused) == 0 {
		end = "."
	}
	p.text(0, 2, "%s kept apart%s", plain.Capital(plain.CountOf(all.Kept, "entry", "entries")), end)
	for _, r := range all.Refused {
		p.text(2, 4, "%s, %s:%d: %s", r.Group, r.File, r.Line, r.Reason)
	}
	for _, x := range all.Alarms {
		p.text(0, 2, "%s: %s", x.Site, x.Words)
	}
	return p.err
}

// OpenAbout says what is open about a visit.
func OpenAbout(v network.WaitingVisit) (out []string) {
	if v.Open {
		out = append(out, wording.Text("not finished"))
	}
	if v.Future {
		out = append(out, wording.Text("its day has not come"))
	}
	for _, x := range []struct {
		n     int
		words string
	}{
		{v.Undecided, plain.CountOf(v.Undecided, "animal undecided", "animals undecided")},
		{v.Contrary, plain.CountOf(v.Contrary, "second look says another name", "second looks say another name")},
		{v.Misfits, plain.CountOf(v.Misfits, "entry does not fit", "entries do not fit")},
	} {
		if x.n > 0 {
			out = append(out, x.words)
		}
	}
	if len(v.Invaders) > 0 {
		out = append(out, wording.Sprintf("does not belong there: %s", strings.Join(v.Invaders, ", ")))
	}
	return out
}

// NetworkAgreement says how groups agree.
func NetworkAgreement(w io.Writer, width int, all []network.GroupAgreement) error {
	p := newPage(w, width)
	for _, a := range all {
		p.text(0, 2, "%s and %s: %s of visits; the word was the same in %d of %d; values %s apart as a rule, the first group's "+
			"%s higher on average",
			a.Groups[0], a.Groups[1], plain.Count(a.Pairs, "pair"), a.Same, a.Graded,
			plain.FormatFloat(math.Round(a.Typical*100)/100), plain.FormatFloat(math.Round(a.Mean*100)/100))
	}
	if len(all) == 0 {
		p.text(0, 2, "No two groups visited one site within a fortnight, by one protocol.")
	}
	return p.err
}

// NetworkDraw lists what chance drew.
func NetworkDraw(w io.Writer, width int, seed string, all []network.Drawn) error {
	p := newPage(w, width)
	p.text(0, 2, "Drawn with the seed %s; go down the list and leave none out:", plain.Quote(seed))
	group := ""
	for _, d := range all {
		if d.Group != group {
			group = d.Group
			p.line(plain.Printable(group))
		}
		p.text(2, 4, "%s %s [%s]: sample %s, cell %s, record %s", d.Date, d.Site, d.Visit, d.Sample,
			cmp.Or(d.Cell, wording.Text("not noted")), d.Record)
	}
	return p.err
}
