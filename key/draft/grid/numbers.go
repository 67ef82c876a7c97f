package grid

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// How spreadsheets show numbers (ECMA-376, part 1, section 18.8.30 and 18.8.31): by a code
// such as "0.00%" or "d-mmm", with a section each for numbers above and below nought and
// for nought. What such a code says of colours, fractions and other calendars is left out.

// builtInFormats are the codes that styles have by a number alone.
var builtInFormats = [...]string{1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00",
	14: "mm-dd-yy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm", 21: "h:mm:ss",
	22: "m/d/yy h:mm", 37: "#,##0 ;(#,##0)", 38: "#,##0 ;(#,##0)", 39: "#,##0.00;(#,##0.00)", 40: "#,##0.00;(#,##0.00)",
	45: "mm:ss", 46: "[h]:mm:ss", 47: "mm:ss", 48: "##0.0E+0", 49: "@"}

func builtInFormat(id int) string {
	if id < 0 || id >= len(builtInFormats) {
		return ""
	}
	return builtInFormats[id]
}

// epoch tells that days are counted from 1904, not from 1900.
type epoch bool

// mark is one piece of a code: a run of one letter, or what is shown as it is.
type mark struct {
	letter byte // 0 for what is shown as it is
	text   string
}

// shownNumber is a number as a code shows it.
func shownNumber(x float64, code string, from epoch) string {
	sections := sectionsOf(code)
	marks := sections[0]
	switch {
	case x < 0 && len(sections) > 1:
		marks, x = sections[1], -x
	case x == 0 && len(sections) > 2:
		marks = sections[2]
	}
	has := func(is func(mark) bool) bool { return slices.ContainsFunc(marks, is) }
	switch {
	case has(mark.isTime):
		return shownTime(x, marks, from)
	case !has(mark.isDigit), has(func(m mark) bool { return m.letter == '/' || m.letter == 'g' }): // general, text, a fraction
		return general(x)
	}
	return shownDigits(x, marks)
}

// general is a number with fifteen digits, as many as spreadsheets keep.
func general(x float64) string {
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64)
	if m := math.Abs(x); m != 0 && (m < 1e-9 || m >= 1e15) {
		return strconv.FormatFloat(x, 'E', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// sectionsOf parts a code into its sections and these into marks.
func sectionsOf(code string) [][]mark {
	all := [][]mark{nil}
	for code != "" {
		if code[0] == ';' {
			all = append(all, nil)
			code = code[1:]
			continue
		}
		m, n := markOf(code)
		if m != (mark{}) {
			all[len(all)-1] = append(all[len(all)-1], m)
		}
		code = code[n:]
	}
	return all
}

// markOf is the mark at the beginning of a code, empty for none, and how many bytes it takes.
func markOf(code string) (m mark, n int) {
	c, rest := code[0], code[1:]
	begins := func(word string) bool { return len(code) >= len(word) && strings.EqualFold(code[:len(word)], word) }
	switch {
	case c == '"':
		literal, _, _ := strings.Cut(rest, `"`)
		return mark{text: literal}, min(len(literal)+2, len(code))
	case c == '[':
		inside, _, _ := strings.Cut(rest, "]")
		if begins("[h") {
			m = mark{'h', "[h]"}
		}
		return m, min(len(inside)+2, len(code))
	case c == '\\' && rest != "":
		return mark{text: rest[:1]}, 2
	case c == '_' && rest != "": // room as wide as the character behind it
		return mark{text: " "}, 2
	case c == '*' && rest != "": // what fills the cell
		return mark{}, 2
	case begins("AM/PM"):
		return mark{'p', code[:5]}, 5
	case begins("general"):
		return mark{'g', code[:7]}, 7
	case begins("E+"), begins("E-"):
		return mark{'E', code[:2]}, 2
	}
	for n < len(code) && code[n] == c {
		n++
	}
	switch lower := c | 0x20; {
	case strings.IndexByte(ofTime, lower) >= 0:
		return mark{lower, code[:n]}, n
	case strings.IndexByte("0#?.,%/@", c) >= 0:
		return mark{c, code[:n]}, n
	}
	return mark{text: code[:n]}, n
}

// ofTime are the letters of days and times.
const ofTime = "ymdhs"

func (m mark) isTime() bool { return m.letter != 0 && strings.IndexByte(ofTime, m.letter) >= 0 }

func (m mark) isDigit() bool { return m.letter == '0' || m.letter == '#' || m.letter == '?' }

// shownDigits is a number by its places.
func shownDigits(x float64, marks []mark) string {
	var least, always, most, exponent int // digits before the point, behind it, at most there, of the power
	var behind, thousands, power bool
	for i, m := range marks {
		switch m.letter {
		case '.':
			behind = true
		case '%':
			x *= 100
		case 'E':
			power = true
		case ',':
			thousands = thousands || i+1 < len(marks) && !behind && marks[i+1].isDigit()
		case '0', '#', '?':
			n := len(m.text)
			switch {
			case power:
				exponent += n
			case behind:
				if most += n; m.letter == '0' {
					always = most
				}
			case m.letter == '0':
				least += n
			}
		}
	}
	var text string
	if power {
		text = scientific(x, most, exponent)
	} else {
		text = places(x, least, always, most, thousands)
	}
	var b strings.Builder
	said := false
	for _, m := range marks {
		switch {
		case m.letter == 0 || m.letter == '%':
			b.WriteString(m.text)
		case m.isDigit() && !said:
			said = true
			b.WriteString(text)
		}
	}
	return strings.TrimSpace(b.String())
}

func places(x float64, least, always, most int, thousands bool) string {
	x *= 1 + 1e-15 // a half goes up as it is written, with fifteen digits
	whole, fraction, _ := strings.Cut(strconv.FormatFloat(math.Abs(x), 'f', min(most, 30), 64), ".")
	for len(fraction) > always && fraction[len(fraction)-1] == '0' {
		fraction = fraction[:len(fraction)-1]
	}
	whole = strings.Repeat("0", max(0, min(least, 30)-len(whole))) + whole
	if thousands {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + "," + whole[i:]
		}
	}
	if fraction != "" {
		whole += "." + fraction
	}
	if x < 0 && strings.Trim(whole, "0.,") != "" {
		whole = "-" + whole
	}
	return whole
}

func scientific(x float64, most, exponent int) string {
	number, power, _ := strings.Cut(strconv.FormatFloat(x, 'E', min(most, 30), 64), "E")
	sign, digits := power[:1], strings.TrimLeft(power[1:], "0")
	return number + "E" + sign + strings.Repeat("0", max(0, min(exponent, 9)-len(digits))) + digits
}

// shownTime is a number of days as a day and a time.
func shownTime(days float64, marks []mark, from epoch) string {
	const last = 2958466 // the first day of the year 10000
	if days < 0 || days >= last {
		return general(days)
	}
	first := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	switch {
	case bool(from):
		first = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	case days < 60: // 1900 is taken for a leap year
		first = first.AddDate(0, 0, 1)
	}
	seconds := math.Round(math.Mod(days, 1) * 86400)
	at := first.AddDate(0, 0, int(days)).Add(time.Duration(seconds) * time.Second)
	half := slices.ContainsFunc(marks, func(m mark) bool { return m.letter == 'p' })
	var b strings.Builder
	for i, m := range marks {
		if m.letter == 'm' && ofMinutes(marks, i) {
			m.letter = 'n'
		}
		b.WriteString(piece(m, at, half, days))
	}
	return strings.TrimSpace(b.String())
}

// ofMinutes tells that an m stands for minutes: behind hours or before seconds.
func ofMinutes(marks []mark, i int) bool {
	for _, m := range slices.Backward(marks[:i]) {
		if m.isTime() {
			if m.letter == 'h' {
				return true
			}
			break
		}
	}
	next := slices.IndexFunc(marks[i+1:], mark.isTime)
	return next >= 0 && marks[i+1+next].letter == 's'
}

// piece is one mark of a day or a time; half is on a clock of twelve hours.
func piece(m mark, at time.Time, half bool, days float64) string {
	layouts := map[byte][]string{'y': {"06", "06", "2006"}, 'm': {"1", "01", "Jan", "January"}, 'd': {"2", "02", "Mon", "Monday"},
		'n': {"4", "04"}, 's': {"5", "05"}}
	switch m.letter {
	case 'h':
		switch {
		case m.text == "[h]":
			return strconv.Itoa(int(math.Round(days*86400)) / 3600)
		case half:
			return at.Format([]string{"3", "03"}[min(len(m.text), 2)-1])
		case len(m.text) == 1:
			return strconv.Itoa(at.Hour())
		}
		return at.Format("15")
	case 'p':
		return at.Format("PM")
	case '0', '#', '?', '@':
		return ""
	}
	if of, ok := layouts[m.letter]; ok {
		return at.Format(of[min(len(m.text), len(of))-1])
	}
	return m.text
}
