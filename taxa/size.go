package taxa

import (
	"math"
	"slices"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Yardstick is how long an animal was said to be beside a thing that everybody knows.
type Yardstick struct {
	Thing    string  // as it was typed, such as "grain of rice"; empty where none was named
	Min, Max float64 // mm; how long such things are
	Shelter  string  // what the animal lives in, where that is as long, such as "house"; else empty
	Wide     bool    // it is as wide or as high as that, and how long was not said
	Rest     string  // the other words
}

// MM is the length that is taken for it, in whole mm from 3 mm on: the geometric mean of
// the least and the most.
func (s Yardstick) MM() float64 {
	mm := math.Sqrt(s.Min * s.Max)
	if mm < 3 {
		return math.Round(mm*10) / 10
	}
	return math.Round(mm)
}

// comparison is a thing whose size people compare animals with.
type comparison struct {
	words    []string
	min, max float64
}

var (
	// sized is what stands before a thing that an animal is as long as.
	sized = pattern.New(`(?i)(?:\b(?:it is|it's|about|around|roughly|nearly|almost|only|just|maybe|a bit|a little|slightly|much|even) )*` +
		`\b(?:(?:as|so) (?:big|small|long|large|tiny|short) as|the (?:size|length) of|like (?:almost|nearly|about)|` +
		`((?:long|bigg|larg)er than)|(?:short|small|tini)er than)` +
		`((?: (?:about|almost|nearly|an?|the|my|your|one's|his|her|grown|adult|single|small|whole|entire))*) `)
	// broad is what stands before a thing that an animal is as wide as.
	broad = pattern.New(`(?i)(?:\b(?:it is|it's|about|around|roughly|nearly|almost|only|just|maybe) )*` +
		`\b(?:as|so) (?:wide|broad|thick|high|tall) as(?: (?:about|an?|the|my|your|one's|his|her|single|small|whole))* `)
	// notSized is what stands before that where it is not so long.
	notSized = pattern.New(`(?i)(?:\b(?:half|twice|double|thrice|times|not|no|never|nowhere near|than|any)|n't)\s*$`)
	// longBehind is what may stand behind the thing, and widthBehind where no length was said.
	longBehind  = pattern.New(`(?i)^ (?:is )?(?:long|in length)\b`)
	widthBehind = pattern.New(`(?i)^ (?:is )?(?:wide|across|broad|thick|high|two times|twice)\b`)
	// thingOver is what stands behind the name of a thing where it ends there.
	thingOver = pattern.New(`(?i)^\s*(?:$|[,;:.!?)(]|(?:and|but|with|when|or|in|at|on|for|though|which|that|long|is|it)\b)`)
)

// SizeSaid finds among what was said a thing that the animal is said to be as long as, "as
// big as a grain of rice". What a part is as long as is left where it is.
func (v *Vocabulary) SizeSaid(text string) Yardstick {
	for _, at := range sized().FindAllStringSubmatchIndex(text, -1) {
		before, behind := text[:at[0]], text[at[1]:]
		if notSized().MatchString(before) || sizeOfPart(before) {
			continue
		}
		thing, c := v.comparedWith(behind)
		rest := behind[len(thing):]
		if thing == "" || widthBehind().MatchString(rest) {
			continue
		}
		if than := text[at[0]:at[1]]; at[2] >= 0 { // up to twice as long
			thing, c.max = strings.TrimLeft(text[at[2]:at[1]], " ")+thing, 2*c.max
		} else if strings.Contains(than, "er than ") {
			thing, c.min = than+thing, c.min/2
		}
		rest = rest[len(longBehind().FindString(rest)):]
		others := strings.Trim(strings.TrimRight(before, ", ")+", "+strings.TrimLeft(rest, ", "), ", ")
		return Yardstick{thing, c.min, c.max, sizeOfHouse(before), false, others}
	}
	return v.widthSaid(text)
}

// widthSaid finds a thing that the animal is said to be as wide as.
func (v *Vocabulary) widthSaid(text string) Yardstick {
	for _, at := range broad().FindAllStringIndex(text, -1) {
		before, behind := text[:at[0]], text[at[1]:]
		thing, c := v.comparedWith(behind)
		if thing == "" || sizeOfPart(before) {
			continue
		}
		others := strings.Trim(strings.TrimRight(before, ", ")+", "+strings.TrimLeft(behind[len(thing):], ", "), ", ")
		return Yardstick{thing, c.min, c.max, "", true, others}
	}
	return Yardstick{Rest: text}
}

// sizeOfPart reports whether the last clause before a size speaks of a part or a house.
func sizeOfPart(before string) bool {
	all := sayings(before)
	if len(all) == 0 {
		return false
	}
	clauses := clausesOf(all[len(all)-1].said)
	last := clauses[len(clauses)-1]
	for _, word := range strings.Fields(all[len(all)-1].said[last[0]:last[1]]) {
		if s := stem(bareWord(word)); bodyParts()[s] || s == "hous" {
			return true
		}
	}
	return false
}

var (
	// sentenceOver is what stands between sentences.
	sentenceOver = pattern.New(`[!?\n]+|\.(?:\s|$)`)
	// ofIt is a sentence that goes on with what the one before was of.
	ofIt = pattern.New(`(?i)^\s*(?:(?:it|this|the whole thing)(?:'s| is| was)?)?\s*$`)
	// houseFound is a sentence of what an animal lives in, and livingIn one of the animal too.
	houseFound = pattern.New(`(?i)\b(house|case|tube|home|chimney|purse|cocoon)\b`)
	livingIn   = pattern.New(`(?i)\b(?:grub|larva|caterpillar|worm|animal|creature|head|legs?|inside|lives? in)\b`)
)

// sizeOfHouse is what the animal lives in where the sentence before a size speaks of
// nothing else, and the size is said of that: "A house of sand. It is as long as my nail".
func sizeOfHouse(before string) string {
	all := sentenceOver().Split(before, -1)
	if len(all) < 2 || !ofIt().MatchString(all[len(all)-1]) || livingIn().MatchString(all[len(all)-2]) {
		return ""
	}
	return strings.ToLower(houseFound().FindString(all[len(all)-2]))
}

// comparedWith is the longest thing whose name the text begins with, as it is typed.
func (v *Vocabulary) comparedWith(text string) (thing string, c comparison) {
	for _, one := range v.comparisons {
		for _, words := range one.words {
			n := len(words)
			if len(text) < n || !strings.EqualFold(text[:n], words) || n <= len(thing) {
				continue
			}
			if strings.HasPrefix(text[n:], "s") {
				n++
			}
			if thingOver().MatchString(text[n:]) {
				thing, c = text[:n], one
			}
		}
	}
	return thing, c
}

// readComparisons reads how long things are that people compare animals with.
func (v *Vocabulary) readComparisons(top *authored.Table) {
	for _, row := range top.Subs("size") {
		c := comparison{words: row.Strs("words")}
		row.NeedStr("source")
		mm := row.Nums("mm")
		if len(mm) != 2 || mm[0] < 0.1 || mm[1] < mm[0] || mm[1] > 2000 || len(c.words) == 0 || slices.Contains(c.words, "") {
			row.FailAt(row.Here(), "out-of-range", wording.Sprintf("the size %s needs words, and the least and the most in mm, "+
				"from 0.1 to 2000", plain.Quote(row.ID)), wording.Text("write words = [\"grain of rice\"] and mm = [5, 7]"))
			row.Done()
			continue
		}
		c.min, c.max = mm[0], mm[1]
		v.comparisons = append(v.comparisons, c)
		row.Done()
	}
}
