package show

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// uncertain writes the two kinds of uncertainty of an index, each by itself.
func uncertain(p *page, i *scoring.Index, names, samples *scoring.Spread) {
	for _, words := range Doubts(i, names, samples) {
		p.text(2, 4, "%s", words)
	}
}

// Doubts are the two kinds of uncertainty of an index in a sentence each, as far
// as they are known.
func Doubts(i *scoring.Index, names, samples *scoring.Spread) (out []string) {
	if names != nil {
		out = append(out, wording.Sprintf("Because of doubtful names: %s.", spread(names, always(i, names))))
	}
	if samples != nil {
		why := wording.Text("Because of which samples happened to be taken: ")
		if samples.Method == scoring.ClumpedMethod {
			why = wording.Text("Because of which sample happened to be taken, if the animals lie as clumped as is usual, which " +
				"one sample cannot say: ")
		}
		out = append(out, why+spread(samples, wording.Text("the value stays %s"))+".")
	}
	return out
}

// always says of a value that it is the only one, whatever doubtful names may be. The
// value found leaves out the animals without a close name, which are in the spread as
// far as anything was said of them, so that the two may differ; and what was drawn
// holds for the draws alone.
func always(i *scoring.Index, names *scoring.Spread) string {
	found := i.Value
	if found == nil && i.Provisional != nil {
		found = &i.Provisional.Value
	}
	switch {
	case i.Low != nil && *i.Low < *i.High:
		return wording.Text("the value would be %s by all that was said of the animals, and by what lives in the region")
	case found != nil && math.Abs(names.Low-*found) > 1e-9:
		return wording.Text("the value would be %s by all that was said of the animals")
	case names.Draws > 0, slices.ContainsFunc(i.LeftOut, func(l scoring.LeftOut) bool { return l.Why.Doubtful() }):
		return wording.Text("the value is %s by all that was said of the animals")
	}
	return wording.Text("the value is %s whatever they are")
}

// spread is a spread in words: the ratings with their chances, and the range of
// the value; always says of a value that it is the only one.
func spread(s *scoring.Spread, always string) string {
	if s.None >= 0.9995 {
		return wording.Text("no value")
	}
	var words []string
	for _, r := range s.Ratings {
		words = append(words, fmt.Sprintf("%s %s", r.Rating, plain.Percent(r.Chance)))
	}
	if s.None >= 0.0005 {
		words = append(words, wording.Sprintf("no value %s", plain.Percent(s.None)))
	}
	value := wording.Sprintf("from %s to %s in 95 of 100 cases", wording.Number(s.Low), wording.Number(s.High))
	switch {
	case s.Low == s.High && math.Abs(s.Mean-s.Low) < 1e-9:
		value = fmt.Sprintf(always, wording.Number(s.Low))
	case s.Low == s.High:
		value = wording.Sprintf("%s in more than 95 of 100 cases", wording.Number(s.Low))
	}
	out := strings.Join(append(words, value), ", ")
	switch off := worst(s); {
	case s.Draws > 0 && off > 0:
		out += wording.Sprintf(" (by %d random draws, give or take %s)", s.Draws, plain.Percent(off))
	case s.Draws > 0:
		out += wording.Sprintf(" (by %d random draws)", s.Draws)
	}
	return out
}

// worst is the largest standard error of a chance.
func worst(s *scoring.Spread) (most float64) {
	for _, r := range s.Ratings {
		most = max(most, r.Error)
	}
	return most
}

func rated(rating string) string {
	if rating == scheme.Unrated {
		return ""
	}
	return ", " + rating
}
