package taxa

import (
	"slices"
	"strings"

	"rillkey/taxa/pattern"
)

// People say where something is before they say what it is ("down either side of the belly
// is a row of leaflets"), and several things of one part in a row ("its feelers are short,
// thick and stubby"). Each is read as if it stood in the order of the vocabulary's words.

// saying is what stands between two ends of what was typed.
type saying struct {
	said  string // as it was typed
	read  string // in the order in which it is read
	asked bool   // a question mark follows
	first bool   // it begins a sentence
}

// parts is what stands between two things that were said.
var parts = pattern.New(`[,;:!?\n\r]+|\.(?:\D|$)`)

// sayings are the things that were said, one after another.
func sayings(text string) (out []saying) {
	from, lead, first := 0, "", true
	for _, end := range append(parts().FindAllStringIndex(text, -1), []int{len(text), len(text)}) {
		if end[0] < len(text) && strings.TrimSpace(text[end[0]:end[1]]) == "," && joinsAdjectives(text[:end[0]], text[end[1]:]) {
			continue
		}
		said := strings.TrimSpace(text[from:end[0]])
		if end[1] < len(text) && text[end[0]] == ',' && onlyWhere(said[len(lead):]) {
			lead = said
			continue
		}
		read := strings.ReplaceAll(said, ",", "")
		if lead != "" {
			read = placeBehind(strings.ReplaceAll(lead, ",", " and"), strings.TrimSpace(strings.ReplaceAll(said[len(lead):], ",", "")))
		} else {
			read = reordered(read)
		}
		out = append(out, saying{said, read, strings.Contains(text[end[0]:end[1]], "?"), first})
		from, lead, first = end[1], "", strings.TrimSpace(text[end[0]:end[1]]) != ","
	}
	return out
}

// asTyped are words of a saying as they were typed: all of it where they stand in another
// order.
func (s saying) asTyped(words string) string {
	if strings.Contains(s.said, words) {
		return words
	}
	return s.said
}

// adjectives are the stems of words that tell what a part is like.
var adjectives = lazyStems(`long short thin thick tiny small little big large huge broad wide narrow flat round oval square stubby
stout slender slim fine stiff soft hard hairy feathery bushy fluffy bare smooth shiny glossy glassy pale dark brown black white grey
gray green yellow red pink orange clear jointed pointed curved bent simple single forked fringed strong weak wispy sharp blunt`)

// opens are words that come before what a part is like.
var opens = lazyWords("a an the its their with has have of two three four five six seven eight ten few some and")

// isWord are words between a part and what it is like.
var isWord = lazyWords("is are was were")

// bareWord is a word without the comma behind it.
func bareWord(word string) string { return strings.ToLower(strings.Trim(word, ",.;:()!?")) }

// ofBody reports whether a word names a part of an animal, or what any part may bear.
func ofBody(word string) bool {
	s := stem(bareWord(word))
	return bodyParts()[s] || anywhere()[s] || s == "bodi" || s == "shell" || s == "leaflet"
}

// joinsAdjectives reports whether a comma stands between two words that tell what one part
// is like: "three long, thin tails", "feelers are short, thick and stubby".
func joinsAdjectives(before, behind string) bool {
	adjective := func(word string) bool { return adjectives()[stem(bareWord(word))] }
	words, more := strings.Fields(before), strings.Fields(behind)
	i := len(words)
	for i > 0 && adjective(words[i-1]) {
		i--
	}
	j := 0
	for j < len(more) && (adjective(more[j]) || j > 0 && more[j] == "and" && i > 1 && isWord()[words[i-1]]) {
		j++
	}
	if i == len(words) || i == 0 || j == 0 {
		return false
	}
	named := j < len(more) && ofBody(more[j])
	if isWord()[words[i-1]] {
		return i > 1 && ofBody(words[i-2]) && !named
	}
	return named && opens()[bareWord(words[i-1])]
}

// placing are words with which a place may begin.
var placing = lazyWords(`along down on at under below behind underneath beneath over round around inside near in from out`)

// mostPlacing is how many words name a place at most: "halfway down either side of the belly".
const mostPlacing = 8

// onlyWhere reports whether words are no more than a place on an animal.
func onlyWhere(said string) bool {
	words := strings.Fields(strings.Trim(said, ", "))
	if len(words) == 1 {
		return placeWords()[strings.ToLower(words[0])]
	}
	return len(words) > 0 && where(words) == len(words)
}

// placeWords are words that name a place by themselves.
var placeWords = lazyWords("underneath below beneath behind inside")

// where is how many of the words are no more than a place on an animal, 0 where they do not
// begin with one.
func where(words []string) int {
	if len(words) < 2 || !placing()[strings.ToLower(words[0])] {
		return 0
	}
	if strings.EqualFold(words[0], "round") && !owned().MatchString(" "+strings.Join(words[1:], " ")) {
		return 0 // "round all over"
	}
	n := 0
	for i := 1; i < min(len(words), mostPlacing); i++ {
		s := stem(bareWord(words[i]))
		switch {
		case places()[s] && !slices.Contains([]string{"tip", "case", "hous", "shell"}, s) || s == "abov" || s == "below":
			n = i + 1
		case i == n && n > 0 && words[i] != "of" && words[i] != "half" && words[i] != "part":
			return n
		}
	}
	return n
}

// thereIs are words between a place and what is there.
var thereIs = lazyWords(`there is are was were sit sits stick sticks hang hangs grow grows come comes stand stands lie lies run runs out
there's has`)

// counts are words with which what is at a place may begin at once.
var counts = lazyWords(`a an no two three four five six seven eight nine ten some many several lots you i we it`)

// reordered is a saying in the order in which it is read.
func reordered(said string) string {
	said = twoPairs().ReplaceAllString(platedRings(said), "two pairs of feelers")
	words := strings.Fields(said)
	for len(words) > 1 && beforePlace()[strings.ToLower(words[0])] && placing()[strings.ToLower(words[1])] {
		words = words[1:]
	}
	n := where(words)
	if n > 0 && n < len(words) && (thereIs()[strings.ToLower(words[n])] || counts()[strings.ToLower(words[n])]) {
		return placeBehind(strings.Join(words[:n], " "), strings.Join(words[n:], " "))
	}
	return partBehind(words, said)
}

// twoPairs is what tells of two pairs of feelers one after the other: "one pair of long feelers and a short pair".
var twoPairs = pattern.New(`(?i)\b(?:an?|one) (?:\w+ )?pair of (?:\w+ )?(?:feelers|antennae|antennas) and (?:an?|one|another) ` +
	`(?:\w+ )?pair\b(?: of (?:\w+ )?(?:feelers|antennae|antennas|ones))?`)

// beforePlace are words before a place that change nothing of it: "then down both sides".
var beforePlace = lazyWords("then up right just and also but all only low high far")

var (
	// rings is what tells how many of the rings behind the head are hard, from their number to the
	// word that says so; unplated is what makes it tell something else.
	rings = pattern.New(`(?i)\b(?:all |only |just )?(?:the )?(?:first )?(one|two|three|[123]|first)(?: of)?(?: the)?` +
		`(?: (?:little|chest|body|leg|front|thorax))* (?:rings?|sections?|segments?|joints?|parts?|bits?)\b` +
		`(?: (?:behind|after) (?:the|its) head| (?:of|on) (?:the|its) (?:chest|thorax|body)|` +
		` (?:that|which|with) (?:(?:bear|carry|have|hold) )?(?:the )?legs)?` +
		` (?:(?:are|is|have|has|with|each|carr(?:y|ies)|covered|wears?|bears?|on|all|of|which|that)\b[^,;]*?)` +
		`\b(?:plates?|plated|shields?|tops?|backs?|armou?r(?:ed)?|hard(?:ened)?)(?:(?: \w+)? (?:plates?|tops?|backs?|on top|above))*\b`)
	hardPlates = pattern.New(`(?i)\bhard(?: \w+)? plates?\b`)
	unplated   = pattern.New(`(?i)\b(?:no|not|none|without|bare|soft|gills?|belly|abdomen|flaps?|leaf|leaves)\b`)
)

// platedRings is a saying that tells how many rings behind the head are hard as the vocabulary has it:
// "all three sections behind the head are covered on top with hard brown plates".
func platedRings(said string) string {
	at := rings().FindStringSubmatchIndex(said)
	if at == nil || unplated().MatchString(said[at[0]:at[1]]) {
		return said
	}
	number, plates := strings.ToLower(said[at[2]:at[3]]), " plates behind the head"
	if number == "first" {
		number = "one"
	}
	if number == "one" || number == "1" {
		plates = " plate behind the head"
	}
	if hardPlates().MatchString(said[at[0]:at[1]]) {
		plates += " and hard plates"
	}
	return said[:at[0]] + number + plates + said[at[1]:]
}

// placeBehind puts a place behind what is there, before more is told of it.
func placeBehind(place, said string) string {
	words := strings.Fields(said)
	for len(words) > 1 && thereIs()[strings.ToLower(words[0])] {
		words = words[1:]
	}
	said = strings.Join(words, " ")
	if at := moreTold().FindStringIndex(said); at != nil && at[0] > 0 {
		return said[:at[0]] + place + " " + said[at[0]:]
	}
	return said + " " + place
}

// moreTold is where more begins to be told of something.
var moreTold = pattern.New(`(?i)\b(?:that|which|and|but|with|where|who|each|like|not)\b`)

// partBehind puts a part behind the two or more words that tell what it is like: "short
// thick stubby feelers" for "feelers are short, thick and stubby".
func partBehind(words []string, said string) string {
	for i := 1; i < len(words)-1; i++ {
		if !isWord()[words[i]] || !ofBody(words[i-1]) {
			continue
		}
		var like []string
		j := i + 1
		for ; j < len(words); j++ {
			if word := bareWord(words[j]); word != "and" || j == i+1 {
				if !adjectives()[stem(word)] {
					break
				}
				like = append(like, words[j])
			}
		}
		before := words[:i-1]
		own := slices.ContainsFunc(before, func(word string) bool { return !opens()[bareWord(word)] })
		if len(like) < 2 || own || words[j-1] == "and" || j < len(words) && ofBody(words[j]) {
			return said
		}
		return strings.Join(slices.Concat(before, like, words[i-1:i], words[j:]), " ")
	}
	return said
}
