package units

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// SaidLength is a length that was said among other words.
type SaidLength struct {
	MM   float64 // of the body; 0 where none was said
	Part string  // the part whose length was said, such as "case"; empty for none
	Wide bool    // only how wide or high it is was said
	Rest string  // the other words
}

// LengthSaid finds a body length with its unit among other words, "brown, 22 mm" or
// "half an inch long". Of two ("10 to 12 mm") it is the middle; the length of a part
// ("tails 5 mm long", "in a case of sand, 2 cm long") is not the body's, nor its width
// ("8 mm across"), nor that of the body with its tails. Of two of one body the one that
// was measured is taken: "an inch near enough, 22 mm".
func LengthSaid(text string) (SaidLength, error) {
	said := SaidLength{Rest: strings.TrimSpace(halfInFront(fractions().Replace(text)))}
	measured := false
	for from := 0; from < len(said.Rest); {
		at := lengthSaid().FindStringSubmatchIndex(said.Rest[from:])
		if at == nil {
			break
		}
		for i := range at {
			if at[i] >= 0 {
				at[i] += from
			}
		}
		q := quantity{said.Rest, at}
		q.dropApart()
		wide := q.group(5) != "" && !q.highShell()
		if q.another() || said.MM > 0 && !wide && (measured || !q.measured()) {
			from = at[1]
			continue
		}
		if with, without := withTails().FindString(q.text[at[1]:]), withoutTails().FindString(q.text[at[1]:]); with != "" {
			said.Part = bodyAndTails
			said.Rest = strings.Trim(q.text[:at[0]]+","+q.text[at[1]+len(with):], ", ")
			from = min(at[0], len(said.Rest))
			continue
		} else if without != "" {
			q.text = q.text[:at[1]] + q.text[at[1]+len(without):]
		}
		if of := q.part(); of != "" || wide {
			before := strings.TrimSpace(q.text[:at[0]] + q.group(1))
			if part := q.group(6); part != "" {
				before = strings.TrimSpace(before + " " + part)
			}
			said.Part, said.Wide = cmp.Or(of, said.Part), said.Wide || of == ""
			behind := q.text[at[1]:]
			if !madeOf().MatchString(behind) {
				behind = "," + behind
			}
			said.Rest = strings.Trim(before+behind, ", ")
			from = min(len(before), len(said.Rest))
			continue
		}
		var err error
		if said.MM, err = q.mm(); err != nil {
			return said, err
		}
		said.Part, measured = "", q.measured()
		said.Rest = strings.Trim(q.text[:at[0]]+","+q.text[at[1]:], ", ")
		from = min(at[0], len(said.Rest))
	}
	said.Wide = said.Wide && said.MM == 0
	return said, nil
}

// madeOf is what stands behind a part and its length where what it is made of is told: "a 3 mm tube of sand".
var madeOf = pattern.New(`(?i)^ (?:of|made|built) `)

var halfBehind = pattern.New(`(?i)\b(an?|one|two|three|four)[ -](inch(?:es)?|centimet(?:er|re)s?|millimet(?:er|re)s?|[cm]m) and a half\b`)

// halfInFront turns "an inch and a half" into "one and a half inch".
func halfInFront(text string) string {
	return halfBehind().ReplaceAllStringFunc(text, func(said string) string {
		words := halfBehind().FindStringSubmatch(said)
		if strings.EqualFold(words[1], "a") || strings.EqualFold(words[1], "an") {
			words[1] = "one"
		}
		return words[1] + " and a half " + words[2]
	})
}

// quantity is a place in a text where a number of units stands.
type quantity struct {
	text   string
	groups []int // of the groups of lengthSaid
}

func (q quantity) group(i int) string {
	if q.groups[2*i] < 0 {
		return ""
	}
	return strings.ToLower(q.text[q.groups[2*i]:q.groups[2*i+1]])
}

// measured reports whether it was read off a scale: in figures, and in mm or cm.
func (q quantity) measured() bool {
	return strings.ContainsAny(q.group(3), "0123456789") && (strings.HasSuffix(q.group(4), "m") || strings.Contains(q.group(4), "met"))
}

// highShell reports whether it is how high a coiled shell is, which is its length.
func (q quantity) highShell() bool {
	switch q.group(5) {
	case "high", "tall", "in height":
		return coiled().MatchString(q.text) && !notCoiled().MatchString(q.text)
	}
	return false
}

// dropApart leaves out of it a word for a width that begins another thing behind a comma:
// "25 mm, wide and flattened belly".
func (q quantity) dropApart() {
	unit, width := q.groups[2*4+1], q.groups[2*5]
	if width < 0 || !strings.Contains(q.text[unit:width], ",") || clauseEnds().MatchString(q.text[q.groups[2*5+1]:]) {
		return
	}
	q.groups[1] = unit
	for i := 2 * 5; i < len(q.groups); i++ {
		q.groups[i] = -1
	}
}

// another reports whether it is no length of an animal: "two in front", "2 in the middle", "an inch
// worm", "in 1 m of water".
func (q quantity) another() bool {
	if strings.HasPrefix(q.group(4), "inch") && wormBehind().MatchString(q.text[q.groups[1]:]) {
		return true
	}
	if unit := q.group(4); unit == "m" || strings.HasPrefix(unit, "met") {
		before := strings.TrimSpace(q.text[:q.groups[0]])
		return !strings.HasSuffix(q.text[:q.groups[1]], "long") &&
			(before != "" && !strings.ContainsAny(before[len(before)-1:], ",;:.!?") || !clauseEnds().MatchString(q.text[q.groups[1]:]))
	}
	return q.group(4) == "in" && (strings.ContainsAny(q.group(3), "aeiou") || wordBehind().MatchString(q.text[q.groups[1]:]))
}

// part is the part whose length it is, empty for the body: one that stands beside it, or
// what the animal lives in where that is the last thing spoken of.
func (q quantity) part() string {
	if part := q.group(1) + q.group(6); part != "" {
		return part
	}
	before, behind := q.text[:q.groups[0]], q.text[q.groups[1]:]
	if homely := q.subject(); homely != "" {
		return homely
	}
	before = noHome().ReplaceAllString(withNet().ReplaceAllString(before, ""), "")
	if ends := clauseEnd().FindAllStringIndex(before, -1); len(ends) > 0 {
		last := ends[len(ends)-1]
		if strings.TrimSpace(before[last[1]:]) == "" && clauseEnd().FindStringIndex(behind + ",")[0] == 0 {
			before = before[:last[0]] // it stands alone, and tells of what was said before
			if ends = ends[:len(ends)-1]; len(ends) > 0 {
				before = before[ends[len(ends)-1][1]:]
			}
		} else {
			before = before[last[1]:]
		}
	}
	behind = behind[:clauseEnd().FindStringIndex(behind + ",")[0]]
	if told := owners().FindAllString(before, -1); len(told) > 0 {
		return home(told[len(told)-1])
	}
	return home(owners().FindString(behind))
}

// subject is what the animal lives in where the sentence is of that, with nothing of the
// animal between: "The house is from sand and flat, 20 mm long".
func (q quantity) subject() string {
	before := q.text[:q.groups[0]]
	if ends := sentenceEnd().FindAllStringIndex(before, -1); len(ends) > 0 {
		before = before[ends[len(ends)-1][1]:]
	}
	if hollow := hollowFirst().FindStringSubmatch(before); hollow != nil && livesIn().MatchString(q.text) {
		return strings.ToLower(hollow[1])
	}
	at := homeFirst().FindStringSubmatchIndex(before)
	if at == nil || strings.Contains(strings.ToLower(q.text[q.groups[0]:q.groups[1]]), "body") {
		return ""
	}
	rest := before[at[1]:]
	if told := owners().FindString(rest); told != "" && home(told) == "" || ofAnimal().MatchString(rest) {
		return ""
	}
	return strings.ToLower(before[at[2]:at[3]])
}

// home is a word if it is one for what an animal lives in, else empty.
func home(word string) string {
	if bodies().MatchString(word) {
		return ""
	}
	return strings.ToLower(word)
}

// mm is the length.
func (q quantity) mm() (float64, error) {
	n, err := numberSaid(q.group(3))
	if err == nil && q.group(2) != "" {
		var least float64
		least, err = numberSaid(q.group(2))
		n = (least + n) / 2
	}
	if err != nil {
		return 0, err
	}
	unit := q.group(4)
	if strings.HasPrefix(unit, "millim") || strings.HasPrefix(unit, "centim") {
		unit = unit[:1] + "m"
	}
	number := strconv.FormatFloat(math.Round(n*1e4)/1e4, 'f', -1, 64)
	if begins := max(q.groups[2*3], 0); q.group(2) == "" && belowZero().MatchString(q.text[:begins]) {
		number = "-" + number
	}
	return BodyLength(number + " " + unit)
}

// belowZero is what stands before a number that is less than nothing; between words a dash
// parts what is said.
var belowZero = pattern.New(`(?:^|[,;])\s*[-−]$`)

var (
	// coiled are words for a coiled shell, and notCoiled for one that is not.
	coiled    = pattern.New(`(?i)\b(?:snails?|shells?|spires?|whorls?|coil(?:s|ed)?|turns)\b`)
	notCoiled = pattern.New(`(?i)\b(?:cap|hat|limpet|no coil|hal(?:f|ves)|hinged?|clam|mussel|tube|case|house)\b`)
	// clauseEnd is what stands between things that are said.
	clauseEnd  = pattern.New(`[,;:!?\n]|\.(?:\s|$)|\b(?:and|but|with|while)\b`)
	clauseEnds = pattern.New(`^\s*(?:$|[,;:!?\n.])`)
	// withTails is what stands behind a length that takes in the tails, withoutTails behind
	// one that does not.
	withTails = pattern.New(`(?i)^,?\s*(?:(?:to|at) the (?:ends?|tips?) of (?:its|the) tails?|tails? and all|` +
		`(?:with|including|incl\.?|counting) (?:the |its |both |all )+tails?(?: and all)?|tails? included)\b`)
	withoutTails = pattern.New(`(?i)^,?\s*(?:even )?(?:without|not counting|not including|excluding|minus|leaving out|leave out|` +
		`apart from|not with)(?: even)? (?:the |its |any |both )?(?:tail end )?` + appendages + `(?: (?:and|or) ` + appendages + `)?\b`)
	// owners are words for whose length may be spoken of: what an animal lives in, or itself.
	owners      = pattern.New(`(?i)\b(?:` + homesSaid + `|` + bodiesSaid + `)\b`)
	sentenceEnd = pattern.New(`[!?\n;]|\.(?:\s|$)`)
	// homeFirst is a sentence that begins with what an animal lives in.
	homeFirst = pattern.New(`(?i)^\s*(?:(?:it|this|he|she) (?:is|was|lives in|sits in) |it's |lives in )?` +
		`(?:(?:a|an|the|its|my|this|one) )?` +
		`(?:(?:small|little|tiny|big|neat|long|short|sandy?|stone|flat|round|thin|thick|square|brown|own|straight|curved|rough|` +
		`smooth|silk|leaf|plant) ){0,3}(` + homesSaid + `|chimney|purse|shield of sand)\b`)
	// hollowFirst is a sentence that begins with a stick or the like, and livesIn tells that
	// an animal lives in that.
	hollowFirst = pattern.New(`(?i)^\s*(?:(?:a|an|the|it is|it's) )*(?:\w+ ){0,2}(sticks?|twigs?|stems?|straws?|reeds?)\b`)
	livesIn     = pattern.New(`(?i)\b(?:lives?|living|lived|sits?|hides?|hiding) in(?:side)?\b|\bhollow|\bbored out\b`)
	// ofAnimal are words for what is no part of a house.
	ofAnimal = pattern.New(`(?i)\b(?:with(?:in)?|inside|legs?|head|belly|inhabitant|owner|lodger|it is)\b`)
	// noHome is what an animal does not live in.
	noHome = pattern.New(`(?i)\b(?:no|without|not in|isn't in|wasn't in) (?:(?:an?|any|its|own|sort|kind|of) )*` +
		`(?:\w+ )?(?:` + homesSaid + `)\b(?: (?:or|and|nor) (?:no )?(?:` + homesSaid + `|shell|net)\b)?`)
	// withNet is the net that it was caught with.
	withNet = pattern.New(`(?i)\b(?:the|my|our|your) nets?\b`)
	bodies  = pattern.New(`(?i)^(?:` + bodiesSaid + `)?$`)
)

// bodyAndTails is what a length is of that takes in the tails.
const bodyAndTails = "body and tails"

const (
	appendages = `(?:the |its )?(?:tails?|feelers?|antennae|whiskers|legs|horns)`
	homesSaid  = `cases?|tubes?|houses?|homes?|shelters?|cocoons?|tunnels?|galler(?:y|ies)|burrows?|webs?|nets?|pouch|` +
		`sleeping bag|log cabin`
	bodiesSaid = `body|animal|larvae?|nymph|grub|worm|maggot|caterpillar|insect|creature|critter|bug|beast|itself`
)

// The groups are a part before, the lesser of two numbers, the number, its unit, what it
// measures if that is no length, and a part behind.
var lengthSaid = pattern.New(`(?i)(?:\b` + partsSaid + ` (?:are |is )?|\b(?:the )?body(?: itself)? (?:is |length )?(?:of )?)?` +
	`(?:\b(?:it is|it's|about|around|roughly|nearly|almost|maybe|some|just over|just under|over|under|up to) )*` +
	`(?:` + numbers + `\s*(?:-|–|\bto\b|\bor\b)\s*)?` + numbers +
	`[\s-]*(mm|cm|millimet(?:er|re)s?|centimet(?:er|re)s?|inches|inch|in|metres?|meters?|m)\b` +
	`(?: (?:long|in length|big|in size)\b|,? (` + widthsSaid + `)\b)?(?: ` + partsSaid + `\b)?`)

var wormBehind = pattern.New(`^[ -]worm`)

var wordBehind = pattern.New(`^ [a-z]`)

const (
	widthsSaid = `across|wide|broad|thick|high|tall|deep|in (?:width|breadth|diameter|height|thickness)`
	partsSaid  = `(tails?|legs?|feelers?|antennae|gills?|tube|cases?|house|claws?|pincers|jaws|hooks?|eyes?|head|wings?|tusks?|hairs?)`
	numbers    = `(\b\d+\s+\d/\d+|\b\d/\d+|\b\d+(?:[.,]\d+)?|\b(?:one|two|three|four) and a half|\bhalf an?|\bhalf|\ba half|` +
		`\b(?:a )?quarter of an?|\b(?:a )?quarter|\bthree quarters of an?|` +
		`\ban?|\bone|\btwo|\bthree|\bfour|\bfive|\bsix|\bseven|\beight|\bnine|\bten)`
)

func wholes() map[string]float64 {
	return map[string]float64{"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
		"eight": 8, "nine": 9, "ten": 10}
}

// numberSaid reads "12", "0,5", "1 1/2", "half an", "two and a half", "seven".
func numberSaid(said string) (float64, error) {
	said, halfMore := strings.CutSuffix(said, " and a half")
	if n, ok := wholes()[said]; ok {
		if halfMore {
			n += 0.5
		}
		return n, nil
	}
	switch {
	case strings.Contains(said, "three quarters"):
		return 0.75, nil
	case strings.Contains(said, "quarter"):
		return 0.25, nil
	case strings.Contains(said, "half"):
		return 0.5, nil
	}
	var sum float64
	for _, word := range strings.Fields(said) {
		over, under, divided := strings.Cut(word, "/")
		over, err := decimalPoint(over)
		if err != nil {
			return 0, err
		}
		n, err := strconv.ParseFloat(over, 64)
		if err != nil {
			return 0, wording.Errorf("%q is no number", said)
		}
		if divided {
			by, err := strconv.ParseFloat(under, 64)
			if err != nil || by == 0 {
				return 0, wording.Errorf("%q is no number", said)
			}
			n /= by
		}
		sum += n
	}
	return sum, nil
}
