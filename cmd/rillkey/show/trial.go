package show

import (
	"fmt"
	"io"
	"math"
	"strings"

	"rillkey/key"
	"rillkey/key/trial"
	"rillkey/taxa"
	"rillkey/taxa/plain"
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
	Unsure    float64  `json:"unsure"`
	Sure      float64  `json:"sure"`
	NoLens    bool     `json:"no_lens"`
	// Bound is log2 of the end points divided by one less the entropy of a
	// misread: the least mean of questions with two answers of which each is wrong
	// at that rate (the capacity of a symmetric binary channel, Shannon 1948).
	// Questions with more answers, and misreads that change none, stay below it.
	// Null where the rate differs by trait.
	Bound   *float64        `json:"binary_bound"`
	Methods []*trial.Report `json:"methods"`

	catalog *taxa.Catalog
	asks    map[string]string // couplet ids to what they ask
}

// NewTrial describes a trial before it was run. A rate below zero differs by
// trait.
func NewTrial(k *key.Key, s trial.Setup, rate float64) *Trial {
	t := &Trial{
		Key: k.ID(), EndPoints: len(k.Ends()), Specimens: s.Specimens, Seed: s.Seed, Answers: s.Answers, Flat: s.Flat,
		Unsure: s.Unsure, Sure: s.Options.Required, NoLens: s.Options.NoLens, Methods: []*trial.Report{},
		catalog: k.Catalog(), asks: map[string]string{},
	}
	if rate >= 0 {
		t.Misread = &rate
		if h := entropy(rate); h < 1 {
			bound := round(math.Log2(float64(t.EndPoints)) / (1 - h))
			t.Bound = &bound
		}
	}
	for _, c := range k.Couplets() {
		t.asks[c.ID] = c.Ask
	}
	return t
}

// entropy is that of an event of this probability, in bits.
func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}

// Add adds what came of a method.
func (t *Trial) Add(r *trial.Report) {
	r.Losses = append([]trial.Loss{}, r.Losses...)
	r.Confused, r.Unsettled = append([]trial.Pair{}, r.Confused...), append([]trial.Pair{}, r.Unsettled...)
	t.Methods = append(t.Methods, r)
}

// measures are the rows of the table.
func (t *Trial) measures() []measure {
	share := func(of func(*trial.Report) trial.Count) func(*trial.Report) string {
		return func(r *trial.Report) string { c := of(r); return ofAll(c.Share(), c.Given > 0) }
	}
	out := []measure{
		{"named to the end point", func(r *trial.Report) string { return ofAll(part(r.Family.Given, r.Specimens), true) }},
		{"  right of these", share(func(r *trial.Report) trial.Count { return r.Family })},
		{"named at all", func(r *trial.Report) string { return ofAll(part(r.Order.Given, r.Specimens), true) }},
		{"  in the right order", share(func(r *trial.Report) trial.Count { return r.Order })},
		{"given a class", func(r *trial.Report) string { return ofAll(part(r.Class.Given, r.Specimens), true) }},
		{"  right of these", share(func(r *trial.Report) trial.Count { return r.Class })},
		{"set aside", func(r *trial.Report) string { return ofAll(part(r.Declined, r.Specimens), true) }},
		{"questions, mean", func(r *trial.Report) string { return fmt.Sprintf("%.1f", r.MeanQuestions) }},
		{"  95 of 100 take at most", func(r *trial.Report) string { return fmt.Sprint(r.P95Questions) }},
	}
	if t.Bound != nil {
		out = append(out, measure{fmt.Sprintf("  over log2(N)/(1-H) = %.1f", *t.Bound),
			func(r *trial.Report) string { return fmt.Sprintf("%.2f", r.MeanQuestions / *t.Bound) }})
	}
	return append(out,
		measure{"calibration error", func(r *trial.Report) string { return fmt.Sprintf("%.3f", r.ECE) }},
		measure{"misread answer named first", share(func(r *trial.Report) trial.Count { return r.OneHarmful })},
		measure{"  of walks with one", func(r *trial.Report) string { return fmt.Sprint(r.OneHarmful.Given) }},
	)
}

// measure is a row of the table.
type measure struct {
	label string
	of    func(*trial.Report) string
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
	rate := "traits misread at the rates given by trait"
	if t.Misread != nil {
		rate = fmt.Sprintf("every trait misread %.0f times in 100", 100**t.Misread)
	}
	if t.Answers {
		rate += ", each time with another answer"
	}
	if t.Flat {
		rate += "; all kinds equally common"
	}
	if t.NoLens {
		rate += "; without a lens"
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
		line := fmt.Sprintf("  %-28s", m.label)
		for _, r := range t.Methods {
			line += fmt.Sprintf("%12s", m.of(r))
		}
		p.line(line)
	}
}

// lists is the table one method after the other, for narrow pages.
func (t *Trial) lists(p *page) {
	for _, r := range t.Methods {
		p.text(0, 2, "%s:", r.Method)
		for _, m := range t.measures() {
			p.text(2, 4, "%s: %s", strings.TrimSpace(m.label), m.of(r))
		}
	}
}

// reliability says how often names of some probability were right.
func (t *Trial) reliability(p *page, r *trial.Report) {
	p.line("")
	p.text(0, 2, "How far to trust the probability, %s:", r.Method)
	for _, b := range r.Calibration {
		if b.Walks > 0 {
			p.text(2, 4, "said %.1f to %.1f, %.2f on average: right %.2f (%s)", b.From, b.From+0.1, b.Claimed, b.Right,
				plain.Count(b.Walks, "animal"))
		}
	}
}

// mostBlamed is how many questions or pairs are named.
const mostBlamed = 5

func (t *Trial) blame(p *page, r *trial.Report) {
	if len(r.Losses)+len(r.Confused)+len(r.Unsettled) == 0 {
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
	for _, c := range r.Unsettled[:min(mostBlamed, len(r.Unsettled))] {
		p.text(2, 4, "left open between %s and %s: %s", t.name(c.A), t.name(c.B), plain.Count(c.Animals, "animal"))
	}
}

func (t *Trial) question(id string) string {
	if ask, ok := t.asks[id]; ok {
		return "couplet " + id + " (" + ask + ")"
	}
	return id
}

func (t *Trial) name(id string) string { return t.catalog.Taxon(id).Name() }
