// Package units reads lengths, areas, counts and shares as people write them: in
// metric units or feet and inches, with a point or a comma. Its errors say what
// would be right.
package units

import (
	"cmp"
	"math"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// metresPer are exact: the international foot is 0.3048 m.
func metresPer() map[string]float64 {
	return map[string]float64{
		"m": 1, "cm": 0.01, "mm": 0.001, "ft": 0.3048, "foot": 0.3048, "feet": 0.3048, "in": 0.0254, "inch": 0.0254, "inches": 0.0254,
		"'": 0.3048, "′": 0.3048, `"`: 0.0254, "″": 0.0254, "yd": 0.9144, "yard": 0.9144, "yards": 0.9144,
		"metre": 1, "metres": 1, "meter": 1, "meters": 1, "centimetre": 0.01, "centimetres": 0.01, "centimeter": 0.01, "centimeters": 0.01,
		"millimetre": 0.001, "millimetres": 0.001, "millimeter": 0.001, "millimeters": 0.001,
	}
}

// squareMetresOf is a unit of area, a unit of length that is squared: m2, m^2, sq ft, square
// inches.
func squareMetresOf(unit string) (float64, bool) {
	length := unit
	for _, squared := range []string{"2", "²", "^2", "squared"} {
		length = strings.TrimSuffix(length, squared)
	}
	for _, square := range []string{"square", "sq"} {
		length = strings.TrimPrefix(length, square)
	}
	metres, known := metresPer()[strings.TrimSuffix(length, "^")]
	return metres * metres, known && length != unit
}

func metresOf(unit string) (float64, bool) {
	metres, known := metresPer()[unit]
	return metres, known
}

// Metres reads a length such as "2 ft", "60cm" or "0.6" (metres).
func Metres(s string) (float64, error) {
	return measure(s, "m", metresOf, wording.Text("a length such as 2 ft, 60 cm or 0.6 m"))
}

// SquareMetres reads an area such as "4 sq ft" or "0.37" (square metres), or the
// net's width by the length of bed kicked before it, as "2 ft x 2 ft".
func SquareMetres(s string) (float64, error) {
	if net, bed, ok := widthByLength(s); ok {
		width, err := Metres(net)
		if err != nil {
			return 0, err
		}
		length, err := Metres(bed)
		return roundedArea(scoring.KickArea(width, length)), err
	}
	area, err := measure(s, "m2", squareMetresOf, wording.Text("an area such as 4 sq ft or 0.37 m2"))
	return roundedArea(area), err
}

// roundedArea leaves out what only the arithmetic adds: "3 sq ft" is 0.27870912 square
// metres, to the last digit.
func roundedArea(m2 float64) float64 { return rounded(m2, 1e8) }

// rounded is a number to so many parts of one; what is less than half a part stays, to be
// refused as what it is.
func rounded(v, parts float64) float64 {
	if r := math.Round(v*parts) / parts; r > 0 {
		return r
	}
	return v
}

// Millimetres reads the length of an animal, in millimetres unless it says
// otherwise, to a hundredth: nobody measures closer, whatever an inch comes to.
func Millimetres(s string) (float64, error) {
	m, err := measure(s, "mm", metresOf, wording.Text("a length such as 12, 12 mm or 0.5 in"))
	return rounded(m*1e3, 1e2), err
}

// minBodyLength is in mm: smaller animals are not seen by eye.
const minBodyLength = 0.1

// BodyLength is [Millimetres] where an animal found by eye can have that length.
func BodyLength(s string) (float64, error) {
	mm, err := Millimetres(s)
	if err == nil && (mm < minBodyLength || mm > visit.MaxLength) {
		return 0, wording.Errorf("%s cannot be; it lies between %v and %v mm", s, minBodyLength, visit.MaxLength)
	}
	return mm, err
}

// widthByLength splits "2 x 2 ft" into two lengths; a unit that only the second has is that
// of both.
func widthByLength(s string) (first, second string, ok bool) {
	parts := timesSign().Split(strings.ToLower(s), -1)
	if len(parts) != 2 {
		return "", "", false
	}
	first, second = parts[0], strings.TrimSpace(parts[1])
	if n := strings.IndexFunc(second, unicode.IsLetter); n >= 0 && !strings.ContainsFunc(first, unicode.IsLetter) {
		first += second[n:]
	}
	return first, second, true
}

var timesSign = pattern.New(`\s*(?:[x×*]|\bby\b)\s*`)

// decimalPoint is a number with a point where people write a comma. A comma with three
// digits behind it may separate thousands, and nobody can tell which is meant.
func decimalPoint(number string) (string, error) {
	whole, rest, comma := strings.Cut(number, ",")
	switch {
	case !comma:
		return number, nil
	case strings.ContainsAny(rest, ",.") || strings.Contains(whole, "."):
		return "", wording.Errorf("%q has more than one decimal sign", number)
	case len(rest) == 3 && strings.Trim(whole, "0") != "":
		return "", wording.Errorf("%q may be %s or %s; write it with a point, or without the comma", number, whole+"."+rest, whole+rest)
	}
	return whole + "." + rest, nil
}

// Probability reads a number from 0 to 1, as 0.8, 0,8 or 80 %.
func Probability(s string) (float64, error) {
	text, hundredths := strings.CutSuffix(strings.TrimSpace(s), "%")
	text, err := decimalPoint(strings.TrimSpace(text))
	if err != nil {
		return 0, err
	}
	p, err := strconv.ParseFloat(text, 64)
	if hundredths {
		p /= 100
	}
	if err != nil || !(p >= 0 && p <= 1) {
		return 0, wording.Errorf("%q is no number from 0 to 1, such as 0.1 or 10 %%", s)
	}
	return p, nil
}

func measure(s, unit string, per func(string) (float64, bool), want string) (float64, error) {
	usual, text := unit, strings.ToLower(strings.ReplaceAll(strings.TrimSpace(s), " ", ""))
	cut := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.,+-e", r) })
	if cut < 0 {
		cut = len(text)
	}
	if cut < len(text) {
		unit = text[cut:]
	}
	number, err := decimalPoint(text[:cut])
	if err != nil {
		return 0, err
	}
	n, err := strconv.ParseFloat(number, 64)
	factor, known := per(strings.ReplaceAll(unit, ".", ""))
	if inWords := spelled().FindStringSubmatch(strings.TrimSpace(fractions().Replace(strings.ToLower(s)))); !known && inWords != nil {
		n, err = numberSaid(inWords[1])
		factor, known = per(strings.NewReplacer(" ", "", ".", "").Replace(cmp.Or(inWords[2], usual)))
	}
	if err != nil || !known || math.IsInf(n, 0) || math.IsNaN(n) {
		return 0, wording.Errorf("%q is not %s", s, want)
	}
	if n <= 0 {
		return 0, wording.Errorf("%q is not above zero; give %s", s, want)
	}
	return n * factor, nil
}

// spelled are a number as people say it and a unit, "1 1/2 in" or "half an inch".
var spelled = pattern.New(`^` + numbers + `\s*(.*)$`)

var fractions = sync.OnceValue(func() *strings.Replacer {
	return strings.NewReplacer("½", " 1/2", "⅓", " 1/3", "⅔", " 2/3", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8",
		"⅞", " 7/8")
})

// Animals reads how many animals there are.
func Animals(s string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	if err != nil || n < 1 || n > visit.MaxCount {
		return 0, wording.Errorf("%q is not a count; give a whole number from 1 to %d", s, visit.MaxCount)
	}
	return n, nil
}

// Fraction reads the share of a sample that was sorted, as 0.25 or 1/4.
func Fraction(s string) (float64, error) {
	text := strings.ReplaceAll(strings.TrimSpace(s), " ", "")
	if strings.HasSuffix(text, "%") {
		if share, err := Probability(text); err == nil && share > 0 {
			return share, nil
		}
	}
	over, under, divided := strings.Cut(text, "/")
	over, err := decimalPoint(over)
	if err != nil {
		return 0, err
	}
	share, err := strconv.ParseFloat(over, 64)
	if divided && err == nil {
		var by float64
		by, err = strconv.ParseFloat(under, 64)
		share /= by
	}
	if err != nil || !(share > 0 && share <= 1) {
		return 0, wording.Errorf("%q is not a share of a sample; give it as 1/4 or 0.25, at most 1", s)
	}
	return share, nil
}
