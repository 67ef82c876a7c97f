package scoring

import (
	"fmt"
	"slices"
	"time"

	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Grade is what the animals of a visit say about the stream, or why they
// cannot say it yet.
type Grade struct {
	Visit    Subject      `json:"visit"`
	Protocol Basis        `json:"protocol"`
	Effort   Effort       `json:"effort"`
	Found    []GroupFound `json:"found"`              // by group of the main scheme, also where withheld
	Warnings []string     `json:"warnings,omitempty"` // to be read before all else: the scheme or the catalog does not know the animals
	Indices  []Index      `json:"indices"`            // the headline first: only it has a word
	Further  []Index      `json:"beside"`             // further ones, of all samples together; the grade does not rest on them
	Expected *Expected    `json:"expected,omitempty"` // what is common in the region beside what was found; nil where nobody can say
	// Reference is how the visit stands beside the site that the group compares with;
	// nil where it names none.
	Reference *Reference `json:"reference,omitempty"`
	// Foreign names the animals that do not belong here, to be said beside what was found;
	// empty for none that matter.
	Foreign string   `json:"foreign,omitempty"`
	Remarks []string `json:"remarks"`
	Caution string   `json:"caution"`
}

// Caution goes with every grade, in the language in use.
func Caution() string {
	return wording.Text("This describes the animal community on that day. It says nothing on drinking or swimming. Local rules " +
		"and the local authority's methods come first.")
}

// Variety is the remark of a [Grade] for those who get none yet although they
// found sensitive animals beside others.
var Variety = wording.Mark("Different kinds across the classes are a good sign, without being a grade.")

// Subject says which visit is graded.
type Subject struct {
	ID   string `json:"id"`
	Site string `json:"site"`
	Date string `json:"date"` // YYYY-MM-DD
}

// Basis says by which protocol.
type Basis struct {
	ID      string         `json:"id"`
	Title   string         `json:"title"`
	Combine scheme.Combine `json:"combine"`
	Source  string         `json:"source"`
	Status  string         `json:"status"`
}

// GroupFound is what was found of one group of the main scheme.
type GroupFound struct {
	ID      string      `json:"id"`
	Label   string      `json:"label"`
	Animals int64       `json:"animals"`
	Kinds   []KindFound `json:"kinds"`
}

// KindFound is a kind with the number of its animals.
type KindFound struct {
	ID    string `json:"id"`
	Label string `json:"label"`
	Count int64  `json:"count"`
}

// Index is one index of a visit. Where it is withheld there is a reason and no
// rating, and where even a value cannot be given no value and no terms. Only the
// headline of a grade has a rating: two words on one page could contradict.
type Index struct {
	ID       string   `json:"id"`
	Title    string   `json:"title"`
	Headline bool     `json:"headline,omitempty"`
	Value    *float64 `json:"value"` // nil where there is none
	// animals that the value rests on, as they were counted: what was multiplied up from a part is none
	Animals int64 `json:"animals"`
	// the least and the most that the value could be if animals named too broadly were named closer, which
	// need not hold the value, that leaves them out; nil where there are none, or the formula cannot tell
	Low               *float64     `json:"low,omitempty"`
	High              *float64     `json:"high,omitempty"`
	Rating            string       `json:"rating"`            // empty when withheld, scheme.Unrated where it has no word
	RatingRange       []string     `json:"between,omitempty"` // the worst and the best rating that it may have, where none is likely enough
	RatingSource      string       `json:"rating_source,omitempty"`
	RatingStatus      string       `json:"rating_status,omitempty"`      // how far the band's edges were confirmed
	RatingProvisional bool         `json:"rating_provisional,omitempty"` // the rating rests on fewer animals than a firm one does
	Reading           string       `json:"reading,omitempty"`            // how to read a value that has no word beside it
	Withheld          bool         `json:"withheld"`
	Reason            string       `json:"reason"` // why it is withheld
	Source            string       `json:"source"`
	Status            string       `json:"status"` // how far the scheme's figures were confirmed
	Note              string       `json:"note,omitempty"`
	Sample            string       `json:"sample,omitempty"`      // the best sample, where samples stand by themselves
	Provisional       *Provisional `json:"provisional,omitempty"` // what a withheld value would be so far, where that was asked for
	// Two kinds of uncertainty, never merged: of the names, and of which samples
	// happened to be taken. Nil where there is no value.
	Probabilities  map[string]float64 `json:"probabilities,omitempty"` // by rating, because of the names
	Identification *Spread            `json:"identification,omitempty"`
	Sampling       *Spread            `json:"sampling,omitempty"` // nil where no sample was looked through
	Typical        *Typical           `json:"typical,omitempty"`  // what a sample holds on average, where the best counts; else nil
	Working        string             `json:"working,omitempty"`  // the division, where the value is a mean
	Terms          []scheme.Term      `json:"terms"`              // what was added up
	LeftOut        []LeftOut          `json:"left_out"`           // records that no kind could be counted for
	Remarks        []string           `json:"remarks"`
}

// Provisional is a value that has not been earned: what the samples taken so far
// would give. It is no grade.
type Provisional struct {
	Value          float64            `json:"value"`
	Rating         string             `json:"rating"`
	Probabilities  map[string]float64 `json:"probabilities,omitempty"`
	Identification *Spread            `json:"identification,omitempty"`
	Sampling       *Spread            `json:"sampling,omitempty"`
}

// GradeOptions says what a grade is to hold beyond what every grade holds.
type GradeOptions struct {
	Anyway bool   // also what withheld indices would be so far, marked as provisional
	Seed   uint64 // of simulations; the same seed gives the same figures
	Plain  bool   // without the spreads of all but the headline, which take many times as long as all else
	// Expected is what is missing of the animals common in the region, where the grade
	// is Plain too.
	Expected bool
	// Reference is the site that the group compares with; nil for the one that the
	// visit names. Without a visit there to compare with, the word is withheld.
	Reference *Reference
	// Today is the present day: a visit that is dated after it is remarked on. The zero
	// time remarks on none.
	Today time.Time
}

// Reference is the site that a group compares with.
type Reference struct {
	Site  string `json:"site"`
	Words string `json:"words"` // how the two sites differ; empty where no visit there goes with this one

	unsought bool // nobody looked for one
}

// Grade grades a visit by the protocol that its header names. The error says
// that there is no such protocol; everything else is in the Grade.
func (r *Rules) Grade(a *account.Account, w GradeOptions) (*Grade, error) {
	h, t := a.Visit.Header, a.Tally
	p, err := r.Protocol(h.Protocol)
	if err != nil {
		return nil, err
	}
	if site := h.ComparesWith(); w.Reference == nil && site != "" {
		w.Reference = &Reference{Site: site, unsought: true}
	}
	main := r.grader(p.Schemes[0])
	g := &Grade{
		Visit:    Subject{h.ID, h.Site, h.Date},
		Protocol: Basis{p.ID, p.Title, p.Combine, p.Source, p.Status},
		Effort:   effortOf(p, t.Samples),
		Found:    main.found(a),
		Further:  []Index{},
		Remarks:  []string{},
		Caution:  Caution(),

		Reference: w.Reference,
	}
	g.Effort.Forecast = main.forecast(g.Effort, a)
	m := chance.Seeded(w.Seed)
	for n, id := range p.Schemes {
		g.Indices = append(g.Indices, r.index(r.grader(id), p.Combine, g.Effort, a, w, m, n == 0))
	}
	for _, id := range p.Further {
		g.Further = append(g.Further, r.index(r.grader(id), scheme.Pooled, g.Effort, a, w, m, false))
	}
	if !w.Plain || w.Expected {
		g.Expected = main.expected(g.Effort, a, g.Found, w.Seed)
	}
	if said := r.warning(main, a); said != "" {
		g.Warnings = append(g.Warnings, plain.Capital(said)+".")
	}
	if !g.Effort.Complete && varied(g.Found) {
		g.Remarks = append(g.Remarks, wording.Text(Variety))
	}
	g.Foreign = foreignWords(main, p.Combine, a, &g.Indices[0])
	g.Remarks = append(g.Remarks, main.concernRemarks(p.Combine, a, &g.Indices[0])...)
	g.Remarks = append(append(g.Remarks, trusted(a.Records)...), r.opposed(a)...)
	for _, n := range t.Notices {
		g.Remarks = append(g.Remarks, n.String())
	}
	if today := w.Today.Format(time.DateOnly); !w.Today.IsZero() && h.Date > today {
		g.Remarks = append(g.Remarks, wording.Sprintf("The visit is dated %s, which is after today (%s): one of the two is wrong.",
			h.Date, today))
	}
	return g, nil
}

// varied tells that sensitive kinds were found beside kinds of other classes.
func varied(found []GroupFound) bool {
	sensitive, others := false, false
	for _, c := range found {
		switch {
		case len(c.Kinds) == 0:
		case c.Label == string(taxa.Sensitive):
			sensitive = true
		default:
			others = true
		}
	}
	return sensitive && others
}

// Withheld reports whether the headline has no word or no value to say.
func (g *Grade) Withheld() bool { return g.Indices[0].Withheld }

// found lists what each group holds of the animals recorded, groups of which nothing was found too;
// only a scheme with a group for every score leaves those out.
func (s grader) found(a *account.Account) []GroupFound {
	classes := make([]GroupFound, len(s.Groups))
	for i, g := range s.Groups {
		classes[i] = GroupFound{ID: g.ID, Label: g.Label, Kinds: []KindFound{}}
	}
	for _, f := range s.sort(s.recorded(a)).found {
		_, i := s.Group(f.Kind.Group)
		classes[i].Animals += f.Count
		classes[i].Kinds = append(classes[i].Kinds, KindFound{f.Kind.ID, f.Kind.Label, f.Count})
	}
	if len(s.Groups) > len(taxa.Classes) {
		classes = slices.DeleteFunc(classes, func(c GroupFound) bool { return len(c.Kinds) == 0 })
	}
	return classes
}

func (r *Rules) index(s grader, how scheme.Combine, e Effort, of *account.Account, w GradeOptions, m *chance.Simulation,
	headline bool) Index {
	from := s.evidence(of)
	all := s.sort(from.rows)
	i := Index{
		ID: s.ID, Title: s.Title, Headline: headline, Source: s.Source, Status: s.Status, Note: s.Note, Rating: scheme.Unrated,
		Terms: []scheme.Term{}, LeftOut: all.left, Remarks: append(leftRemarks(all.left), s.scalingRemarks(of.Tally.Samples)...),
	}
	if i.Reason = s.withhold(e, all); i.Reason != "" {
		i.Withheld, i.Rating = true, ""
		if w.Anyway && !e.Complete {
			i.Provisional = r.provisional(s, how, of, m, headline)
		}
		return i
	}
	if w.Plain && !headline {
		v := s.combined(how, from, all)
		i.fill(s, v)
		i.Animals = s.seen(of, v).animals()
		return i
	}
	v := s.valued(how, from, all, m)
	if how == scheme.Best {
		i.Remarks = append(i.Remarks, wording.Sprintf("Each sample was judged by itself; the best one counts: sample %s.", v.sample))
		if i.Typical = s.typical(how, from, e.Required); i.Typical != nil && i.Typical.Samples > 1 {
			i.Remarks = append(i.Remarks, i.Typical.words())
		}
	}
	i.fill(s, v.sum)
	i.Animals = s.seen(of, v.sum).animals()
	if i.Identification, i.Sampling = v.spreads(s); i.Sampling == nil {
		i.Sampling = s.ofOneSample(from, v.value, m.Seed)
	}
	i.Probabilities = i.Identification.probabilities()
	said := word{}
	i.Remarks = append(i.Remarks, s.outsideSpread(*i.Value, i.Identification)...)
	if headline {
		said = r.word(s, how, of, v).besideReference(w.Reference)
		i.say(s, said)
		i.Remarks = append(i.Remarks, singles(s, of, from, v.sum)...)
	} else {
		i.Reading = s.reading()
		i.wordless()
	}
	i.Remarks = append(i.Remarks, caveats(s, all, v.sum, said.worded())...)
	return i
}

// combined is the value of all samples together, or of the best.
func (s grader) combined(how scheme.Combine, from evidence, all sorted) sum {
	if how == scheme.Best {
		return s.best(from)
	}
	return s.sum(all)
}

// fill enters the value and what belongs to it.
func (i *Index) fill(s grader, v sum) {
	steps := v.value.Steps()
	value := s.Number(steps)
	i.Value = &value
	i.Sample, i.Terms = v.sample, append(i.Terms, v.terms...)
	if v.value.Den > 1 {
		i.Working = fmt.Sprintf("%s / %d = %s", s.Plain(v.value.Num), v.value.Den, s.Text(steps))
	}
	if v.bounded {
		low, high := s.Number(v.low.Steps()), s.Number(v.high.Steps())
		i.Low, i.High = &low, &high
	}
}

// caveats are the remarks on a value that there is, with ratings where those may
// be spoken of.
func caveats(s grader, all sorted, v sum, worded bool) (remarks []string) {
	switch {
	case len(all.found) == 0:
		remarks = append(remarks, wording.Text(
			"The samples are complete and hold no animal that this index counts. Before believing it, make sure that the nets "+
				"were whole and the season right."))
	case v.animals() < int64(s.Floor.Animals):
		remarks = append(remarks, wording.Text(
			"So few animals are news by themselves: was it kicked long enough; was there a flood, ice or a dry bed; or did "+
				"something kill them?"))
	}
	if v.bounded {
		text := s.rated
		if !worded {
			text = func(v chance.Ratio) string { return s.Text(v.Steps()) }
		}
		said := wording.Sprintf("Whatever the animals named too broadly turned out to be, the value would lie between %s and %s.",
			text(v.low), text(v.high))
		if v.low.Steps() == v.high.Steps() {
			said = wording.Sprintf("Whatever the animals named too broadly turned out to be, the value would be %s.", text(v.low))
		}
		remarks = append(remarks, said)
	}
	if !v.bounded && anyDoubtful(all.left) ||
		slices.ContainsFunc(all.left, func(l LeftOut) bool { return l.Why.Doubtful() && l.Why != scheme.WhyAmbiguous }) {
		remarks = append(remarks, wording.Text("A closer name for animals left out may change this value."))
	}
	return remarks
}

// rated is a value with its rating in brackets, where the scheme has bands.
func (s grader) rated(v chance.Ratio) string {
	if len(s.Bands) == 0 {
		return s.Text(v.Steps())
	}
	return fmt.Sprintf("%s (%s)", s.Text(v.Steps()), s.Band(v.Steps()).Rating)
}

// lack says why animals that were counted give no value, or "".
func lack(s grader, all sorted) string {
	if s.sum(all).value.Defined() {
		return ""
	}
	return s.WhyNone()
}

// withhold says why there can be no value, or "". Nets found empty at full effort
// do have a value of 0. Animals that could not be placed are no empty net, and
// nothing has no mean.
func (s grader) withhold(e Effort, all sorted) string {
	if !e.Complete {
		return e.Lack()
	}
	if len(all.found) > 0 {
		return lack(s, all)
	}
	if anyDoubtful(all.left) {
		return wording.Text("no animal could be placed in a kind that this index counts; look again at those left out")
	}
	if !s.sum(all).value.Defined() {
		return wording.Text("no animal that this index counts was found, and it is a mean or share, which nothing has")
	}
	return ""
}
