package grid

import (
	"strconv"
	"strings"
)

// numberCode is how numbers, days and texts are shown: up to four sections, as ECMA-376, part 1,
// 18.8.31 (numFmts) has them. The empty one shows them as they are.
type numberCode []section

// section is the part of a code for some of the values.
type section struct {
	when     condition
	parts    []part
	language string // of the names of months and days: a number of [MS-LCID], or a tag
	negative bool   // for numbers below 0 alone, whose minus it does not show
	isDate   bool
	isText   bool
	isPlain  bool // has "General"
}

// condition is which numbers a section is for: "<", "<=", ">", ">=", "<>", "=", or nothing for all.
type condition struct {
	operator string
	operand  float64
}

func (c condition) holds(n float64) bool {
	switch c.operator {
	case "<":
		return n < c.operand
	case "<=":
		return n <= c.operand
	case ">":
		return n > c.operand
	case ">=":
		return n >= c.operand
	case "<>":
		return n != c.operand
	case "=":
		return n == c.operand
	}
	return true
}

type partKind int

const (
	literal  partKind = iota // what stands there
	digit                    // 0, # or ?
	point                    // of decimals
	comma                    // between digits, of thousands; behind them, a division by 1000
	percent                  // "%"
	exponent                 // "E+" or "E-"
	slash                    // of a fraction
	plain                    // "General"
	itself                   // "@", the text
	calendar                 // one or more of one letter of y m d h s e a, in lower case
	elapsed                  // the same of h m s, of all the time since day 0
	halfDay                  // "AM/PM" or "A/P"
)

// part is what a code says between two others of its parts.
type part struct {
	kind partKind
	text string
}

// codeReader reads a code.
type codeReader struct {
	code string // what is left of it
	section
	sections numberCode
}

// readNumberCode reads a code. One of more than four sections is none.
func readNumberCode(code string) numberCode {
	r := codeReader{code: code}
	for r.code != "" {
		if strings.HasPrefix(r.code, ";") {
			r.code = r.code[1:]
			r.end()
			continue
		}
		kind, text, length := r.next()
		r.code = r.code[length:]
		if text != "" {
			r.parts = append(r.parts, part{kind, text})
		}
	}
	if r.end(); len(r.sections) > 4 {
		return nil
	}
	return r.sections.withDefaults()
}

func (r *codeReader) end() {
	for _, p := range r.parts {
		r.isDate = r.isDate || p.kind == calendar || p.kind == elapsed || p.kind == halfDay
		r.isText = r.isText || p.kind == itself
		r.isPlain = r.isPlain || p.kind == plain
	}
	r.sections = append(r.sections, r.section)
	r.section = section{}
}

// withDefaults are the sections with the conditions that the code leaves out: the first of two is
// for 0 and above, the first of three for what is above 0, the second of three for what is below 0.
func (c numberCode) withDefaults() numberCode {
	numbers := c
	if n := len(c); n == 4 || n > 1 && c[n-1].isText {
		c[n-1].isText = true
		numbers = c[:n-1]
	}
	if n := len(numbers); n > 1 {
		own := numbers[0].when.operator != "" || numbers[1].when.operator != ""
		switch {
		case numbers[0].when.operator != "":
		case n == 2:
			numbers[0].when = condition{">=", 0}
		default:
			numbers[0].when = condition{">", 0}
		}
		if numbers[1].when.operator == "" && n == 3 {
			numbers[1].when = condition{"<", 0}
		}
		numbers[1].negative = !own
	}
	for i, s := range numbers {
		if w := s.when; w.operator == "<" && w.operand <= 0 || w.operator == "<=" && w.operand < 0 {
			numbers[i].negative = true
		}
	}
	return c
}

// next is the next part of a code and its length in it; one without text is not shown.
func (r *codeReader) next() (kind partKind, text string, length int) {
	first, folded := r.code[0], strings.ToLower(r.code)
	switch first {
	case '"':
		text, _, _ = strings.Cut(r.code[1:], `"`)
		return literal, text, min(len(text)+2, len(r.code))
	case '\\', '!', '_', '*':
		if len(r.code) == 1 {
			return literal, "", 1
		}
		text = firstRune(r.code[1:])
		switch length = 1 + len(text); first {
		case '_': // as wide as that character
			text = " "
		case '*': // as often as the column is wide
			text = ""
		}
		return literal, text, length
	case '[':
		text, _, _ = strings.Cut(r.code[1:], "]")
		kind, shown := r.bracketed(text)
		return kind, shown, min(len(text)+2, len(r.code))
	case '0', '#', '?':
		return digit, r.code[:1], 1
	case '.':
		return point, ".", 1
	case ',':
		return comma, ",", 1
	case '%':
		return percent, "%", 1
	case '/':
		return slash, "/", 1
	case '@':
		return itself, "@", 1
	}
	switch {
	case strings.HasPrefix(folded, "general"):
		return plain, "General", len("General")
	case strings.HasPrefix(folded, "am/pm"):
		return halfDay, "AM/PM", len("AM/PM")
	case strings.HasPrefix(folded, "a/p"):
		return halfDay, r.code[:len("A/P")], len("A/P")
	case strings.HasPrefix(folded, "e+"), strings.HasPrefix(folded, "e-"):
		return exponent, "E" + r.code[1:2], 2
	}
	if strings.IndexByte("ymdhsea", folded[0]) >= 0 {
		run := folded[:len(folded)-len(strings.TrimLeft(folded, folded[:1]))]
		if folded[0] != 'a' || len(run) > 2 { // aaa, aaaa: days of the week
			return calendar, run, len(run)
		}
	}
	text = firstRune(r.code)
	return literal, text, len(text)
}

func firstRune(s string) string {
	for i := range s {
		if i > 0 {
			return s[:i]
		}
	}
	return s
}

// bracketed is what stands in brackets: a currency with a language, a condition, time that
// elapsed; a colour, or a kind of numerals, which is not shown.
func (r *codeReader) bracketed(text string) (kind partKind, shown string) {
	if currency, ok := strings.CutPrefix(text, "$"); ok {
		currency, language, ok := strings.Cut(currency, "-")
		if ok {
			r.language = language
		}
		return literal, currency
	}
	folded := strings.ToLower(text)
	if folded != "" && strings.Trim(folded, folded[:1]) == "" && strings.Contains("hms", folded[:1]) {
		return elapsed, folded
	}
	operand := strings.TrimLeft(text, "<>=")
	if n, err := strconv.ParseFloat(strings.TrimSpace(operand), 64); err == nil && operand != text {
		r.when = condition{text[:len(text)-len(operand)], n}
	}
	return literal, ""
}

// builtInCode is the code of a number that needs none in the file (18.8.30, numFmt), "" for the others.
// Spreadsheets show 14 and 22 as the reader's country writes days; here they are as the standard lists
// them. Those of 41 to 44, amounts of money, it leaves to the country (common practice, American).
func builtInCode(id int) string {
	if id < 0 || id >= len(builtInCodes) {
		return ""
	}
	return builtInCodes[id]
}

var builtInCodes = [...]string{
	1:  "0",
	2:  "0.00",
	3:  "#,##0",
	4:  "#,##0.00",
	9:  "0%",
	10: "0.00%",
	11: "0.00E+00",
	12: "# ?/?",
	13: "# ??/??",
	14: "mm-dd-yy",
	15: "d-mmm-yy",
	16: "d-mmm",
	17: "mmm-yy",
	18: "h:mm AM/PM",
	19: "h:mm:ss AM/PM",
	20: "hh:mm",
	21: "hh:mm:ss",
	22: "m/d/yy hh:mm",
	37: "#,##0 ;(#,##0)",
	38: "#,##0 ;(#,##0)",
	39: "#,##0.00 ;(#,##0.00)",
	40: "#,##0.00 ;(#,##0.00)",
	41: `_(* #,##0_);_(* \(#,##0\);_(* "-"_);_(@_)`,
	42: `_("$"* #,##0_);_("$"* \(#,##0\);_("$"* "-"_);_(@_)`,
	43: `_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)`,
	44: `_("$"* #,##0.00_);_("$"* \(#,##0.00\);_("$"* "-"??_);_(@_)`,
	45: "mm:ss",
	46: "[h]:mm:ss",
	47: "mm:ss.0",
	48: "##0.0E+0",
	49: "@",
}
