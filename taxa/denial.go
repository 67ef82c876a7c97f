package taxa

import (
	"strings"

	"rillkey/taxa/pattern"
)

// deny is the stem of every word that denies.
const deny = "no"

// hardly is the stem of every word that nearly denies: what it stands before is asked,
// unless the vocabulary itself says it so.
const hardly = "hardly"

var denials = lazyWords(`no not without never none lacks lacking lack lacked devoid minus absence
hasn't isn't doesn't haven't aren't don't wasn't weren't didn't can't cannot ain't hadn't wouldn't couldn't
hasnt isnt doesnt havent arent dont wasnt werent didnt aint hadnt neither nor`)

var nearDenials = lazyWords(`hardly barely scarcely rarely seldom`)

// absence is what such a word counts as; none that is typed holds a full stop.
const absence = "absent."

// absentees are words behind a part that deny it: "legs absent".
var absentees = lazyWords(`absent wanting lacking none nil`)

var (
	// nearDenied is what stands before a denial that is not a whole one: "almost no tails".
	nearDenied = pattern.New(`(?i)\b(?:almost|nearly|virtually|practically|next to|close to|as good as)\s+$`)
	// someFew is what stands before "few" and "little" where some are meant, not hardly any.
	someFew = pattern.New(`(?i)\b(?:an?|the|its|their|these|those)\s+$`)
	// soughtInVain is what stands behind a part that somebody looked for: "gills and couldn't find any".
	soughtInVain = pattern.New(`(?i)^[^,;:]{0,30}?\b(?:and|but) (?:(?:I|we|he|she) )?(?:` +
		`(?:could(?:n't| not)|did(?:n't| not)|can(?:'t|not)|do(?:n't| not)) (?:really |quite )?(?:find|see|spot|make out|notice) ` +
		`(?:any|one|them|it)|(?:found|saw|see) none)\b`)
	// lookedFor is what stands before what somebody looked for, and foundNone behind what was not there.
	lookedFor = pattern.New(`(?i)\b(?:looked|searched|hunted|checked|felt) for\b[^,;:]*$`)
	foundNone = pattern.New(`(?i)\b(?:none|nothing|no luck|no sign|not one|in vain|but no)\b`)
	// clauseOver is what stands behind a word that ends its clause.
	clauseOver = pattern.New(`(?i)^\s*(?:$|[,;:.!?()]|(?:and|but|with|while|though)\b)`)
)

// lessOf is the part of a word that says it is not there: "leg" of "legless".
func lessOf(word string) string {
	part, ok := strings.CutSuffix(word, "less")
	if !ok || !bodyParts()[stem(part)] && !anywhere()[stem(part)] {
		return ""
	}
	return part
}

// mostAbsent is how many words an absence behind them denies at most: "jointed legs absent".
const mostAbsent = 2

// denyBefore puts a denial before the words that are said to be absent, up to where
// something else is said.
func denyBefore(out []token) []token {
	at := len(out)
	for at > 0 && len(out)-at < mostAbsent && !out[at-1].turn && out[at-1].stem != deny && out[at-1].stem != hardly {
		at--
	}
	if at == len(out) || at > 0 && !out[at-1].turn && out[at-1].stem == deny {
		return out
	}
	denied := token{stem: deny, start: out[at].start, end: out[at].start}
	return append(out[:at], append([]token{denied}, out[at:]...)...)
}

// denial is where a denial stands in front of a place, as in "no long tails", whether
// one does, and whether it is only nearly one; else the place itself. It reaches beyond an
// "or".
func denial(words []token, taken []*span, from int, part string) (start int, denied, nearly bool) {
	for i := from - 1; i >= max(0, from-3) && !words[i].turn; i-- {
		if words[i].stem == deny && (taken[i] == nil || taken[i].end > from) {
			return i, true, false
		}
		if words[i].stem == hardly && taken[i] == nil {
			return i, true, true
		}
	}
	if from > 0 && taken[from-1] != nil && taken[from-1].denied && or().MatchString(part[words[from-1].end:words[from].start]) {
		return from, true, false
	}
	return from, false, false
}
