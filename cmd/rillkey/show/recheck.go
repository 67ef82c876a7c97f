package show

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Recheck writes the records worth a second look, at most so many. The flags that name
// the visit go with the command that looks.
func Recheck(w io.Writer, width int, list *scoring.Recheck, most int, flags string) error {
	p := newPage(w, width)
	p.text(0, 2, "%s, %s", list.Visit.Site, list.Visit.Date)
	if len(list.Records) == 0 {
		p.text(2, 4, "Nothing here is doubtful: every record was sure of its name, or does not say.")
		return p.err
	}
	p.text(2, 4, "%s. Look first at what would make the %s most certain:",
		plain.CountOf(len(list.Records), "record is worth a second look", "records are worth a second look"), list.Title)
	if list.Wordless {
		p.text(2, 4, "No word is said of this visit; why, is said by: rillkey grade%s", flags)
	}
	for i, r := range list.Records[:min(most, len(list.Records))] {
		p.line("")
		second(p, i+1, &r, list.Wordless)
	}
	if n := len(list.Records) - most; n > 0 {
		p.line("")
		p.text(0, 2, "%d more; --most %d lists all.", n, len(list.Records))
	}
	p.line("")
	p.text(0, 0, "A second person keys the first of them, without seeing its name, by: rillkey recheck look%s", flags)
	return p.err
}

func second(p *page, n int, r *scoring.RecheckRecord, wordless bool) {
	seen := ""
	if r.Looks > 0 {
		seen = wording.Text(", looked at again already")
	}
	p.text(0, 3, "%d. Sample %s, cell %s: %d x %s [%s]%s", n, r.Sample, cmp.Or(r.Cell, wording.Text("not noted")), r.Count,
		r.Name, r.Record, seen)
	p.text(3, 5, "%s", worth(r, wordless))
	if words := rivals(r); words != "" {
		p.text(3, 5, "%s", words)
	}
	if t := r.Tell; t != nil {
		tell(p, t)
	}
}

// worth says what settling a record would bring; wordless, where no rating is said of the visit.
func worth(r *scoring.RecheckRecord, wordless bool) string {
	switch {
	case r.MayChange && !wordless && r.Gain < 0.0005:
		return wording.Text("Closer names for its animals could change the word of the grade.")
	case wordless && (r.MayChange || r.Gain >= 0.0005 || r.Moves > 1e-9):
		return wording.Text("Settling it would make the value more certain.")
	case wordless:
		return wording.Text("It could not change the value.")
	case r.Gain >= 0.0005:
		return wording.Sprintf("Settling it would make the grade more certain by %.3f bit.", r.Gain)
	case r.Moves > 1e-9:
		return wording.Text("It could not change the word of the grade, only the value.")
	}
	return wording.Text("It could change neither the word nor the value of this grade.")
}

func rivals(r *scoring.RecheckRecord) string {
	const most = 3
	var words []string
	for _, x := range r.Rivals[:min(most, len(r.Rivals))] {
		words = append(words, fmt.Sprintf("%s %s", x.Name, plain.Percent(x.Chance)))
	}
	if n := len(r.Rivals) - most; n > 0 {
		words = append(words, wording.Sprintf("%d more", n))
	}
	switch {
	case len(words) == 0:
		return ""
	case r.Taxon == "":
		return wording.Sprintf("It may be: %s.", strings.Join(words, ", "))
	}
	return wording.Sprintf("The name holds with %s; else it may be: %s.", plain.Percent(r.Sure), strings.Join(words, ", "))
}

func tell(p *page, t *scoring.TellApart) {
	if t.Words != "" {
		p.text(3, 5, "Tell them apart: %s", t.Words)
		return
	}
	p.text(3, 5, "Look: %s %s", t.Question, t.How)
	for _, s := range t.Shows {
		p.text(5, 7, "%s: %s", s.Name, strings.Join(s.States, wording.Text(", or ")))
	}
}

// Agreement writes how well two people agreed.
func Agreement(w io.Writer, width int, catalog *taxa.Catalog, a *scoring.Agreement) error {
	p := newPage(w, width)
	p.text(0, 2, "%s, %s: %s identified twice", a.Visit.Site, a.Visit.Date, plain.Count(a.Records, "record"))
	if a.Records > 0 {
		if a.Disagreement != nil {
			p.text(2, 4, "Names differ in %.1f %% of the animals (PTD; look closer above %s %%).",
				*a.Disagreement, wording.Number(a.Limits.Disagreement))
		}
		if a.Enumeration != nil {
			p.text(2, 4, "Counts differ by %.1f %% (PDE, |n1 - n2| / (n1 + n2); look closer above %s %%).",
				*a.Enumeration, wording.Number(a.Limits.Enumeration))
		}
		p.text(2, 4, "Cohen's kappa over the records: %s (1 is full agreement, 0 that of chance).", kappa(a.Kappa))
	}
	for _, d := range a.Differing {
		state := wording.Text("not settled; the first name counts")
		if d.Settled {
			state = wording.Sprintf("settled as %s", nameByID(catalog, d.Counts))
		}
		p.text(2, 4, "[%s] sample %s, cell %s: first %s, second %s; %s", d.Record, d.Sample, cmp.Or(d.Cell, wording.Text("not noted")),
			nameByID(catalog, d.First), nameByID(catalog, d.Second), state)
	}
	for _, r := range a.Remarks {
		p.text(0, 2, "%s", r)
	}
	if a.Records > 0 {
		p.text(0, 2, "Source of the usual objectives: %s.", a.Limits.Source)
	}
	return p.err
}

func kappa(v *float64) string {
	if v == nil {
		return wording.Text("no value")
	}
	return fmt.Sprintf("%.2f", *v)
}

func nameByID(catalog *taxa.Catalog, id string) string {
	switch t := catalog.Taxon(id); {
	case t != nil:
		return t.Name()
	case id == "":
		return wording.Text("set aside")
	}
	return id
}

// SecondLookJSON is a second look beside the first name.
type SecondLookJSON struct {
	Record string `json:"record"`
	Event  string `json:"event"`
	First  string `json:"first"` // taxon ids; empty when set aside
	Second string `json:"second"`
	Agree  bool   `json:"agree"`

	firstName, secondName string
}

// NewLook sets a second look beside the name that counts so far.
func NewLook(catalog *taxa.Catalog, rec visit.Record, look visit.SecondLook, event string) *SecondLookJSON {
	first := rec.Taxon
	if rec.Undecided {
		first = ""
	}
	return &SecondLookJSON{
		Record: rec.ID, Event: event, First: first, Second: look.Taxon, Agree: first != "" && (first == look.Taxon ||
			catalog.IsUnder(first, look.Taxon) || catalog.IsUnder(look.Taxon, first)),
		firstName: nameByID(catalog, first), secondName: nameByID(catalog, look.Taxon),
	}
}

// neitherNamed is said where both people set the animals aside.
var neitherNamed = wording.Mark("Neither person could name it. Where your permit allows it, keep one in a vial for somebody who can.")

// LookedWords says in a sentence how a second look stands beside the first name.
func LookedWords(catalog *taxa.Catalog, rec visit.Record, look visit.SecondLook) string {
	l := NewLook(catalog, rec, look, "")
	switch {
	case l.Agree:
		return wording.Sprintf("Both people say %s.", l.secondName)
	case l.First == "" && l.Second == "":
		return wording.Text(neitherNamed)
	}
	return wording.Sprintf("First: %s. Second: %s. Look together at what tells them apart.", l.firstName, l.secondName)
}

// Text writes it for a person. The flags that name the visit go with the command that
// settles it.
func (l *SecondLookJSON) Text(w io.Writer, width int, flags string) error {
	p := newPage(w, width)
	p.text(0, 2, "Saved: the second look at %s is %s.", l.Record, l.Event)
	switch {
	case l.Agree:
		p.text(0, 2, "Both people say %s.", l.secondName)
		return p.err
	case l.First == "" && l.Second == "":
		p.text(0, 2, "%s", wording.Text(neitherNamed))
		return p.err
	}
	nameOf := map[string]string{l.First: l.firstName, l.Second: l.secondName}
	p.text(0, 2, "First: %s. Second: %s. Look together at what tells them apart, then say which counts.", l.firstName, l.secondName)
	for _, id := range []string{l.First, l.Second} {
		if id != "" {
			p.text(0, 2, "If it is the %s: rillkey recheck settle --of %s --taxon %s%s", nameOf[id], l.Record, plain.ShellWord(id), flags)
		}
	}
	return p.err
}

// Rechecks are the records of many visits worth a second look.
type Rechecks struct {
	Visits     int            `json:"visits"`
	PassedOver int            `json:"passed_over"` // visits that cannot be read or graded
	Doubtful   int            `json:"doubtful"`    // records
	Records    []VisitRecheck `json:"records"`     // those that would tell most, the first of them first
}

// VisitRecheck is a record worth a second look, with its visit.
type VisitRecheck struct {
	File  string          `json:"file"`
	Visit scoring.Subject `json:"visit"`
	scoring.RecheckRecord
	Wordless bool `json:"wordless,omitempty"` // no rating is said of the visit
}

// Add takes in what one visit has, and keeps so many records at most, those that would tell
// most.
func (l *Rechecks) Add(file string, one *scoring.Recheck, most int) {
	l.Doubtful += len(one.Records)
	for _, r := range one.Records {
		l.Records = append(l.Records, VisitRecheck{File: file, Visit: one.Visit, RecheckRecord: r, Wordless: one.Wordless})
	}
	sorting.Stable(l.Records, func(x, y VisitRecheck) int {
		return cmp.Or(scoring.CompareGain(&x.RecheckRecord, &y.RecheckRecord), cmp.Compare(x.Visit.ID, y.Visit.ID),
			cmp.Compare(x.Record, y.Record))
	})
	l.Records = l.Records[:min(most, len(l.Records))]
}

// Text writes it for people.
func (l Rechecks) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	p.text(0, 2, "%s in %s. Look first at:", plain.CountOf(l.Doubtful, "record is worth a second look", "records are worth a second look"),
		plain.Count(l.Visits, "visit"))
	for i, r := range l.Records {
		p.line("")
		p.text(0, 3, "%s, %s (%s)", r.Visit.Site, r.Visit.Date, r.File)
		second(p, i+1, &r.RecheckRecord, r.Wordless)
	}
	return p.err
}
