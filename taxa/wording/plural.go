package wording

import "strings"

// Forms are the forms that a word has beside a number in a language, by the names of
// the Unicode CLDR plural rules for whole numbers, in the order in which a catalogue
// gives them.
func Forms(language string) []string {
	switch family(language) {
	case alike:
		return []string{"other"}
	case slavic, polish, czech:
		return []string{"one", "few", "other"}
	}
	return []string{"one", "other"}
}

// rules are the plural rules, each of several languages.
type rules int

const (
	single rules = iota // 1, and others: English, German and most languages
	none                // 0 and 1, and others
	alike               // one form for all
	slavic              // 1, 21; 2 to 4, 22 to 24; others
	polish              // 1; 2 to 4, 22 to 24; others
	czech               // 1; 2 to 4; others
)

func family(language string) rules {
	base, _, _ := strings.Cut(strings.ToLower(language), "-")
	switch base {
	case "fr", "pt", "hy":
		return none
	case "ja", "zh", "ko", "vi", "th", "id", "ms":
		return alike
	case "ru", "uk", "be", "sr", "hr", "bs":
		return slavic
	case "pl":
		return polish
	case "cs", "sk":
		return czech
	}
	return single
}

// pluralForm is which of [Forms] goes with a number.
func pluralForm(language string, n int) int {
	if n < 0 {
		n = -n
	}
	few := n%10 >= 2 && n%10 <= 4 && (n%100 < 12 || n%100 > 14)
	switch family(language) {
	case alike:
		return 0
	case none:
		return which(n < 2, false)
	case slavic:
		return which(n%10 == 1 && n%100 != 11, few)
	case polish:
		return which(n == 1, few)
	case czech:
		return which(n == 1, n >= 2 && n <= 4)
	}
	return min(which(n == 1, false), 1)
}

// which is the place of the form among one, few and others; of two, few is others.
func which(one, few bool) int {
	switch {
	case one:
		return 0
	case few:
		return 1
	}
	return 2
}
