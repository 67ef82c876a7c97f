package show

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"rillkey/scoring/condition"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// TallyJSON is a visit's records as people and scripts see them.
type TallyJSON struct {
	Visit    VisitHead    `json:"visit"`
	Samples  []SampleJSON `json:"samples"`
	Animals  int          `json:"animals"`
	Finished bool         `json:"finished"`
	// Conditions are what was noted of stream and day, in the order of the sheet.
	Conditions []ConditionJSON `json:"conditions"`
}

// ConditionJSON is one thing that was noted of stream and day.
type ConditionJSON struct {
	Event      string `json:"event"`
	ID         string `json:"id"`
	Title      string `json:"title"`
	Value      any    `json:"value"` // a number in the unit, a text, a list of texts or parts in per cent
	Unit       string `json:"unit"`
	Instrument string `json:"with"` // the instrument
	words      string
}

// VisitHead says which visit it is.
type VisitHead struct {
	ID       string   `json:"id"`
	File     string   `json:"file"`
	Site     string   `json:"site"`
	Date     string   `json:"date"`
	People   []string `json:"people"`
	Region   string   `json:"region"` // empty where nobody said
	Protocol string   `json:"protocol"`
	Obscured bool     `json:"obscured"` // the exact place is not given to others
	// Reference is the site that the group compares with; empty for none.
	Reference string `json:"reference,omitempty"`
}

// SampleJSON is one sample with its records, in the order of the classes.
type SampleJSON struct {
	Label   string       `json:"label"`
	Event   string       `json:"event"`
	Habitat string       `json:"habitat"`
	Area    float64      `json:"area_m2"`  // 0 when not measured
	State   string       `json:"state"`    // how far it is sorted: not yet sorted, being sorted, sorted or empty
	Sorted  float64      `json:"fraction"` // share that is sorted; 0 when nobody said
	Effort  string       `json:"effort"`
	Animals int          `json:"animals"`
	Records []RecordJSON `json:"records"`
}

// RecordJSON is one identification.
type RecordJSON struct {
	Event      string   `json:"event"`
	Taxon      string   `json:"taxon"` // empty when set aside
	Name       string   `json:"name"`
	Class      string   `json:"class"`
	Count      int      `json:"count"`
	Cell       string   `json:"cell"`
	Who        string   `json:"who"`
	Confidence float64  `json:"confidence"`
	Path       []string `json:"path"`
	Amended    bool     `json:"amended"`
	Expert     string   `json:"expert,omitempty"`    // who determined a specimen elsewhere
	ExpertOn   string   `json:"expert_on,omitempty"` // the day of that
	Kept       string   `json:"kept_at,omitempty"`   // where the specimen is
}

// NewTally describes a visit as it stands after all amendments.
func NewTally(catalog *taxa.Catalog, v *visit.Visit) *TallyJSON {
	t := v.Tally().Named(catalog.Current)
	out := &TallyJSON{
		Conditions: conditions(t),
		Visit: VisitHead{v.Header.ID, v.File, v.Header.Site, v.Header.Date, append([]string{}, v.Header.People...), v.Header.Region,
			v.Header.Protocol, t.Obscured, v.Header.Reference},
		Samples: []SampleJSON{}, Finished: t.Finished,
	}
	for _, s := range t.Samples {
		sample := SampleJSON{Label: s.Label, Event: s.ID, Habitat: s.Habitat, Area: s.Area, State: string(s.State), Sorted: s.Fraction,
			Effort: s.Effort, Records: []RecordJSON{}}
		for _, class := range append(taxa.Classes, "") {
			for _, r := range t.Records {
				if r.Sample == s.Label && recordClass(catalog, r) == class {
					sample.Records = append(sample.Records, newRecord(catalog, r))
					sample.Animals += r.Count
				}
			}
		}
		out.Samples = append(out.Samples, sample)
		out.Animals += sample.Animals
	}
	return out
}

func conditions(t visit.Tally) []ConditionJSON {
	out := []ConditionJSON{}
	at := map[string]string{}
	for _, n := range t.Noted {
		for id := range n.Values {
			at[id] = n.ID
		}
	}
	t.Conditions().Each(func(f *condition.Parameter, v condition.Value) {
		out = append(out, ConditionJSON{at[f.ID], f.ID, f.Title, f.Plain(v), f.Unit, v.Instrument, f.Full(v)})
	})
	return out
}

// recordClass is the class of a record; one that is set aside, or whose taxon
// the catalog does not know, has none.
func recordClass(catalog *taxa.Catalog, r visit.Record) taxa.Class {
	if t := catalog.Taxon(r.Taxon); t != nil && !r.Undecided {
		return t.Class
	}
	return ""
}

func newRecord(catalog *taxa.Catalog, r visit.Record) RecordJSON {
	rec := RecordJSON{
		Event: r.ID, Taxon: r.Taxon, Class: ClassWord(recordClass(catalog, r)), Count: r.Count, Cell: r.Cell,
		Who: r.Who, Confidence: r.Confidence, Path: append([]string{}, r.Path...), Amended: len(r.Amended) > 0,
		Expert: r.Expert, ExpertOn: r.ExpertOn, Kept: r.Kept,
	}
	switch t := catalog.Taxon(r.Taxon); {
	case t != nil:
		rec.Name = BothNames(t)
	case r.Taxon != "":
		rec.Name = wording.Sprintf("%s (not in this catalog)", r.Taxon)
	default:
		rec.Name = wording.Text("set aside for a second look")
	}
	return rec
}

// Text writes the tally for a person.
func (t *TallyJSON) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	p.text(0, 2, "%s, %s", t.Visit.Site, t.Visit.Date)
	if len(t.Visit.People) > 0 {
		p.text(2, 4, "with %s", strings.Join(t.Visit.People, ", "))
	}
	if t.Visit.Protocol != "" {
		p.text(2, 4, "protocol %s", t.Visit.Protocol)
	}
	if t.Visit.Reference != "" {
		p.text(2, 4, "compared with %s", t.Visit.Reference)
	}
	if t.Visit.Obscured {
		p.text(2, 4, "place obscured: others do not get it exactly")
	}
	t.noted(p)
	if len(t.Samples) == 0 {
		if len(t.Conditions) > 0 {
			p.line("")
		}
		p.text(2, 4, "No sample yet. One is added by: rillkey visit sample --visit %s", plain.ShellWord(t.Visit.File))
	}
	for _, s := range t.Samples {
		p.line("")
		s.text(p)
	}
	p.line("")
	state := wording.Text("not finished")
	if t.Finished {
		state = wording.Text("finished")
	}
	p.text(0, 2, "%s, %s; the visit is %s.", plain.Count(t.Animals, "animal"), plain.Count(len(t.Samples), "sample"), state)
	return p.err
}

// noted lists the conditions, each entry with its code at its first value.
func (t *TallyJSON) noted(p *page) {
	if len(t.Conditions) == 0 {
		return
	}
	p.line("")
	p.text(0, 2, "Stream and day")
	told := map[string]bool{}
	for _, c := range t.Conditions {
		code := ""
		if !told[c.Event] {
			code = " [" + c.Event + "]"
		}
		told[c.Event] = true
		p.text(2, 4, "%s: %s%s", c.Title, c.words, code)
	}
}

func (s *SampleJSON) text(p *page) {
	var how []string
	if s.Habitat != "" {
		how = append(how, scheme.HabitatWords(s.Habitat))
	}
	if s.Area > 0 {
		how = append(how, Area(s.Area))
	}
	if s.Effort != "" {
		how = append(how, s.Effort)
	}
	state := SortedWords(visit.Sample{Fraction: s.Sorted}, visit.Sorting(s.State))
	p.text(0, 2, "Sample %s: %s; %s, %s", s.Label, cmp.Or(strings.Join(how, ", "), wording.Text("nothing noted on how it was taken")),
		plain.Count(s.Animals, "animal"), state)
	class := ""
	for _, r := range s.Records {
		if r.Class != class {
			class = r.Class
			p.text(2, 4, "%s", class)
		}
		p.text(4, 10, "%5d  %s%s", r.Count, r.Name, r.aside())
	}
}

func (r *RecordJSON) aside() string {
	var parts []string
	if r.Cell != "" {
		parts = append(parts, wording.Sprintf("cell %s", r.Cell))
	}
	if r.Confidence > 0 {
		parts = append(parts, sureness(r.Confidence)+", "+wording.Decimal(fmt.Sprintf("%.2f", notRoundedUp(r.Confidence))))
	}
	if r.Expert != "" {
		parts = append(parts, wording.Sprintf("determined by %s on %s", r.Expert, r.ExpertOn))
	}
	if r.Kept != "" {
		parts = append(parts, wording.Sprintf("kept at %s", r.Kept))
	}
	if r.Amended {
		parts = append(parts, wording.Text("amended"))
	}
	return " [" + strings.Join(append(parts, r.Event), "; ") + "]"
}

// SortedWords says how far a sample is sorted, with the share where it is not all.
func SortedWords(s visit.Sample, state visit.Sorting) string {
	part := s.Fraction > 0 && s.Fraction < 1
	switch {
	case !part:
		return state.Words()
	case state == visit.Sorted:
		return wording.Sprintf("%.4g of it sorted", s.Fraction)
	case state == visit.Empty:
		return wording.Sprintf("%.4g of it sorted, and empty", s.Fraction)
	}
	return wording.Sprintf("%s (%.4g of it is to be)", state.Words(), s.Fraction)
}

const feetPerMetre = 1 / 0.3048

// Area gives an area in square metres and square feet.
func Area(m2 float64) string {
	return wording.Sprintf("%.2f m² (%.1f sq ft)", m2, m2*feetPerMetre*feetPerMetre)
}
