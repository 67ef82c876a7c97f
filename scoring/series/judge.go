package series

import (
	"slices"
	"time"

	"rillkey/scoring"
)

// Hypothesis is one question asked of a site's visits.
type Hypothesis struct {
	Figure   string         `json:"figure"`          // title of what was judged
	Asked    HypothesisKind `json:"asked"`           // which question
	FirstDay string         `json:"since,omitempty"` // date of the first visit after a step
	Later    int            `json:"later,omitempty"` // visits from there on, and
	Earlier  int            `json:"earlier"`         // those before at the same time of year with the same effort; of a trend, all
	Before   float64        `json:"before"`          // mean of the earlier visits, per cent of a share
	After    float64        `json:"after"`           // and of the later; of a trend the change in a year
	P        float64        `json:"p"`               // corrected for all that was asked of this site
	Shown    bool           `json:"shown"`           // P is small enough among all sites

	raw, weight float64
	error       float64 // standard error of a step, with so many degrees of freedom
	freedom     int
	water       string // of a step that is shown, a sentence on what else differed; empty for nothing
	figure      *figure
}

// HypothesisKind is a kind of question.
type HypothesisKind string

// The questions.
const (
	StepChange HypothesisKind = "step"  // are the last visits unlike those before them?
	Rise       HypothesisKind = "trend" // does the figure rise or fall from year to year?
)

// figure is a number of each visit that is followed over the years.
type figure struct {
	title       string
	share       bool // the logit of a share
	steps, rise float64
	prior       func(sampling float64) prior
	value       func(r *Row) (value, sampling float64, ok bool)
}

// usualShare is how the logit of a share varies between visits, for sites that
// have shown little of it themselves (memory; it is worth four visits).
func usualShare(float64) prior { return prior{freedom: 4, variance: 0.25} }

// asSampled takes for granted that a figure varies between visits as much as
// between samples. Without it four equal values would make of the next one that
// differs a wonder.
func asSampled(sampling float64) prior {
	if sampling == 0 {
		return prior{}
	}
	return prior{freedom: 2, variance: sampling}
}

// followed is what is judged. How much of the false alarms each question may cause
// is decided beforehand: most for the share, whose steps are seen soonest.
func followed(newest *Row, rules *scoring.Rules) []*figure {
	losesKinds := losesKinds(rules, newest)
	main := &figure{title: newest.Title, steps: 0.5, rise: 0.5, prior: asSampled, value: func(r *Row) (float64, float64, bool) {
		if losesKinds && r.InPart {
			return 0, 0, false // kinds in the rest are missing
		}
		return *r.Value, square(r.Samples), true
	}}
	if newest.Watched == nil {
		return []*figure{main}
	}
	main.steps, main.rise = 0.2, 0.15
	share := &figure{title: newest.Watched.Title, share: true, steps: 0.5, rise: 0.15, prior: usualShare,
		value: func(r *Row) (float64, float64, bool) {
			if r.Watched == nil {
				return 0, 0, false
			}
			return r.Watched.Logit(), square(r.Watched.Samples), true
		}}
	return []*figure{share, main}
}

func square(sd *float64) float64 {
	if sd == nil {
		return 0
	}
	return *sd * *sd
}

// mostJudged is how many of the latest visits to a place are judged: the work grows
// with the square of their number.
const mostJudged = 100

// observe takes the figure from the visits that are comparable with the newest,
// the latest mostJudged, in order of time.
func (f *figure) observe(rows []Row, newest *Row) (out []observed) {
	for i := range rows {
		r := &rows[i]
		if !r.Comparable() || r.Aside != "" || r.Protocol != newest.Protocol || r.Taken != newest.Taken {
			continue
		}
		day, err := time.Parse(time.DateOnly, r.Visit.Date)
		value, sampling, ok := f.value(r)
		if err != nil || !ok {
			continue
		}
		season, year := seasonOf(day)
		out = append(out, observed{i, season, year, float64(day.YearDay()), value, f.told(r, value), sampling})
	}
	return out[max(0, len(out)-mostJudged):]
}

// stepTests asks of each of the last visits whether a step lies before it. The
// weight halves from one to the next: what happened last matters most.
func (f *figure) stepTests(all []observed, rows []Row) (out []Hypothesis) {
	all = atTheTimeOfTheLast(all)
	weight, sum := f.steps, 0.0
	for _, s := range steps(all, f.prior) {
		split := len(all) - s.later
		first := all[split]
		weight /= 2
		sum += weight
		out = append(out, Hypothesis{Figure: f.title, Asked: StepChange, FirstDay: rows[first.row].Visit.Date,
			Later: s.later, Earlier: split,
			Before: meanTold(all[:split]), After: meanTold(all[split:]), raw: s.p, weight: weight,
			error: s.error, freedom: s.freedom, figure: f})
	}
	for i := range out {
		out[i].weight *= f.steps / sum
	}
	return out
}

// told is a visit's figure as people read it and can work it out: of a share per cent of
// the animals, not the logit that is tested.
func (f *figure) told(r *Row, value float64) float64 {
	if f.share {
		return 100 * float64(r.Watched.Meant) / float64(r.Watched.Counted)
	}
	return value
}

func meanTold(all []observed) (m float64) {
	for _, o := range all {
		m += o.told / float64(len(all))
	}
	return m
}

// bySeason parts visits by the season they were made in.
func bySeason(all []observed) [][]observed {
	out := make([][]observed, winter+1)
	for _, o := range all {
		out[o.season] = append(out[o.season], o)
	}
	return out
}

// trend tests the figure over the years, by season. The part of the variance that
// sampling does not explain is that about the steady slope.
func (f *figure) trend(seasons [][]observed) (t Trend, ok bool) {
	var all [][]point
	for _, s := range seasons {
		var points []point
		for _, o := range s {
			points = append(points, point{float64(o.year), o.value})
		}
		all = append(all, points)
	}
	if t, ok = seasonal(all, 0); !ok {
		return t, false
	}
	return seasonal(all, f.notSampling(seasons, t.Sen))
}

// notSampling is the part of the variance about a steady slope that sampling does
// not explain.
func (f *figure) notSampling(seasons [][]observed, slope float64) float64 {
	own, sampling, visits, freedom := 0.0, 0.0, 0.0, 0.0
	for _, s := range seasons {
		rest := slices.Clone(s)
		for i := range rest {
			rest[i].value -= slope * float64(rest[i].year)
		}
		m := mean(rest)
		for _, o := range rest {
			own += (o.value - m) * (o.value - m)
			sampling += o.sampling
		}
		visits += float64(len(s))
		freedom += max(0, float64(len(s)-1))
	}
	sampling /= max(1, visits)
	by := f.prior(sampling)
	return notSampling(by.pool(own, freedom), sampling)
}

// least is the least of the chances of all that is asked of the visits of one place; ok is
// false where nothing is. What else came of it is asked anew once it is known what is shown
// among all places: to keep it of ten thousand of them would take more room than their visits.
func least(p Site, rows []Row, rules *scoring.Rules) (chance float64, ok bool) {
	p.test(rows, rules)
	chance = 1
	for _, t := range p.Tests {
		chance = min(chance, t.P)
	}
	return chance, len(p.Tests) > 0
}

// test asks everything of the visits of one place, corrects the chances for being
// several, and gives the newest visit; nil where none can be compared.
func (p *Site) test(rows []Row, rules *scoring.Rules) (newest *Row) {
	p.Visits, p.Tests = 0, []Hypothesis{}
	for i := range rows {
		if r := &rows[i]; r.Comparable() && r.Aside == "" {
			newest = r
			p.Visits++
		}
	}
	if newest != nil {
		for _, f := range followed(newest, rules) {
			p.ask(f, f.observe(rows, newest), rows)
		}
		p.correct()
	}
	return newest
}

// judge is all that the visits of one place say, where chances up to the level are shown.
func (p *Site) judge(rows []Row, rules *scoring.Rules, level float64) {
	newest := p.test(rows, rules)
	if newest == nil {
		return
	}
	p.Tests = slices.Clone(p.Tests) // without room for more: a table keeps those of many sites
	for i := range p.Tests {
		t := &p.Tests[i]
		if t.Shown = t.P <= level; t.Shown && t.Asked == StepChange {
			t.water = otherWater(unlikeUsual(atTheTimeOfTheLast(t.figure.observe(rows, newest)), t.Later, rows))
		}
	}
	for _, f := range followed(newest, rules) {
		if !f.share {
			p.Usual = usual(f.observe(rows, newest), rows, rules.Scheme(newest.Scheme))
		}
	}
}

// ask asks everything of one figure.
func (p *Site) ask(f *figure, all []observed, rows []Row) {
	p.Tests = append(p.Tests, f.stepTests(all, rows)...)
	seasons := bySeason(all)
	if p.drifts = drifts(seasons); p.drifts {
		return
	}
	t, ok := f.trend(seasons)
	if !ok {
		return
	}
	if !f.share {
		p.Trend = &t
	}
	p.Tests = append(p.Tests, Hypothesis{Figure: f.title, Asked: Rise, Earlier: t.Points, After: t.Sen,
		raw: t.P, weight: f.rise, figure: f})
}

func (p *Site) correct() {
	chances, weights := make([]float64, len(p.Tests)), make([]float64, len(p.Tests))
	for i, t := range p.Tests {
		chances[i], weights[i] = t.raw, t.weight
	}
	for i, c := range holm(chances, weights) {
		t := &p.Tests[i]
		if t.P = c; t.Asked == Rise && !t.figure.share {
			p.Trend.PCorrected = c
		}
	}
}

// shown gives the level of each place at which chances are shown among all of them, by the
// least chances of those that were asked anything, and how many these are.
func shown(leasts []float64, asked []bool) (level []float64, judged int) {
	var of []int
	var all []float64
	for i, p := range leasts {
		if asked[i] {
			of, all = append(of, i), append(all, p)
		}
	}
	level = make([]float64, len(leasts))
	for n, l := range levels(all) {
		level[of[n]] = l
	}
	return level, len(of)
}

// brief is the place with only those tests that are shown.
func (p *Site) brief() {
	kept := []Hypothesis{}
	for _, t := range p.Tests {
		if t.Shown {
			kept = append(kept, t)
		}
	}
	p.Tests = kept
}
