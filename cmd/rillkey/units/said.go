package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// LengthSaid finds a body length with its unit among other words, "brown, 22 mm" or
// "half an inch long", and gives it in mm, with the words left; 0 where none is said.
// Of two ("10 to 12 mm") it is the middle; the length of a part ("tails 5 mm long") is
// not the body's.
func LengthSaid(text string) (mm float64, rest string, err error) {
	text = strings.TrimSpace(fractions.Replace(text))
	at := lengthSaid().FindStringSubmatchIndex(text)
	if at == nil {
		return 0, text, nil
	}
	group := func(i int) string {
		if at[2*i] < 0 {
			return ""
		}
		return strings.ToLower(text[at[2*i]:at[2*i+1]])
	}
	if group(4) == "in" && (strings.ContainsAny(group(3), "aeiou") || wordBehind().MatchString(text[at[1]:])) {
		return 0, text, nil // "two in front", "2 in the middle"
	}
	rest = strings.Trim(text[:at[0]]+","+text[at[1]:], ", ")
	if part := group(1) + group(5); part != "" {
		return 0, strings.Trim(text[:at[0]]+part+","+text[at[1]:], ", "), nil
	}
	n, err := numberSaid(group(3))
	if err == nil && group(2) != "" {
		var least float64
		least, err = numberSaid(group(2))
		n = (least + n) / 2
	}
	if err != nil {
		return 0, rest, err
	}
	unit := group(4)
	if strings.HasPrefix(unit, "millim") || strings.HasPrefix(unit, "centim") {
		unit = unit[:1] + "m"
	}
	mm, err = BodyLength(fmt.Sprintf("%v %s", math.Round(n*1e4)/1e4, unit))
	return mm, rest, err
}

// The groups are a part before, the lesser of two numbers, the number, its unit, and a
// part behind.
var lengthSaid = pattern.New(`(?i)(?:\b` + partsSaid + ` (?:are |is )?)?` +
	`(?:\b(?:it is|it's|about|around|roughly|nearly|almost|maybe|some|just over|just under|over|under|up to) )*` +
	`(?:` + numbers + `\s*(?:-|–|\bto\b|\bor\b)\s*)?` + numbers +
	`[\s-]*(mm|cm|millimet(?:er|re)s?|centimet(?:er|re)s?|inches|inch|in)\b` +
	`(?: (?:long|in length|big|in size)\b)?(?: ` + partsSaid + `\b)?`)

var wordBehind = pattern.New(`^ [a-z]`)

const (
	partsSaid = `(tails?|legs?|feelers?|antennae|gills?|tube|cases?|claws?|pincers|jaws|hooks?|eyes?)`
	numbers   = `(\b\d+\s+\d/\d+|\b\d/\d+|\b\d+(?:[.,]\d+)?|\b(?:one|two|three|four) and a half|\bhalf an?|\bhalf|\ba half|` +
		`\b(?:a )?quarter of an?|\b(?:a )?quarter|\bthree quarters of an?|` +
		`\ban?|\bone|\btwo|\bthree|\bfour|\bfive|\bsix|\bseven|\beight|\bnine|\bten)`
)

var wholes = map[string]float64{"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
	"eight": 8, "nine": 9, "ten": 10}

// numberSaid reads "12", "0,5", "1 1/2", "half an", "two and a half", "seven".
func numberSaid(said string) (float64, error) {
	said, halfMore := strings.CutSuffix(said, " and a half")
	if n, ok := wholes[said]; ok {
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
