package grid

import (
	"math"
	"strconv"
	"strings"
)

// fraction is a number as a section with a slash shows it: "# ?/?", "# ?/16", "?/?". It is none where
// no places stand on both sides of the slash.
func (s *section) fraction(d decimal, over int) (string, bool) {
	above := over // the first part of the numerator
	for above > 0 && s.parts[above-1].kind == digit {
		above--
	}
	below, fixed := over+1, "" // behind the last part of the denominator, and that which is set
	for ; below < len(s.parts); below++ {
		p := s.parts[below]
		if p.kind == literal && len(p.text) == 1 && '0' <= p.text[0] && p.text[0] <= '9' || p.kind == digit && fixed != "" {
			fixed += p.text
		} else if p.kind != digit {
			break
		}
	}
	width := below - over - 1
	if above == over || width == 0 || width > 7 {
		return "", false
	}
	before, after := d.whole()
	rest, err := strconv.ParseFloat("0."+after+"0", 64)
	whole, err2 := strconv.ParseFloat("0"+before, 64)
	if err != nil || err2 != nil {
		return "", false
	}
	proper := s.count(0, above) > 0
	if !proper {
		rest, whole = rest+whole, 0
	}
	var a, b float64
	if set, err := strconv.ParseFloat(fixed, 64); err == nil && set > 0 {
		a, b = math.Round(rest*set), set
	} else {
		a, b = ratio(rest, math.Pow10(width)-1)
	}
	if proper && a == b {
		a, whole = 0, whole+1
	}
	if before = ""; whole > 0 {
		before = strconv.FormatFloat(whole, 'f', 0, 64)
	}
	if proper && a == 0 && before == "" {
		before = "0"
	}
	shown := s.integer(before, 0, above, false)
	if proper && a == 0 {
		return shown + strings.Repeat(" ", over-above+1+width) + s.decimals("", below, len(s.parts)), true
	}
	numerator, denominator := strconv.FormatFloat(a, 'f', 0, 64), strconv.FormatFloat(b, 'f', 0, 64)
	return shown + s.integer(numerator, above, over, false) + "/" + denominator + strings.Repeat(" ", max(0, width-len(denominator))) +
		s.decimals("", below, len(s.parts)), true
}

// ratio is the fraction nearest to x whose denominator is at most that: the convergents of its
// continued fraction, and the last one between two of them that is nearer (Hardy & Wright,
// An Introduction to the Theory of Numbers, chapter X).
func ratio(x, most float64) (a, b float64) {
	a0, b0, a1, b1 := 0.0, 1.0, 1.0, 0.0
	for rest, i := x, 0; i < 64; i++ {
		q := math.Floor(rest)
		a2, b2 := q*a1+a0, q*b1+b0
		if b2 > most {
			q = math.Floor((most - b0) / b1)
			if a2, b2 = q*a1+a0, q*b1+b0; b2 > 0 && math.Abs(a2/b2-x) < math.Abs(a1/b1-x) {
				return a2, b2
			}
			return a1, b1
		}
		a0, b0, a1, b1 = a1, b1, a2, b2
		if rest-q < 1e-9 {
			break
		}
		rest = 1 / (rest - q)
	}
	return a1, b1
}
