//go:build !js

package show

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"rillkey/key"
	"rillkey/key/trial"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Trial is a trial of a key by one method or several, on the same animals.
type Trial struct {
	Key       string   `json:"key"`
	EndPoints int      `json:"end_points"`
	Specimens int      `json:"specimens"`
	Seed      uint64   `json:"seed"`
	Misread   *float64 `json:"misread"` // null where it differs by trait
	Answers   bool     `json:"wrong_answers"`
	Flat      bool     `json:"flat"`
	EachKind  bool     `json:"each_kind"`
	Unsure    float64  `json:"unsure"`
	Sure      float64  `json:"sure"`
	NoLens    bool     `json:"no_lens"`
	People    string   `json:"people"` // careful, usual or hard; empty where all is as the table has it
	// Bound is the least mean number of questions that could make certain; see
	// [trial.LowerBound].
	Bound   float64          `json:"question_bound"`
	Methods []*trial.Results `json:"methods"`

	catalog *taxa.Catalog
	asks    map[string]string // couplet ids to what they ask
}

// NewTrial describes a trial before it was run. A rate below zero differs by
// trait.
func NewTrial(k *key.Key, s trial.Setup, people string, rate float64) *Trial {
	t := &Trial{
		Key: k.ID(), EndPoints: len(k.Ends()), Specimens: s.Specimens, Seed: s.Seed, Answers: s.Answers, Flat: s.Flat, EachKind: s.EachKind,
		People: people, Bound: round(trial.LowerBound(s)), Unsure: max(s.Unsure, s.Hardship.Unsure),
		Sure: s.Options.Required, NoLens: s.Options.NoLens, Methods: []*trial.Results{},
		catalog: k.Catalog(), asks: map[string]string{},
	}
	if rate >= 0 {
		t.Misread = &rate
	}
	for _, c := range k.Couplets() {
		t.asks[c.ID] = c.Ask
	}
	return t
}

// Add adds what came of a method.
func (t *Trial) Add(r *trial.Results) {
	r.NeverNamed = append([]string{}, r.NeverNamed...)
	r.Strangers.Named = append([]trial.Pair{}, r.Strangers.Named...)
	r.Losses = append([]trial.QuestionLoss{}, r.Losses...)
	r.Confused, r.Unsettled = append([]trial.Pair{}, r.Confused...), append([]trial.Pair{}, r.Unsettled...)
	t.Methods = append(t.Methods, r)
}

// measures are the rows of the table.
func (t *Trial) measures() []measure {
	share := func(of func(*trial.Results) trial.Accuracy) func(*trial.Results) string {
		return func(r *trial.Results) string { c := of(r); return ofAll(c.Share(), c.Given > 0) }
	}
	all := func(of func(*trial.Results) int) func(*trial.Results) string {
		return func(r *trial.Results) string { return ofAll(part(of(r), r.Specimens), r.Specimens > 0) }
	}
	out := []measure{
		{wording.Mark("named to the end point"), all(func(r *trial.Results) int { return r.Family.Given })},
		{wording.Mark("  right, of those named"), share(func(r *trial.Results) trial.Accuracy { return r.Family })},
		{wording.Mark("  right, of all animals"), all(func(r *trial.Results) int { return r.Family.Right })},
		{wording.Mark("  probability told, mean"), func(r *trial.Results) string { return ofAll(r.Claimed, r.Family.Given > 0) }},
		{wording.Mark("named at all"), all(func(r *trial.Results) int { return r.Order.Given })},
		{wording.Mark("  in the right order"), share(func(r *trial.Results) trial.Accuracy { return r.Order })},
		{wording.Mark("given a class"), all(func(r *trial.Results) int { return r.Class.Given })},
		{wording.Mark("  right, of those given"), share(func(r *trial.Results) trial.Accuracy { return r.Class })},
		{wording.Mark("  right, of all animals"), all(func(r *trial.Results) int { return r.Class.Right })},
		{wording.Mark("set aside"), all(func(r *trial.Results) int { return r.Declined })},
		{wording.Mark("questions, mean"), func(r *trial.Results) string { return fmt.Sprintf("%.1f", r.MeanQuestions) }},
		{wording.Mark("  95 of 100 take at most"), func(r *trial.Results) string { return fmt.Sprint(r.P95Questions) }},
		{wording.Sprintf("  to be certain at least %.1f", t.Bound), func(*trial.Results) string { return "" }},
		{wording.Mark("calibration error"), func(r *trial.Results) string { return fmt.Sprintf("%.3f", r.ECE) }},
		{wording.Mark("misread answer named first"), share(func(r *trial.Results) trial.Accuracy { return r.OneHarmful })},
		{wording.Mark("  of walks with one"), func(r *trial.Results) string { return fmt.Sprint(r.OneHarmful.Given) }},
		{wording.Mark("true answer called misread"), all(func(r *trial.Results) int { return r.Accused })},
		{wording.Mark("kinds never named"), func(r *trial.Results) string { return fmt.Sprint(len(r.NeverNamed)) }},
	}
	if slices.ContainsFunc(t.Methods, func(r *trial.Results) bool { return r.Strangers.Animals > 0 }) {
		out = append(out, strangerMeasures...)
	}
	return out
}

// strangerMeasures are the rows about animals that the key does not lead to.
var strangerMeasures = []measure{
	{wording.Mark("animals not in the key"), func(r *trial.Results) string { return fmt.Sprint(r.Strangers.Animals) }},
	{wording.Mark("  named to an end point"), ofStrangers(func(s trial.Strangers) int { return s.WrongEnd })},
	{wording.Mark("    hardly to be told apart"), ofStrangers(func(s trial.Strangers) int { return s.Twin })},
	{wording.Mark("    of the catalog's"), func(r *trial.Results) string {
		s := r.Strangers
		return ofAll(part(s.WrongEnd-s.WrongChimeras, s.Animals-s.Chimeras), s.Animals > s.Chimeras)
	}},
	{wording.Mark("  to a group, wrongly"), ofStrangers(func(s trial.Strangers) int { return s.WrongGroup })},
	{wording.Mark("  to a group, rightly"), ofStrangers(func(s trial.Strangers) int { return s.RightGroup })},
	{wording.Mark("  given a wrong class"), ofStrangers(func(s trial.Strangers) int { return s.WrongClass })},
}

func ofStrangers(of func(trial.Strangers) int) func(*trial.Results) string {
	return func(r *trial.Results) string {
		return ofAll(part(of(r.Strangers), r.Strangers.Animals), r.Strangers.Animals > 0)
	}
}

// measure is a row of the table.
type measure struct {
	label string
	cell  func(*trial.Results) string
}

func part(n, of int) float64 { return float64(n) / float64(of) }

func ofAll(share float64, known bool) string {
	if !known {
		return "-"
	}
	return fmt.Sprintf("%.1f %%", 100*share)
}

// Text writes the trial for a person.
func (t *Trial) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	p.text(0, 2, "%s of %d end points, seed %d; %s.", plain.Count(t.Specimens, "animal"), t.EndPoints, t.Seed, t.people())
	p.line("")
	if p.width >= narrow {
		t.table(p)
	} else {
		t.lists(p)
	}
	for _, r := range t.Methods {
		t.reliability(p, r)
	}
	for _, r := range t.Methods {
		t.blame(p, r)
	}
	return p.err
}

func (t *Trial) people() string {
	rate := wording.Text("traits misread at the rates given by trait")
	if t.Misread != nil {
		rate = wording.Sprintf("every trait misread %.0f times in 100", 100**t.Misread)
	}
	if t.People != "" {
		rate = wording.Sprintf("%s people, %s", t.People, rate)
	}
	if t.Answers {
		rate += wording.Text(", each time with another answer")
	}
	if t.Flat {
		rate += wording.Text("; all kinds equally common")
	}
	if t.EachKind {
		rate += wording.Text("; every kind met equally often, which the program does not know")
	}
	if t.NoLens {
		rate += wording.Text("; without a lens")
	}
	return rate
}

func (t *Trial) table(p *page) {
	line := fmt.Sprintf("  %-28s", "")
	for _, r := range t.Methods {
		line += fmt.Sprintf("%12s", r.Method)
	}
	p.line(line)
	for _, m := range t.measures() {
		line := fmt.Sprintf("  %-28s", wording.Text(m.label))
		for _, r := range t.Methods {
			line += fmt.Sprintf("%12s", m.cell(r))
		}
		p.line(line)
	}
}

// lists is the table one method after the other, for narrow pages.
func (t *Trial) lists(p *page) {
	for _, r := range t.Methods {
		p.text(0, 2, "%s:", r.Method)
		for _, m := range t.measures() {
			p.text(2, 4, "%s: %s", strings.TrimSpace(wording.Text(m.label)), m.cell(r))
		}
	}
}

// reliability says how often names of some probability were right.
func (t *Trial) reliability(p *page, r *trial.Results) {
	p.line("")
	p.text(0, 2, "How far to trust the probability, %s:", r.Method)
	for _, b := range r.Calibration {
		if b.Walks > 0 {
			p.text(2, 4, "said %.1f to %.1f, %.2f on average: right %.2f (%s)", b.Lowest, b.Lowest+0.1, b.Claimed, b.Right,
				plain.Count(b.Walks, "animal"))
		}
	}
}

// mostBlamed is how many questions or pairs are named.
const mostBlamed = 5

func (t *Trial) blame(p *page, r *trial.Results) {
	if len(r.Losses)+len(r.Confused)+len(r.Unsettled)+len(r.NeverNamed)+len(r.Strangers.Named) == 0 {
		return
	}
	p.line("")
	p.text(0, 2, "Where animals are lost, %s:", r.Method)
	for _, l := range r.Losses[:min(mostBlamed, len(r.Losses))] {
		p.text(2, 4, "misread at %s: %s", t.question(l.Question), plain.Count(l.Animals, "animal"))
	}
	for _, c := range r.Confused[:min(mostBlamed, len(r.Confused))] {
		p.text(2, 4, "%s named %s: %s", t.name(c.A), t.name(c.B), plain.Count(c.Animals, "animal"))
	}
	for _, c := range r.Strangers.Named[:min(mostBlamed, len(r.Strangers.Named))] {
		p.text(2, 4, "%s, not in the key, named %s: %s", t.name(c.A), t.name(c.B), plain.Count(c.Animals, "animal"))
	}
	for _, id := range r.NeverNamed[:min(mostBlamed, len(r.NeverNamed))] {
		p.text(2, 4, "never named: %s", t.name(id))
	}
	for _, c := range r.Unsettled[:min(mostBlamed, len(r.Unsettled))] {
		p.text(2, 4, "left open between %s and %s: %s", t.name(c.A), t.name(c.B), plain.Count(c.Animals, "animal"))
	}
}

func (t *Trial) question(id string) string {
	if ask, ok := t.asks[id]; ok {
		return wording.Sprintf("couplet %s (%s)", id, ask)
	}
	return id
}

// name is that of a taxon; the empty id is what no catalog holds.
func (t *Trial) name(id string) string {
	if id == "" {
		return wording.Text("something in no catalog")
	}
	return t.catalog.Taxon(id).Name()
}
