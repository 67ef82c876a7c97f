package chart

import (
	"cmp"
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/diversity"
	"rillkey/scoring/scheme"
	"rillkey/scoring/series"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// FoundByGroup is what was found by group of the main scheme.
func FoundByGroup(g *scoring.Grade) Bars {
	out := Bars{Title: wording.Text("Animals by class"), Groups: []BarGroup{{}}}
	for i, c := range g.Found {
		out.Groups[0].Bars = append(out.Groups[0].Bars, Bar{Label: c.Label, Note: plain.Count(len(c.Kinds), "kind"), Count: c.Animals,
			Fill: fill(i, len(g.Found))})
	}
	return out
}

// mostGrouped are the kinds above which they are not shown under their groups,
// where the rarest of each would be summed up, but the most frequent of all.
const mostGrouped = 30

// FoundByKind is what was found by kind of the main scheme, most animals first, under
// the groups; many kinds in one list, each with its group.
func FoundByKind(g *scoring.Grade) Bars {
	out := Bars{Title: wording.Text("Animals by kind")}
	n := 0
	for i, c := range g.Found {
		if len(c.Kinds) == 0 {
			continue
		}
		group := BarGroup{Label: c.Label}
		for _, k := range c.Kinds {
			group.Bars = append(group.Bars, Bar{Label: k.Label, Count: k.Count, Fill: fill(i, len(g.Found))})
		}
		slices.SortStableFunc(group.Bars, func(a, b Bar) int { return cmp.Compare(b.Count, a.Count) })
		n += len(group.Bars)
		out.Groups = append(out.Groups, group)
	}
	if n > mostGrouped {
		return out.flat()
	}
	return out
}

// flat is all bars in one list, the longest first, each with its group as note.
func (b Bars) flat() Bars {
	var all BarGroup
	for _, g := range b.Groups {
		for _, r := range g.Bars {
			r.Note = g.Label
			all.Bars = append(all.Bars, r)
		}
	}
	slices.SortStableFunc(all.Bars, func(a, b Bar) int { return cmp.Compare(b.Count, a.Count) })
	return Bars{Title: b.Title, Counted: b.Counted, Groups: []BarGroup{all}}
}

// fill tells groups apart, in their order.
func fill(i, n int) BarFill {
	if n <= 3 {
		return []BarFill{Solid, Striped, OpenBar}[i]
	}
	return BarFill(i * 4 / n)
}

// Chances is how likely each rating of an index is, because of the names and
// because of the samples, each by itself. It reports false where no rating may be
// spoken of.
func Chances(i *scoring.Index, s *scheme.Scheme) (RatingChances, bool) {
	zones := s.Zones()
	if len(zones) == 0 || i.Identification == nil || len(i.Identification.Ratings) == 0 {
		return RatingChances{}, false
	}
	if !s.LowIsClean() {
		slices.Reverse(zones)
	}
	out := RatingChances{Title: wording.Sprintf("How likely each rating is by the %s", i.Title), Point: i.Rating}
	for _, z := range zones {
		out.Ratings = append(out.Ratings, z.Rating)
	}
	spreads := []*scoring.Spread{i.Identification, i.Sampling}
	if i.Sampling != nil && i.Sampling.Method == scoring.ClumpedMethod {
		spreads[1] = nil
	}
	none := slices.ContainsFunc(spreads, func(x *scoring.Spread) bool { return x != nil && x.None > 0 })
	if none {
		out.Ratings = append(out.Ratings, wording.Text("no value"))
	}
	for n, label := range []string{wording.Text("doubtful names"), wording.Text("other samples")} {
		if x := spreads[n]; x != nil {
			out.Reasons = append(out.Reasons, Uncertainty{label, chances(x, out.Ratings, none)})
		}
	}
	return out, true
}

func chances(x *scoring.Spread, ratings []string, none bool) []float64 {
	out := make([]float64, len(ratings))
	for _, c := range x.Ratings {
		if i := slices.Index(ratings, c.Rating); i >= 0 {
			out[i] = c.Chance
		}
	}
	if none {
		out[len(out)-1] = x.None
	}
	return out
}

// mostSteps bounds the steps of a curve.
const mostSteps = 60

// Accumulated is how many kinds samples hold, up to the samples that the method
// asks for, or to twice those taken where it asks for no more. It reports false
// for fewer than two samples, from which no curve can be drawn.
func Accumulated(x diversity.Incidence, wanted int) (Gathered, bool) {
	out := Gathered{Title: wording.Text("Kinds found against samples taken")}
	if x.Samples < 2 || x.Found() == 0 {
		return out, false
	}
	far := wanted
	if far <= x.Samples {
		far = 2 * x.Samples
	}
	out.Taken, out.Ahead = steps(x, 1, x.Samples), steps(x, x.Samples+1, far)
	return out, true
}

// steps are those from one number of samples to another, both among them.
func steps(x diversity.Incidence, from, to int) (out []Step) {
	for t := from; t <= to; t++ {
		if !isPicked(t-from, to-from+1, mostSteps) {
			continue
		}
		if e, ok := x.Expected(t); ok {
			out = append(out, Step{t, e.Kinds, e.Low, e.High})
		}
	}
	return out
}

// deviations are how many standard deviations hold 95 % of a normal curve.
const deviations = 1.96

// History is a place over time: its visits in rows, except those set aside. The
// visit with the id of this is marked.
func History(rows []series.Row, s *scheme.Scheme, this string) OverTime {
	out := OverTime{Title: wording.Text("This site over time")}
	for _, z := range s.Zones() {
		out.Zones = append(out.Zones, RatingZone{z.Rating, z.Lowest})
	}
	out.Index = s.Title
	for _, r := range rows {
		if r.Aside != "" {
			continue
		}
		v := VisitPoint{Date: r.Visit.Date, Value: r.Value, Rating: r.Rating, This: this != "" && r.Visit.ID == this}
		switch {
		case len(r.RatingRange) > 0:
			v.Rating = wording.Sprintf("between %s", strings.Join(r.RatingRange, wording.Text(" and ")))
		case r.RatingProvisional && !r.Withheld:
			v.Rating = wording.Sprintf("%s, provisional", r.Rating)
		case r.Withheld: // beside the zones of the ratings a value would be a word
			v.Value, v.Rating = nil, r.Reason
		}
		switch {
		case v.Value == nil:
		case r.NamesRange != nil:
			v.Names = Bounds{r.NamesRange[0], r.NamesRange[1]}
		case r.Names != nil: // as it was kept before there was a range
			v.Names = plusMinus(*v.Value, deviations**r.Names)
		}
		if v.Value != nil && r.Reach != nil {
			v.Samples = plusMinus(*v.Value, *r.Reach)
		}
		out.Visit = append(out.Visit, v)
	}
	return out
}
