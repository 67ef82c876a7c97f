package grid

import (
	"math"
	"strconv"
	"strings"
)

// number is a number as the code shows it. What a code cannot show, as a day before all days, is shown
// as it is.
func (c numberCode) number(n float64, from1904 bool) string {
	for _, s := range c {
		if s.isText || !s.when.holds(n) {
			continue
		}
		switch {
		case s.isDate:
			if text, ok := s.date(n, from1904); ok {
				return text
			}
			return general(n)
		case len(s.parts) == 0:
			return ""
		}
		return s.number(n)
	}
	return general(n)
}

// text is a text as the code shows it.
func (c numberCode) text(text string) string {
	if text == "" || len(c) == 0 || !c[len(c)-1].isText {
		return text
	}
	shown := ""
	for _, p := range c[len(c)-1].parts {
		if p.kind == itself {
			shown += text
		} else {
			shown += p.text
		}
	}
	return shown
}

// general is a number of 15 digits at most, which is what spreadsheets keep.
func general(n float64) string {
	if text := strconv.FormatFloat(n, 'f', -1, 64); len(strings.Trim(text, "-.0")) <= 15 {
		return text
	}
	return strconv.FormatFloat(n, 'G', 15, 64)
}

// decimal is a number not below 0: 0.DIGITS times 10 to the power of a place. Its digits do not
// end in 0; 0 has none.
type decimal struct {
	digits string
	place  int
}

// decimalOf is a number of 15 digits.
func decimalOf(n float64) decimal {
	mantissa, power, _ := strings.Cut(strconv.FormatFloat(math.Abs(n), 'e', 14, 64), "e")
	place, _ := strconv.Atoi(power)
	return decimal{strings.Replace(mantissa, ".", "", 1), place + 1}.trimmed()
}

func (d decimal) trimmed() decimal {
	if d.digits = strings.TrimRight(d.digits, "0"); d.digits == "" {
		d.place = 0
	}
	return d
}

// rounded is the number with so many decimals, half of one upwards.
func (d decimal) rounded(decimals int) decimal {
	keep := d.place + decimals
	switch {
	case keep >= len(d.digits):
		return d
	case keep < 0:
		return decimal{}
	}
	up := d.digits[keep] >= '5'
	kept := []byte(d.digits[:keep])
	for i := keep - 1; up && i >= 0; i-- {
		if kept[i]++; kept[i] <= '9' {
			up = false
		} else {
			kept[i] = '0'
		}
	}
	if up {
		kept, d.place = append([]byte{'1'}, kept...), d.place+1
	}
	return decimal{string(kept), d.place}.trimmed()
}

// whole are the digits before the point, none for 0, and those behind it.
func (d decimal) whole() (before, after string) {
	switch {
	case d.place <= 0:
		return "", strings.Repeat("0", min(-d.place, 400)) + d.digits
	case d.place >= len(d.digits):
		return d.digits + strings.Repeat("0", d.place-len(d.digits)), ""
	}
	return d.digits[:d.place], d.digits[d.place:]
}

// number is the number as a section shows it.
func (s *section) number(n float64) string {
	shown := s.amount(n)
	if n < 0 && !s.negative {
		return "-" + shown
	}
	return shown
}

func (s *section) amount(n float64) string {
	d := decimalOf(n)
	first, last, dot, power, over := -1, -1, -1, -1, -1 // places of parts
	for i, p := range s.parts {
		switch p.kind {
		case digit:
			if first < 0 {
				first = i
			}
			last = i
		case point:
			if dot < 0 && power < 0 {
				dot = i
			}
		case exponent:
			if power < 0 && last >= 0 {
				power = i
			}
		case slash:
			if over < 0 && last >= 0 {
				over = i
			}
		case percent:
			d.place += 2
		}
	}
	d = d.trimmed()
	switch {
	case s.isPlain || first < 0:
		return s.literal(n)
	case power >= 0:
		return s.scientific(d, dot, power)
	case over >= 0:
		if text, ok := s.fraction(d, over); ok {
			return text
		}
	}
	end, grouped := len(s.parts), false
	beforeDot := end
	if dot >= 0 {
		beforeDot = dot
	}
	d, grouped = s.scaled(d, beforeDot)
	d = d.rounded(s.count(beforeDot, end))
	before, after := d.whole()
	return s.integer(before, 0, beforeDot, grouped) + s.decimals(after, beforeDot, end)
}

// literal gives the text of a section without places for digits: what stands there, and the number where it says
// "General".
func (s *section) literal(n float64) string {
	shown := ""
	for _, p := range s.parts {
		switch p.kind {
		case plain:
			shown += general(math.Abs(n))
		case itself:
			shown += general(n)
		default:
			shown += p.text
		}
	}
	return shown
}

// count is how many places for digits stand between two parts.
func (s *section) count(from, to int) (n int) {
	for _, p := range s.parts[from:to] {
		if p.kind == digit {
			n++
		}
	}
	return n
}

// scaled is the number divided by 1000 for every comma behind the last place for a digit before the
// point, or behind all; grouped whether a comma stands between places.
func (s *section) scaled(d decimal, dot int) (_ decimal, grouped bool) {
	behind := 0
	for i := range s.parts[:dot] {
		switch s.parts[i].kind {
		case comma:
			behind++
		case digit:
			grouped = grouped || behind > 0 && s.count(0, i) > 0
			behind = 0
		}
	}
	d.place -= 3 * behind
	behind = 0
	for i := dot; i < len(s.parts); i++ {
		switch s.parts[i].kind {
		case comma:
			behind++
		case digit:
			behind = 0
		}
	}
	d.place -= 3 * behind
	return d.trimmed(), grouped
}

// integer is the part of a section before the point: digits go to its places from the right, all that
// are left to the first of them.
func (s *section) integer(digits string, from, to int, grouped bool) string {
	shown, done, left := "", 0, s.count(from, to)
	put := func(c string) {
		if grouped && done > 0 && done%3 == 0 && c != " " {
			c += ","
		}
		shown = c + shown
		done++
	}
	take := func() {
		put(digits[len(digits)-1:])
		digits = digits[:len(digits)-1]
	}
	for i := to - 1; i >= from; i-- {
		p := s.parts[i]
		if p.kind == comma {
			continue
		}
		if p.kind != digit {
			shown = p.text + shown
			continue
		}
		left--
		switch {
		case digits != "":
			take()
		case p.text == "0":
			put("0")
		case p.text == "?":
			put(" ")
		}
		for left == 0 && digits != "" {
			take()
		}
	}
	return shown
}

// decimals is the part of a section from the point on, which is not shown if no digit follows.
func (s *section) decimals(digits string, from, to int) string {
	shown := ""
	pointed := digits != ""
	for _, p := range s.parts[from:to] {
		pointed = pointed || p.kind == digit && p.text != "#"
	}
	for _, p := range s.parts[from:to] {
		switch {
		case p.kind == comma, p.kind == point && !pointed:
		case p.kind != digit:
			shown += p.text
		case digits != "":
			shown += digits[:1]
			digits = digits[1:]
		case p.text == "0":
			shown += "0"
		case p.text == "?":
			shown += " "
		}
	}
	return shown
}

// scientific is a number with a power of 10, which is a multiple of how many places stand before
// the point.
func (s *section) scientific(d decimal, dot, power int) string {
	beforeDot := power
	if dot >= 0 && dot < power {
		beforeDot = dot
	}
	places := max(1, s.count(0, beforeDot))
	exp := 0
	for range 2 { // rounding may give one more digit
		if d.digits != "" {
			exp = int(math.Floor(float64(d.place-1)/float64(places))) * places
		}
		d = decimal{d.digits, d.place - exp}.rounded(s.count(beforeDot, power))
		if d.place <= places {
			break
		}
		d.place += exp
	}
	before, after := d.whole()
	sign := ""
	switch {
	case exp < 0:
		sign = "-"
	case s.parts[power].text == "E+":
		sign = "+"
	}
	exponent := ""
	if exp != 0 {
		exponent = strconv.Itoa(max(exp, -exp))
	}
	end := len(s.parts)
	return s.integer(before, 0, beforeDot, false) + s.decimals(after, beforeDot, power) + "E" + sign +
		s.integer(exponent, power+1, end, false)
}
