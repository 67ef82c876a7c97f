//go:build !js

package show

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"rillkey/key/practice"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Practised is where one person stands after practice.
type Practised struct {
	Person   string             `json:"person"`
	Animals  int                `json:"animals"`
	Sittings int                `json:"sittings"`
	Tested   int                `json:"tested"` // animals in tests
	First    string             `json:"first"`  // day, as 2006-01-02; empty before the first animal
	Last     string             `json:"last"`
	Days     int                `json:"days"`           // on which animals were met
	Error    float64            `json:"expected_wrong"` // share of names in a tally, 0 to 1
	Kept     float64            `json:"kept"`           // share of a tally, 0 to 1; see [practice.Progress]
	Wanting  []string           `json:"not_kept"`       // names of kinds that are not kept and weigh most
	Real     int                `json:"real_animals"`
	Amiss    int                `json:"real_misnamed"` // among the last that count
	Ready    practice.Ready     `json:"ready"`
	Lines    practice.Readiness `json:"ready_lines"` // by which that was said
	Tried    []practice.Tried   `json:"tried"`
	Misreads []string           `json:"misreads"` // the worst first
	Mixed    []string           `json:"mixed"`
	Tests    []PractisedTest    `json:"tests"` // in the order taken
}

// PractisedTest is a test, of which nothing is told but how many animals were named
// rightly, and that only once it is finished.
type PractisedTest struct {
	Number   int               `json:"number"`
	Date     string            `json:"date"` // as 2006-01-02
	Kind     practice.TestKind `json:"kind"`
	Animals  int               `json:"animals"`
	Met      int               `json:"met"`
	Finished bool              `json:"finished"`
	Right    *int              `json:"right,omitempty"`  // to their kind; nil before it is finished
	AsGroup  *int              `json:"within,omitempty"` // as far as a group that holds it
	Words    string            `json:"-"`
}

// NewPractised describes where somebody stands.
func NewPractised(catalog *taxa.Catalog, s practice.Progress) *Practised {
	p := &Practised{Person: plain.OneLine(s.Person), Animals: s.Animals, Sittings: s.Sittings, Tested: s.Tested, First: dayOf(s.First),
		Last: dayOf(s.Last), Days: s.Days, Error: round(s.Error), Kept: round(s.Kept), Wanting: []string{}, Real: s.Real,
		Amiss: s.RealWrong, Ready: s.Ready, Lines: s.Lines, Tried: append([]practice.Tried{}, s.Tried...), Misreads: []string{},
		Tests: []PractisedTest{}, Mixed: mixedWords(catalog, s.Mixed, false)}
	for _, id := range s.Wanting {
		p.Wanting = append(p.Wanting, plain.OneLine(catalog.Taxon(id).Name()))
	}
	for _, m := range s.Misreads {
		t := catalog.Vocabulary().Trait(m.Trait)
		p.Misreads = append(p.Misreads, plain.OneLine(
			wording.Sprintf("%s \"%s\" is taken for \"%s\"", t.Question, t.States[t.State(m.Is)].Label,
				t.States[t.State(m.TakenFor)].Label)))
	}
	for _, t := range s.Tests {
		one := PractisedTest{Number: t.Number, Date: dayOf(t.Began), Kind: t.Kind, Animals: t.Animals, Met: t.Met, Finished: t.Finished(),
			Words: TestedWords(t)}
		if one.Finished {
			one.Right, one.AsGroup = &t.Right, &t.AsGroup
		}
		p.Tests = append(p.Tests, one)
	}
	return p
}

// Line is the test as a point of a list: its number, day and what came of it.
func (t PractisedTest) Line() string {
	return wording.Sprintf("Test %d, %s, %s: %s", t.Number, t.Date, TestKindWords(t.Kind), t.Words)
}

func dayOf(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}

// mixedWords are kinds that were mixed up, as "golden stonefly called striped stonefly".
func mixedWords(catalog *taxa.Catalog, all []practice.MixedUp, people bool) []string {
	out := []string{}
	for _, m := range all {
		a, b := catalog.Taxon(m.Kind), catalog.Taxon(m.TakenFor)
		if a == nil || b == nil {
			continue
		}
		words := wording.Sprintf("%s called %s, %s", a.Name(), b.Name(), plain.CountOf(m.Times, "time", "times"))
		if people {
			words += wording.Sprintf(", by %s", plain.CountOf(m.People, "person", "people"))
		}
		out = append(out, plain.OneLine(words))
	}
	return out
}

// ReadyWords says what somebody is ready for, as far as practice tells.
func ReadyWords(r practice.Ready) string {
	switch r {
	case practice.ReadyAlone:
		return wording.Text("ready to name alone")
	case practice.ReadyByTwos:
		return wording.Text("ready to name by twos")
	case practice.ReadyNotYet:
		return wording.Text("not ready yet; practise on")
	}
	return wording.Text("too few animals to say")
}

// ReadyMeans says what it means to be ready for that; empty where nothing can be said.
func ReadyMeans(r practice.Ready) string {
	switch r {
	case practice.ReadyAlone:
		return wording.Text("Alone: what they name is taken down as they name it; doubtful animals are looked at twice all the same.")
	case practice.ReadyByTwos:
		return wording.Text("By twos: a second person names each animal too, without hearing the first name; where the two names " +
			"differ, both look again.")
	case practice.ReadyNotYet:
		return wording.Text("Not yet: they net, sort and count with the others, and somebody who is ready names.")
	}
	return ""
}

// saidFrom says from when on something is said of somebody.
func saidFrom(l practice.Readiness) string {
	return wording.Sprintf("Something is said from %s in sittings on; of who met fewer, from %s in tests on, since a test alone tells "+
		"little.", plain.Count(l.Sittings, "animal"), plain.Count(l.Tests, "animal"))
}

// ToNameAlone says what somebody must have done to name alone, beside few wrong names.
func ToNameAlone(l practice.Readiness) string {
	parts := []string{wording.Sprintf("practice on %s", plain.Count(l.Days, "day"))}
	if l.Kept > 0 {
		parts = append(parts, wording.Sprintf("kinds that make up %.0f of 100 animals of a tally, named rightly on two days and the last "+
			"time, from no list", 100*l.Kept))
	}
	if l.Real > 0 {
		parts = append(parts, wording.Sprintf("%s, of the last of which at most %d wrongly named",
			plain.CountOf(l.Real, "real animal", "real animals"), l.MostRealWrong()))
	}
	return strings.Join(parts, "; ")
}

// Wanted says what is still wanted until somebody names alone, each thing as a point;
// nothing of who does, or of whom nothing can be said.
func (p *Practised) Wanted() (out []string) {
	if p.Ready == practice.ReadyAlone || p.Ready == practice.ReadyTooFew {
		return nil
	}
	l := p.Lines
	if p.Days < l.DaysByTwos {
		out = append(out, wording.Sprintf("to name by twos, practice on %s; so far on %d", plain.Count(l.DaysByTwos, "day"), p.Days))
	}
	if p.Error > l.Alone {
		out = append(out, wording.Sprintf("at most %.0f wrong names in 100 expected; now about %.0f", 100*l.Alone, 100*p.Error))
	}
	if p.Days < l.Days {
		out = append(out, wording.Sprintf("practice on %d days; so far on %d", l.Days, p.Days))
	}
	if p.Kept < l.Kept {
		out = append(out, wording.Sprintf("kinds that make up %.0f of 100 animals of a tally, named rightly on two days and the last "+
			"time, from no list; so far %.0f of 100. Of those still open these weigh most: %s", 100*l.Kept, 100*p.Kept,
			strings.Join(p.Wanting, "; ")))
	}
	switch {
	case p.Real < l.Real:
		out = append(out, wording.Sprintf("%s, since drawings are easier; so far %d",
			plain.CountOf(l.Real, "real animal in a cup", "real animals in cups"), p.Real))
	case p.Amiss > l.MostRealWrong():
		out = append(out, wording.Sprintf("of the last %d real animals at most %d wrongly named; now %d", l.Real, l.MostRealWrong(),
			p.Amiss))
	}
	return out
}

// SourceWords says what animals were met as.
func SourceWords(f practice.Tried) string {
	return map[practice.SpecimenSource]string{practice.DrawingSource: wording.Text("drawings"),
		practice.WordsSource: wording.Text("descriptions"),
		practice.TraySource:  wording.Text("real animals")}[f.Source]
}

// TriedWords says what was done with animals of a source.
func TriedWords(f practice.Tried) string {
	words := wording.Sprintf("%s, %d named rightly", plain.Count(f.Animals, "animal"), f.Right)
	if f.Looked > 0 {
		words += wording.Sprintf("; %s, %d of them misread", plain.Count(f.Looked, "feature"), f.Wrong)
	}
	return words
}

// Met says how many animals somebody met, in sittings and in tests.
func (p *Practised) Met() string {
	words := wording.Sprintf("%s in %s on %s", plain.Count(p.Animals, "animal"), plain.Count(p.Sittings, "sitting"),
		plain.Count(p.Days, "day"))
	if n := len(p.Tests); n > 0 {
		words += wording.Sprintf(", %d in %s", p.Tested, plain.Count(n, "test"))
	}
	return words
}

// wrong says how many names of a tally would be wrong.
func (p *Practised) wrong() string {
	if p.Ready == practice.ReadyTooFew {
		return wording.Text("nothing can be said yet of how many names would be wrong")
	}
	return wording.Sprintf("about %.0f of 100 animals in a tally would get a wrong name", 100*p.Error)
}

// RestsOn says what it rests on that somebody is called ready, or not.
func (p *Practised) RestsOn() string {
	if p.Ready == practice.ReadyTooFew {
		return wording.Sprintf("So far %s.", p.Met()) + " " + saidFrom(p.Lines)
	}
	return wording.Sprintf("That rests on %s: as far as these tell, %s. Real animals are harder.", p.Met(), p.wrong())
}

// Text writes where somebody stands.
func (p *Practised) Text(w io.Writer, width int) error {
	out := newPage(w, width)
	out.text(0, 2, "%s: %s.", p.Person, ReadyWords(p.Ready))
	out.text(0, 2, "%s", p.RestsOn())
	if means := ReadyMeans(p.Ready); means != "" {
		out.text(0, 2, "%s", means)
	}
	pointsUnder(out, wording.Text("Still wanted to name alone"), p.Wanted())
	if len(p.Tried) > 0 {
		out.text(0, 0, "%s:", wording.Text("Sittings, in which each mistake is told"))
	}
	for _, f := range p.Tried {
		out.item(SourceWords(f), "%s", TriedWords(f))
	}
	var tests []string
	for _, t := range p.Tests {
		tests = append(tests, t.Line())
	}
	pointsUnder(out, wording.Text("Tests, in which nothing is told"), tests)
	pointsUnder(out, wording.Text("To look at"), p.Misreads)
	pointsUnder(out, wording.Text("Mixed up"), p.Mixed)
	return out.err
}

func pointsUnder(out *page, title string, points []string) {
	if len(points) > 0 {
		out.text(0, 0, "%s:", title)
	}
	for _, s := range points {
		out.text(2, 4, "%s", s)
	}
}

// PractisedGroup is where several people stand.
type PractisedGroup struct {
	People []Practised      `json:"people"` // the readiest first
	Traits []PractisedTrait `json:"features"`
	Mixed  []string         `json:"mixed"`
}

// PractisedTrait is a feature that a group misreads.
type PractisedTrait struct {
	Trait    string `json:"trait"`
	Question string `json:"question"`
	Looked   int    `json:"readings"`
	Wrong    int    `json:"misread"`
	People   int    `json:"people"` // who misread it
}

// NewPractisedGroup describes where a group stands.
func NewPractisedGroup(catalog *taxa.Catalog, g practice.GroupProgress) *PractisedGroup {
	out := &PractisedGroup{People: []Practised{}, Traits: []PractisedTrait{}, Mixed: mixedWords(catalog, g.Mixed, true)}
	for _, s := range g.People {
		out.People = append(out.People, *NewPractised(catalog, s))
	}
	for _, t := range g.Traits {
		if trait := catalog.Vocabulary().Trait(t.Trait); trait != nil {
			out.Traits = append(out.Traits, PractisedTrait{t.Trait, plain.OneLine(trait.Question), t.Looked, t.Wrong, t.People})
		}
	}
	return out
}

// Text writes where a group stands.
func (g *PractisedGroup) Text(w io.Writer, width int) error {
	out := newPage(w, width)
	for _, p := range g.People {
		out.item(p.Person, "%s; %s", ReadyWords(p.Ready), p.brief())
		for _, wanted := range p.Wanted() {
			out.text(4, 6, "%s", wording.Sprintf("Still wanted: %s.", wanted))
		}
	}
	for _, means := range g.Means() {
		out.text(0, 2, "%s", means)
	}
	var traits []string
	for _, t := range g.Traits {
		traits = append(traits, t.Words())
	}
	pointsUnder(out, wording.Text("Features that the group misreads"), traits)
	pointsUnder(out, wording.Text("Kinds that the group mixes up"), g.Mixed)
	out.text(0, 2, "%s", strings.Join(PractisedLimits(), " "))
	return out.err
}

// brief is what somebody's standing rests on.
func (p *Practised) brief() string {
	var parts []string
	for _, f := range p.Tried {
		parts = append(parts, fmt.Sprintf("%d %s", f.Animals, SourceWords(f)))
	}
	met := wording.Text("no sitting")
	if len(parts) > 0 {
		met = wording.Sprintf("%s in sittings", plain.And(parts))
	}
	if p.Tested > 0 {
		met += wording.Sprintf(", %s in tests", plain.Count(p.Tested, "animal"))
	}
	if p.Ready == practice.ReadyTooFew {
		return wording.Sprintf("so far %s", met)
	}
	return wording.Sprintf("%s; it rests on %s", p.wrong(), met)
}

// Means says what the people of the group are ready for, each thing once, and where the
// lines are drawn.
func (g *PractisedGroup) Means() (out []string) {
	for _, p := range g.People {
		if means := ReadyMeans(p.Ready); means != "" && !slices.Contains(out, means) {
			out = append(out, means)
		}
	}
	if len(g.People) > 0 {
		l := g.People[0].Lines
		out = append(out, wording.Sprintf("Ready by twos: up to %.0f wrong names in 100 expected, after practice on %s. Alone: up "+
			"to %.0f, and besides %s. A trainer's rule of thumb (%s).", 100*l.ByTwos, plain.Count(l.DaysByTwos, "day"),
			100*l.Alone, ToNameAlone(l), plain.OneLine(l.Source)), saidFrom(l))
	}
	return out
}

// Words says how often a feature was misread.
func (t PractisedTrait) Words() string {
	return wording.Sprintf("%s %d of %d misread, by %s", t.Question, t.Wrong, t.Looked, plain.CountOf(t.People, "person", "people"))
}

// PractisedLimits says what results of practice do not say.
func PractisedLimits() []string {
	return []string{
		wording.Text("Practice is no examination: nobody watched who answered."),
		wording.Text("Drawings are easier than animals, and live ones move, hide and are hurt."),
		wording.Text("Who misnames few animals in practice may still sort badly, and a grade rests on both."),
	}
}
