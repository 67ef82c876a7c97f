package show

import (
	"fmt"
	"io"
	"math"
	"strings"

	"rillkey/key"
	"rillkey/taxa"
)

// Identified is one identification as people and scripts see it.
type Identified struct {
	Taxon      string   `json:"taxon"` // empty when undecided
	Rank       string   `json:"rank"`
	Scientific string   `json:"scientific"`
	Common     []string `json:"common"`
	Class      string   `json:"class"` // "open" where no single class holds
	Confidence float64  `json:"confidence"`
	Path       []string `json:"path"`
	Also       []Other  `json:"also"`
	Doubts     []Doubt  `json:"doubts"`
	Questions  int      `json:"questions"`
	Within     string   `json:"within"` // the lowest taxon of any rank that holds all that is possible
	Possible   []string `json:"possible"`
	Size       *Size    `json:"size,omitempty"`
	Saved      *Saved   `json:"saved,omitempty"`

	taxon  *taxa.Taxon
	within *taxa.Taxon
}

// Other is another taxon it may be, or is often taken for.
type Other struct {
	Taxon       string   `json:"taxon"`
	Name        string   `json:"name"`
	Probability *float64 `json:"probability"` // null where it is only often mistaken for this
	TellApart   string   `json:"tell_apart"`
}

// Doubt is an answer that may have been misread.
type Doubt struct {
	Answer  string  `json:"answer"` // "4a"; empty for an observation
	Trait   string  `json:"trait"`
	Seen    string  `json:"seen"`
	Misread float64 `json:"misread"` // share of beginners' answers that are wrong
}

// Size is a length held against that of mature animals.
type Size struct {
	Length  float64    `json:"length_mm"`
	Mature  [2]float64 `json:"mature_mm"`
	Fits    bool       `json:"fits"`
	Remark  string     `json:"remark"`
	TooLong bool       `json:"too_long"`
}

// Saved says where a record was put.
type Saved struct {
	Visit string `json:"visit"`
	File  string `json:"file"`
	Event string `json:"event"`
}

// NewIdentified describes the result of a walk. A length of 0 is not measured.
func NewIdentified(catalog *taxa.Catalog, r key.Identification, length float64) *Identified {
	v := &Identified{
		Taxon: r.Taxon, Common: []string{}, Class: ClassWord(r.Class), Confidence: round(r.Confidence),
		Path: r.Path, Questions: r.Questions, Within: r.Within, Possible: r.Possible,
		taxon: catalog.Taxon(r.Taxon), within: catalog.Taxon(r.Within),
	}
	if v.Path == nil {
		v.Path = []string{}
	}
	if v.Possible == nil {
		v.Possible = []string{}
	}
	if t := v.taxon; t != nil {
		v.Rank, v.Scientific, v.Common = t.Rank, t.Scientific, append([]string{}, t.Common...)
	}
	v.Also = others(catalog, r)
	v.Doubts = doubts(catalog, r)
	v.Size = size(catalog, r.Possible, length)
	return v
}

// round keeps four decimals, more than the misread rates bear.
func round(p float64) float64 { return math.Round(p*1e4) / 1e4 }

// Undecided reports whether no name was reached.
func (v *Identified) Undecided() bool { return v.Taxon == "" }

func others(catalog *taxa.Catalog, r key.Identification) []Other {
	out := []Other{}
	if len(r.Possible) > 1 {
		share := round(1 / float64(len(r.Possible)))
		for _, id := range r.Possible {
			t := catalog.Taxon(id)
			out = append(out, Other{id, Named(t), &share, mark(catalog, t, r.Possible)})
		}
		return out
	}
	if t := catalog.Taxon(r.Taxon); t != nil {
		for _, m := range t.Mistaken {
			out = append(out, Other{m.Taxon, Named(catalog.Taxon(m.Taxon)), nil, m.Tell})
		}
	}
	return out
}

// mark is the trait that tells t from the most of the others, the easiest to see
// among equals.
func mark(catalog *taxa.Catalog, t *taxa.Taxon, others []string) string {
	votes := map[string]int{}
	var best *taxa.Trait
	for _, id := range others {
		for _, trait := range catalog.TellApart(t, catalog.Taxon(id)) {
			votes[trait.ID]++
			if best == nil || votes[trait.ID] > votes[best.ID] {
				best = trait
			}
		}
	}
	switch n := len(others) - 1; {
	case best == nil:
		return "nothing in the trait table tells it from the others"
	case votes[best.ID] == n:
		return labels(best, t)
	default:
		return fmt.Sprintf("%s (apart from %d of the %d others)", labels(best, t), votes[best.ID], n)
	}
}

// labels is a trait and what the taxon shows of it: "tails: two tails".
func labels(trait *taxa.Trait, t *taxa.Taxon) string {
	var out []string
	for _, w := range t.States(trait.ID) {
		out = append(out, trait.States[trait.State(w.State)].Label)
	}
	return trait.ID + ": " + strings.Join(out, ", or ")
}

// mostDoubts is how many answers are offered for a second look.
const mostDoubts = 3

func doubts(catalog *taxa.Catalog, r key.Identification) []Doubt {
	out := []Doubt{}
	for _, d := range r.Doubts[:min(mostDoubts, len(r.Doubts))] {
		trait := catalog.Vocabulary().Trait(d.Trait)
		var seen []string
		for _, id := range d.States {
			seen = append(seen, trait.States[trait.State(id)].Label)
		}
		out = append(out, Doubt{d.Answer, d.Trait, strings.Join(seen, ", or "), d.Misread})
	}
	return out
}

// size compares a length with the mature lengths of all that is possible. Young
// animals are smaller, so only one that is too long speaks against the name.
func size(catalog *taxa.Catalog, possible []string, length float64) *Size {
	all := matureRange(catalog, possible)
	if length <= 0 || !all.Known() {
		return nil
	}
	s := &Size{Length: length, Mature: [2]float64{all.Min, all.Max}, Fits: true}
	switch {
	case length > all.Max:
		s.Fits, s.TooLong = false, true
		s.Remark = fmt.Sprintf("%s is longer than grown ones get (%s): look again, the name may be wrong", Millimetres(length), LengthRange(all))
	case length < all.Min:
		s.Remark = fmt.Sprintf("%s is short of a grown one (%s): it may be young, which makes small parts harder to see", Millimetres(length), LengthRange(all))
	default:
		s.Remark = fmt.Sprintf("%s fits a grown one (%s)", Millimetres(length), LengthRange(all))
	}
	return s
}

func matureRange(catalog *taxa.Catalog, possible []string) taxa.Range {
	var all taxa.Range
	for _, id := range possible {
		r := catalog.Taxon(id).Length
		if !r.Known() {
			return taxa.Range{}
		}
		if !all.Known() || r.Min < all.Min {
			all.Min = r.Min
		}
		all.Max = max(all.Max, r.Max)
	}
	return all
}

// Measure adds a length, in millimetres, to the description.
func (v *Identified) Measure(catalog *taxa.Catalog, length float64) {
	v.Size = size(catalog, v.Possible, length)
}

// sureness puts a chance in words.
func sureness(p float64) string {
	switch {
	case p >= 0.9:
		return "sure"
	case p >= 0.75:
		return "fairly sure"
	case p >= 0.5:
		return "rather unsure"
	}
	return "not sure"
}

// Text writes the identification for a person.
func (v *Identified) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	v.heading(p)
	if len(v.Possible) > 0 {
		p.item("Class", "%s", classLine(v))
		p.item("Confidence", "%s: %.2f is the chance that none of the answers was misread", sureness(v.Confidence), v.Confidence)
	}
	if v.Size != nil {
		p.item("Size", "%s", v.Size.Remark)
	} else if v.taxon != nil && v.taxon.Length.Known() {
		p.item("Size", "grown ones are %s; young ones are smaller", LengthRange(v.taxon.Length))
	}
	v.also(p)
	for _, d := range v.Doubts {
		p.item("Look again", "%s%s: %s (about %.0f in 100 beginners misread it)", prefix(d.Answer), d.Trait, d.Seen, 100*d.Misread)
	}
	if v.taxon != nil && v.taxon.Handling != "" {
		p.item("Take care", "%s", v.taxon.Handling)
	}
	if len(v.Path) > 0 {
		p.item("Path", "%s", strings.Join(v.Path, " "))
	}
	return p.err
}

func prefix(answer string) string {
	if answer == "" {
		return ""
	}
	return answer + ", "
}

func classLine(v *Identified) string {
	switch v.Class {
	case string(taxa.Sensitive):
		return "sensitive (its kind needs clean, well-aired water)"
	case string(taxa.SomewhatSensitive):
		return "somewhat sensitive (its kind bears a little pollution)"
	case string(taxa.Tolerant):
		return "tolerant (its kind can live in polluted water, and in clean water too)"
	case string(taxa.NotScored):
		return "not scored (it does not count in the grade)"
	}
	return "open: what is still possible belongs to several classes"
}

func (v *Identified) heading(p *page) {
	switch {
	case len(v.Possible) == 0:
		p.text(0, 0, "Nothing in this key fits all the answers.")
		p.text(2, 2, "At least one of them was misread, or the animal is not in the key. Go back, or set it aside for a second look.")
	case v.Undecided():
		p.text(0, 0, "Set aside for a second look")
		if v.within != nil {
			p.text(2, 2, "So far it is only known to be one of: %s.", Named(v.within))
		} else {
			p.text(2, 2, "So far it could be animals of very different kinds.")
		}
	default:
		p.text(0, 0, "%s", heading(v.taxon))
		if len(v.taxon.Common) > 1 {
			p.text(2, 2, "also called %s", strings.Join(v.taxon.Common[1:], ", "))
		}
	}
}

func heading(t *taxa.Taxon) string {
	kind := t.Rank
	if t.Rank == "group" {
		kind = "a group, not a formal rank"
	}
	if t.Stage != "" {
		kind += ", " + t.Stage
	}
	return fmt.Sprintf("%s: %s", Named(t), kind)
}

// mostNamed is how many possibilities are named; a longer list helps nobody.
const mostNamed = 6

func (v *Identified) also(p *page) {
	label := "Taken for"
	if len(v.Possible) > 1 {
		label = "Could be"
		if len(v.Possible) > mostNamed {
			p.item(label, "any of %d kinds; answer more questions to narrow it", len(v.Possible))
			return
		}
	}
	for _, o := range v.Also {
		p.item(label, "%s: %s", o.Name, o.TellApart)
	}
}

// Entry writes an identification as one entry of a list: how many of which
// sample, name and class, and the leads that led there.
func Entry(w io.Writer, width int, sample string, n int, v *Identified) error {
	p := newPage(w, width)
	name := "set aside for a second look"
	if v.taxon != nil {
		name = Named(v.taxon)
	}
	p.text(0, 4, "Sample %s, %d x %s: %s", sample, n, name, v.Class)
	p.text(4, 4, "by %s", strings.Join(v.Path, " "))
	return p.err
}
