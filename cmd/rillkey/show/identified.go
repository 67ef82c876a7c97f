package show

import (
	"math"
	"slices"
	"strings"

	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Identified is one identification as people and scripts see it.
type Identified struct {
	Level key.Level `json:"level"` // kind, set, group, class, not-in-key or aside
	Name  string    `json:"name"`  // as people read it: "worm or crane fly"; empty when there is none
	Taxon string    `json:"taxon"` // empty when there is no name; of a set what holds all of it, if there is such
	// OneOf are the kinds of a set that the key cannot tell apart.
	OneOf      []string `json:"one_of,omitempty"`
	Rank       string   `json:"rank"`
	Scientific string   `json:"scientific"`
	Common     []string `json:"common"`
	// Confidence is the probability of the name, 0 when there is none; at most 0.89
	// where no kind of the key shows all that was said.
	Confidence float64 `json:"confidence"`
	Class      string  `json:"class"` // "open" where no single class is probable enough
	// ClassConfidence is the probability of the class, 0 when it is open; at most 0.89
	// like that of a name.
	ClassConfidence float64 `json:"class_confidence"`
	// LikelyClass is the class that is likely where none is sure, at 0.7 or more, and
	// LikelyClassBy its probability; else empty and 0.
	LikelyClass   string  `json:"likely_class,omitempty"`
	LikelyClassBy float64 `json:"likely_class_probability,omitempty"`
	// Likeliest is the kind most probable, whether enough for a name or not; the
	// key may not lead to it.
	Likeliest   string      `json:"likeliest"`
	LikeliestBy float64     `json:"likeliest_probability"`
	NotInKey    float64     `json:"not_in_key"` // the probability that it is none of the kinds that the key leads to
	LooksLike   string      `json:"looks_like"` // the lowest taxon, in the key or not, that all that is likely belongs to; else empty
	Path        []string    `json:"path"`
	Also        []Other     `json:"also"`
	Doubts      []DoubtJSON `json:"doubts"`
	Questions   int         `json:"questions"`
	Enclosing   string      `json:"within"`   // the lowest taxon of any rank that holds all that is possible
	Possible    []string    `json:"possible"` // end points that hold 0.99 together, the likeliest first
	// NothingFits says that no kind of the key shows all that was said.
	NothingFits bool `json:"nothing_fits"`
	// Enough says that the questions stopped where the visit's protocol needs no
	// narrower name.
	Enough bool         `json:"enough"`
	Check  *Supposed    `json:"check,omitempty"`
	Size   *LengthCheck `json:"size,omitempty"`
	Saved  *SavedJSON   `json:"saved,omitempty"`

	answers  string // all that was said, in the words of the key
	closer   string // how somebody comes to a closer name than is enough
	conflict string // what was said that the likeliest kind does not show, in the words of the key

	taxon, enclosing, likeliest, lookalike, supposed, rival *taxa.Taxon
	elsewhere                                               func(kind string) bool // whether the key does not lead to it
	set                                                     []*taxa.Taxon          // those of OneOf
}

// SavedJSON says where a record was put.
type SavedJSON struct {
	Visit string `json:"visit"`
	File  string `json:"file"`
	Event string `json:"event"`
}

// Supposed is what came of checking a name.
type Supposed struct {
	Taxon        string           `json:"taxon"`
	Name         string           `json:"name"`
	Outcome      key.CheckOutcome `json:"outcome"` // confirmed, refuted or open
	Probability  float64          `json:"probability"`
	Rival        string           `json:"rival"`   // the end point closest to it
	AgainstRival float64          `json:"against"` // probability, were the rival all that it could be instead
}

// possibleHold is the probability that all that is called possible holds.
const possibleHold = 0.99

// NewIdentified describes what an inquiry has come to. A length in mm is held
// against that of mature animals; 0 is not measured.
func NewIdentified(q *key.Inquiry, length float64) *Identified {
	catalog, r := q.Model().Key().Catalog(), q.Verdict()
	v := &Identified{
		Level: r.Level, Taxon: r.Taxon, Common: []string{}, Confidence: round(r.Confidence()),
		Class: ClassWord(r.Class), ClassConfidence: round(r.Told(r.ClassProbability)),
		Likeliest: r.Likeliest, LikeliestBy: round(r.LikeliestProbability), NotInKey: round(r.OutsideKey), LooksLike: r.Enclosing,
		Path: append([]string{}, r.Path...), Questions: r.Questions, NothingFits: r.Misfit, Enough: r.Level == key.ToGroup &&
			q.Enough() == r.Taxon,
		taxon: catalog.Taxon(r.Taxon), likeliest: catalog.Taxon(r.Likeliest), lookalike: catalog.Taxon(r.Enclosing),
	}
	if r.Leaning != "" {
		v.LikelyClass, v.LikelyClassBy = ClassWord(r.Leaning), round(r.Told(r.LeaningProbability))
	}
	v.answers, v.conflict = AnswerList(catalog.Vocabulary(), q.Given()), contradictions(catalog, v.likeliest, q.Given())
	v.elsewhere = func(id string) bool { return !q.Model().Key().EndsIn(id) }
	if v.Name = Either(catalog, r.Set); r.Level == key.ToSet {
		v.OneOf = r.Set
		for _, id := range r.Set {
			v.set = append(v.set, catalog.Taxon(id))
		}
	} else if v.taxon != nil {
		v.Name = BothNames(v.taxon)
	}
	for _, s := range q.Likely(possibleHold) {
		v.Possible = append(v.Possible, s.Taxon)
	}
	if v.enclosing = catalog.Cover(v.Possible); v.enclosing != nil {
		v.Enclosing = v.enclosing.ID
	}
	if t := v.taxon; t != nil {
		v.Rank, v.Scientific, v.Common = t.Rank, t.Scientific, append([]string{}, t.Common...)
	}
	v.check(catalog, q, &r)
	v.Also = v.others(catalog, r)
	v.Doubts = doubts(q)
	v.Size = size(catalog, v.named(catalog), length)
	return v
}

func (v *Identified) check(catalog *taxa.Catalog, q *key.Inquiry, r *key.Verdict) {
	c := q.Checked()
	if v.supposed = catalog.Taxon(c.Taxon); v.supposed != nil {
		v.Check = &Supposed{c.Taxon, BothNames(v.supposed), c.Outcome, round(r.Told(c.Probability)), c.Rival, round(r.Told(c.AgainstRival))}
		v.rival = catalog.Taxon(c.Rival)
	}
}

// named are the possible end points that have the name given, or all where there
// is none.
func (v *Identified) named(catalog *taxa.Catalog) []string {
	if v.OneOf != nil {
		return v.OneOf
	}
	if v.Taxon == "" {
		return v.Possible
	}
	var out []string
	for _, id := range v.Possible {
		if catalog.IsUnder(id, v.Taxon) {
			out = append(out, id)
		}
	}
	return out
}

// contradictions are what was said that a taxon does not show, in words.
func contradictions(catalog *taxa.Catalog, t *taxa.Taxon, given []key.Given) string {
	var out []string
	for _, g := range given {
		for _, said := range g.Says {
			shown := t.States(said.Trait)
			if len(shown) == 0 || slices.ContainsFunc(shown, func(w taxa.Weight) bool { return slices.Contains(said.States, w.State) }) {
				continue
			}
			if words := TraitStates(catalog.Vocabulary().Trait(said.Trait), said.States); !slices.Contains(out, words) {
				out = append(out, words)
			}
		}
	}
	return strings.Join(out, "; ")
}

// round keeps four decimals, more than the misread rates bear.
func round(p float64) float64 { return math.Round(p*1e4) / 1e4 }

// Drawable is the taxon that was named, or nil: what is open is not drawn.
func (v *Identified) Drawable() *taxa.Taxon { return v.taxon }

// Undecided reports whether no name was reached; of a check, whether it came to
// nothing.
func (v *Identified) Undecided() bool {
	if v.Check != nil {
		return v.Check.Outcome == key.CheckOpen
	}
	return v.Name == ""
}

// Other is another taxon it may be, or is often taken for.
type Other struct {
	Taxon       string   `json:"taxon"`
	Name        string   `json:"name"`
	Probability *float64 `json:"probability"` // null where it is only often mistaken for this
	TellApart   string   `json:"tell_apart"`
	NotInKey    bool     `json:"not_in_key,omitempty"`
}

// others are the likeliest end points beside the name, and what the name is
// often taken for.
func (v *Identified) others(catalog *taxa.Catalog, r key.Verdict) []Other {
	out := []Other{}
	add := func(id string, p float64, tell string) {
		p = round(p)
		out = append(out, Other{id, BothNames(catalog.Taxon(id)), &p, tell, v.elsewhere(id)})
	}
	if r.Level != key.ToKind && len(r.Rivals) > 0 {
		first := r.Rivals[0]
		add(r.Likeliest, r.LikeliestProbability, apart(catalog, first.Apart, r.Likeliest, first.Taxon, true))
	}
	for _, rival := range r.Rivals {
		add(rival.Taxon, rival.Probability, apart(catalog, rival.Apart, r.Likeliest, rival.Taxon, false))
	}
	if v.taxon == nil {
		return out
	}
	for _, m := range v.taxon.Mistaken {
		if !holds(out, m.Taxon) {
			out = append(out, Other{m.Taxon, BothNames(catalog.Taxon(m.Taxon)), nil, m.Tell, false})
		}
	}
	return out
}

func holds(others []Other, id string) bool {
	for _, o := range others {
		if o.Taxon == id {
			return true
		}
	}
	return false
}

// apart says what tells two kinds apart and was not looked at yet: what the
// second shows, or, turned, the first.
func apart(catalog *taxa.Catalog, c *key.Contrast, first, second string, turned bool) string {
	a, b := catalog.Taxon(first), catalog.Taxon(second)
	if turned {
		a, b = b, a
	}
	if c != nil {
		return labels(c.Trait, b) + " (" + a.Name() + ": " + states(c.Trait, a) + ")"
	}
	for _, m := range b.Mistaken {
		if m.Taxon == a.ID {
			return m.Tell
		}
	}
	return wording.Sprintf("nothing that was not looked at yet tells it from %s", a.Name())
}

// labels is a trait and what the taxon shows of it: "tails: two tails".
func labels(trait *taxa.Trait, t *taxa.Taxon) string {
	said := states(trait, t)
	if strings.HasPrefix(plain.ID(said), trait.ID) { // as the labels of a spreadsheet begin
		return said
	}
	return words(trait.ID) + ": " + said
}

// states is what the taxon shows of a trait, in words.
func states(trait *taxa.Trait, t *taxa.Taxon) string {
	var out []string
	for _, w := range t.States(trait.ID) {
		out = append(out, trait.States[trait.State(w.State)].Label)
	}
	return strings.Join(out, wording.Text(", or "))
}
