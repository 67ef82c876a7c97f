package show

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Board is how a visit stands while several people work on it.
type Board struct {
	Visit    VisitHead      `json:"visit"`
	Finished bool           `json:"finished"`
	Animals  int            `json:"animals"`
	People   []BoardPerson  `json:"people"` // who entered something, the latest first
	Samples  []BoardSample  `json:"samples"`
	Lack     string         `json:"lack"`  // what the protocol still asks for; empty where nothing
	Kinds    []BoardKind    `json:"kinds"` // by the protocol's sheet, most animals first
	Aside    []BoardAnimals `json:"aside"` // set aside without a name
	Looks    []BoardLook    `json:"looks"` // waiting for a second look, most worth it first
	Grade    string         `json:"grade"` // in words, or why there is none
}

// BoardPerson is what somebody entered.
type BoardPerson struct {
	Name    string `json:"name"`
	Doing   string `json:"doing,omitempty"` // now, where that is known
	Sample  string `json:"sample"`          // of the last animals
	Animals int    `json:"animals"`
	Quiet   string `json:"quiet"` // since the last entry, by the reader's clock

	last time.Time
}

// BoardSample is how far a sample is.
type BoardSample struct {
	Label   string `json:"label"`
	Habitat string `json:"habitat"`
	State   string `json:"state"`
	Animals int    `json:"animals"`
}

// BoardKind is how many animals of a kind were found.
type BoardKind struct {
	Label string `json:"label"`
	Count int64  `json:"count"`
}

// BoardAnimals are animals of one entry, and where they lie.
type BoardAnimals struct {
	Sample string `json:"sample"`
	Cell   string `json:"cell"`
	Count  int    `json:"count"`
	Who    string `json:"who"`
}

// BoardLook is an entry that somebody else should look at, without its name.
type BoardLook struct {
	BoardAnimals
	Record string `json:"record"`
	Mind   string `json:"mind"` // the one feature
}

// NewBoard is the board of a visit at a moment.
func NewBoard(rules *scoring.Rules, catalog *taxa.Catalog, v *visit.Visit, now time.Time) *Board {
	t := v.Tally()
	b := &Board{Visit: NewTally(catalog, v).Visit, Finished: t.Finished}
	in := map[string]int{}
	for _, r := range t.Records {
		in[r.Sample] += r.Count
		b.Animals += r.Count
		if r.Undecided {
			b.Aside = append(b.Aside, BoardAnimals{r.Sample, r.Cell, r.Count, r.Who})
		}
	}
	for _, s := range t.Samples {
		b.Samples = append(b.Samples, BoardSample{s.Label, s.Habitat, string(s.State), in[s.Label]})
	}
	b.People = people(v, t, now)
	account := rules.Account(v)
	g, err := rules.Grade(account, scoring.GradeOptions{Plain: true})
	if err != nil {
		b.Grade = wording.Sprintf("There is no grade: %s.", err.Error())
		return b
	}
	b.Lack, b.Grade = g.Effort.Lack(), InWords(g)
	for _, group := range g.Found {
		for _, k := range group.Kinds {
			b.Kinds = append(b.Kinds, BoardKind{k.Label, k.Count})
		}
	}
	sorting.Stable(b.Kinds, func(x, y BoardKind) int { return cmp.Compare(y.Count, x.Count) })
	if list, err := rules.Recheck(account, 0); err == nil {
		b.Looks = waiting(t, list)
	}
	return b
}

func waiting(t visit.Tally, list *scoring.Recheck) (out []BoardLook) {
	for _, one := range list.Records {
		r, ok := t.Record(one.Record)
		if !ok || len(r.Looks) > 0 || !one.Doubtful() {
			continue
		}
		look := BoardLook{BoardAnimals: BoardAnimals{r.Sample, r.Cell, r.Count, r.Who}, Record: r.ID}
		if one.Tell != nil {
			look.Mind = one.Tell.Question
		}
		out = append(out, look)
	}
	return out
}

// people are those who entered something. Clocks may be wrong: what seems to come
// from the future was just now.
func people(v *visit.Visit, t visit.Tally, now time.Time) (out []BoardPerson) {
	at := func(name string) *BoardPerson {
		i := slices.IndexFunc(out, func(p BoardPerson) bool { return p.Name == name })
		if i < 0 {
			i = len(out)
			out = append(out, BoardPerson{Name: name})
		}
		return &out[i]
	}
	for _, e := range v.Events {
		if e.Who != "" {
			if p := at(e.Who); e.Time.After(p.last) {
				p.last = e.Time
			}
		}
	}
	for _, r := range t.Records {
		if r.Who != "" {
			p := at(r.Who)
			p.Animals += r.Count
			p.Sample = r.Sample
		}
	}
	sorting.Stable(out, func(a, b BoardPerson) int { return b.last.Compare(a.last) })
	for i := range out {
		out[i].Quiet = ago(now.Sub(out[i].last))
	}
	return out
}

func ago(d time.Duration) string {
	switch {
	case d < time.Minute:
		return wording.Text("just now")
	case d < time.Hour:
		return wording.Sprintf("%s ago", plain.Count(int(d/time.Minute), "minute"))
	}
	return wording.Sprintf("%s ago", plain.Count(int(d/time.Hour), "hour"))
}

// Hear adds what somebody's phone said of itself, so long ago.
func (p *BoardPerson) Hear(doing string, waiting int, since time.Duration) {
	p.Doing = doing
	if waiting > 0 {
		p.Doing += wording.Sprintf(", %d not yet here", waiting)
	}
	p.Quiet = wording.Sprintf("heard %s", ago(since))
}

// Words says of a person what they entered and do.
func (p BoardPerson) Words() string {
	words := fmt.Sprintf("%s: %s", p.Name, plain.Count(p.Animals, "animal"))
	if p.Doing != "" {
		words += ", " + p.Doing
	} else if p.Sample != "" {
		words += wording.Sprintf(", last in sample %s", p.Sample)
	}
	return words + ", " + p.Quiet
}

// Words says where animals lie.
func (a BoardAnimals) Words() string {
	words := wording.Sprintf("sample %s, cell %s: %s", a.Sample, cmp.Or(a.Cell, wording.Text("not noted")), plain.Count(a.Count, "animal"))
	if a.Who != "" {
		words += wording.Sprintf(", by %s", a.Who)
	}
	return words
}

// Words says how far a sample is.
func (s BoardSample) Words() string {
	return fmt.Sprintf("%s, %s: %s, %s", s.Label, scheme.HabitatWords(s.Habitat), plain.Count(s.Animals, "animal"), wording.Text(s.State))
}

// BoardPart is one part of a board: its heading and its lines.
type BoardPart struct {
	Title string
	Lines []string
}

// Parts are the board in words, for every way to show it.
func (b *Board) Parts() []BoardPart {
	out := []BoardPart{{wording.Text("People"), nil}, {wording.Text("Samples"), nil},
		{wording.Text("What the protocol still asks for"),
			[]string{plain.Capital(cmp.Or(b.Lack, wording.Text("nothing: all samples are taken and sorted"))) + "."}}}
	for _, p := range b.People {
		out[0].Lines = append(out[0].Lines, p.Words())
	}
	for _, s := range b.Samples {
		out[1].Lines = append(out[1].Lines, s.Words())
	}
	kinds, aside, looks := BoardPart{Title: wording.Text("Found")}, BoardPart{Title: wording.Text("Set aside, without a name")},
		BoardPart{Title: wording.Text("Waiting for a second look")}
	for _, k := range b.Kinds {
		kinds.Lines = append(kinds.Lines, fmt.Sprintf("%s: %d", k.Label, k.Count))
	}
	for _, a := range b.Aside {
		aside.Lines = append(aside.Lines, plain.Capital(a.Words()))
	}
	for _, l := range b.Looks {
		line := plain.Capital(l.Words())
		if l.Mind != "" {
			line += wording.Sprintf(". Mind: %s", l.Mind)
		}
		looks.Lines = append(looks.Lines, line)
	}
	out = append(out, kinds, aside, looks, BoardPart{wording.Text("What the animals say"), []string{b.Grade}})
	for i := range out {
		if len(out[i].Lines) == 0 {
			out[i].Lines = []string{wording.Text("None yet.")}
		}
	}
	return out
}

// Text writes the board for a person.
func (b *Board) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	state := ""
	if b.Finished {
		state = wording.Text(", finished")
	}
	p.text(0, 2, "%s, %s: %s%s", b.Visit.Site, b.Visit.Date, plain.Count(b.Animals, "animal"), state)
	for _, part := range b.Parts() {
		p.line("")
		p.text(0, 2, "%s", part.Title)
		for _, line := range part.Lines {
			p.text(2, 4, "%s", line)
		}
	}
	return p.err
}
