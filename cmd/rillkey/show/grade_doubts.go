package show

import (
	"fmt"
	"strings"

	"rillkey/scoring"
)

// uncertain writes the two kinds of uncertainty of an index, each by itself.
func uncertain(p *page, names, samples *scoring.Spread) {
	for _, words := range Doubts(names, samples) {
		p.text(2, 4, "%s", words)
	}
}

// Doubts are the two kinds of uncertainty of an index in a sentence each, as far
// as they are known.
func Doubts(names, samples *scoring.Spread) (out []string) {
	if names != nil {
		out = append(out, "Because of doubtful names: "+spread(names)+".")
	}
	if samples != nil {
		out = append(out, "Because of which samples happened to be taken: "+spread(samples)+".")
	}
	return out
}

// spread is a spread in words: the ratings with their chances, and the range of
// the value.
func spread(s *scoring.Spread) string {
	if s.None >= 0.9995 {
		return "no value"
	}
	var words []string
	for _, r := range s.Ratings {
		words = append(words, fmt.Sprintf("%s %s", r.Rating, Percent(r.Chance)))
	}
	if s.None >= 0.0005 {
		words = append(words, fmt.Sprintf("no value %s", Percent(s.None)))
	}
	value := "the value is " + number(s.Low) + " whatever they are"
	if s.Low != s.High {
		value = fmt.Sprintf("from %s to %s in 95 of 100 cases", number(s.Low), number(s.High))
	}
	out := strings.Join(append(words, value), ", ")
	if s.Draws > 0 {
		out += fmt.Sprintf(" (by %d random draws, give or take %s)", s.Draws, Percent(worst(s)))
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

// Percent never rounds a doubt away: what is not certain is neither 0 nor 100 %.
// The blank before the sign does not break a line.
func Percent(p float64) string {
	switch {
	case p > 0 && p < 0.005:
		return "under 1\u00a0%"
	case p < 1-1e-9 && p > 0.995:
		return "over 99\u00a0%"
	}
	return fmt.Sprintf("%.0f\u00a0%%", 100*p)
}

func rated(rating string) string {
	if rating == scoring.Unrated {
		return ""
	}
	return ", " + rating
}
