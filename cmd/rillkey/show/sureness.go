package show

import "fmt"

// Sure puts a probability in words, the number beside them: "fairly sure
// (0.82)".
func Sure(p float64) string { return fmt.Sprintf("%s (%s)", sureness(p), chance(p)) }

func sureness(p float64) string {
	switch {
	case p >= 0.97:
		return "very sure"
	case p >= 0.9:
		return "sure"
	case p >= 0.75:
		return "fairly sure"
	case p >= 0.5:
		return "rather unsure"
	}
	return "not sure"
}

// Misread puts the probability that an answer was misread in words, the number
// beside them.
func Misread(p float64) string { return fmt.Sprintf("%s (%s)", misreading(p), chance(p)) }

func misreading(p float64) string {
	switch {
	case p >= 0.9:
		return "almost certainly misread"
	case p >= 0.5:
		return "probably misread"
	case p >= 0.2:
		return "perhaps misread"
	case p >= 0.05:
		return "a little doubtful"
	}
	return "fits the rest"
}

// Likely puts the probability of something supposed in words, the number beside
// them.
func Likely(p float64) string {
	word := "no"
	switch {
	case p >= 0.97:
		word = "almost certainly"
	case p >= 0.9:
		word = "very likely"
	case p >= 0.7:
		word = "likely"
	case p >= 0.55:
		word = "perhaps"
	case p >= 0.45:
		word = "open"
	case p >= 0.1:
		word = "rather not"
	case p > 0.03:
		word = "hardly"
	}
	return fmt.Sprintf("%s (%s)", word, chance(p))
}

// chance is a probability to two places; none is shown as certain.
func chance(p float64) string {
	switch {
	case p > 0.99 && p < 1:
		return "over 0.99"
	case p > 0 && p < 0.01:
		return "under 0.01"
	}
	return fmt.Sprintf("%.2f", p)
}
