package draft

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// cellKind is what a cell holds beside states.
type cellKind int

const (
	states cellKind = iota
	unknown
	unknownWord // which is better written as ?
	notApplicable
	spreadsheetError
	date
	doubtful
)

// What people write where they know nothing, and what may mean anything.
var (
	unknownSigns = []string{"", "?", "-", "--", "–", "—"}
	unknownWords = []string{wording.Mark("unknown"), wording.Mark("not known"), "unk", wording.Mark("don't know"), "dont know",
		wording.Mark("no data"), wording.Mark("not seen"), "??", "???"}
	inapplicable = []string{"n/a", "n.a.", "n.a", "na", "#n/a", wording.Mark("not applicable"),
		wording.Mark("varies"), wording.Mark("see note"), wording.Mark("see notes"), "tbd", "nan", "null"}
	sheetErrors = pattern.New(`^#(REF|VALUE|DIV/0|NAME|NUM|NULL)[!?]?$|^=.`)
	numericDate = pattern.New(`^(\d{1,4})([-/.])(\d{1,2})([-/.])(\d{1,4})$`)
	monthDate   = pattern.New(`(?i)^\d{1,4}[-/. ]*(` + months + `)\.?([-/. ,]*\d{1,4})?$|^(` + months +
		`)\.?[-/. ]*\d{1,4}([-/. ,]+\d{1,4})?$`)
	doubtfulState = pattern.New(`^\S.*\?+$|^\?+\s*\S`)
)

// months are the names of months, whole and cut short, in some languages in which
// spreadsheets write dates.
const months = "jan(?:uary|uar|vier|v)?|feb(?:ruary|ruar)?|f[eé]v(?:rier|r)?|mar(?:ch|s|zo)?|m[aä]r(?:z)?|mrz|" +
	"apr(?:il)?|avr(?:il)?|abr(?:il)?|may|mai|mei|" +
	"june?|juni|juin|july?|juli|juil(?:let)?|aug(?:ust)?|août|ago(?:sto)?|sept?(?:ember)?|set|" +
	"oct(?:ober|obre)?|okt(?:ober)?|out|nov(?:ember|embre)?|" +
	"dec(?:ember)?|dez(?:ember)?|d[eé]c(?:embre)?|dic|ene(?:ro)?"

// kindOf tells what a cell holds; a sheet says the same in many of them.
func (r *sheetReader) kindOf(text string) cellKind {
	kind, known := r.kinds[text]
	if !known {
		kind = kindOf(text)
		r.kinds[text] = kind
	}
	return kind
}

func kindOf(text string) cellKind {
	small := strings.ToLower(text)
	in := func(words []string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return small == w || small == wording.Text(w) })
	}
	switch {
	case slices.Contains(unknownSigns, text):
		return unknown
	case in(unknownWords):
		return unknownWord
	case in(inapplicable):
		return notApplicable
	case sheetErrors().MatchString(text):
		return spreadsheetError
	case isDate(text):
		return date
	case doubtfulState().MatchString(text):
		return doubtful
	}
	return states
}

// isDate reports whether a spreadsheet made a date of the cell. Three numbers
// parted by strokes, such as 6/8/10, may be three states: a date has a year of
// four figures or a zero before a number.
func isDate(text string) bool {
	if monthDate().MatchString(text) {
		return true
	}
	m := numericDate().FindStringSubmatch(text)
	if m == nil || m[2] != m[4] {
		return false
	}
	if m[2] != "/" {
		return true
	}
	for _, n := range []string{m[1], m[3], m[5]} {
		if len(n) == 4 || len(n) == 2 && n[0] == '0' {
			return true
		}
	}
	return false
}

// refuse reports a cell that holds no states, and whether it did.
func (r *sheetReader) refuse(field int, text string) bool {
	at, shown := r.pos(field), plain.Quote(text)
	switch r.kindOf(text) {
	case notApplicable:
		r.fail(at, "not-applicable", wording.Sprintf("%s does not say what an animal shows here", shown),
			wording.Text(`write a state such as "none" where the part is missing, or ? where nothing is known`))
	case spreadsheetError:
		r.fail(at, "sheet-error", wording.Sprintf("%s is a formula or an error of the spreadsheet, not a state", shown),
			wording.Text("correct its formula, or type the state in"))
	case date:
		r.fail(at, "date", wording.Sprintf("%s is a date: spreadsheets make one of 2/3 and of 2-3", shown),
			wording.Text("make the column plain text and write 2|3, which no spreadsheet takes for a date"))
	case doubtful:
		r.fail(at, "doubtful-cell", wording.Sprintf("%s is half a state and half unknown", shown),
			wording.Text("write the state alone, or ? alone"))
	default:
		return false
	}
	return true
}

// meaningSigns change what a number says, and are in no id.
const meaningSigns = "<>=≤≥≦≧~≈≃±+×%"

// signsOf are those of a state's text.
func signsOf(text string) string {
	signs := strings.Map(func(r rune) rune {
		if strings.ContainsRune(meaningSigns, r) {
			return r
		}
		return -1
	}, text)
	if belowZero().MatchString(text) {
		signs += "-"
	}
	return signs
}

// seen is where a state of a column was met first, and how often it was met.
type seen struct {
	pos   authored.Pos
	text  string
	times int
}

// The joins by which one cell may mean several states.
var (
	joins      = pattern.New(`\s*[,;+&]\s*`)
	numberSpan = pattern.New(`^(\d+(?:\.\d+)?)\s*[-–—]\s*(\d+(?:\.\d+)?)$`)
	figures    = pattern.New(`^\d+(?:\.\d+)?$`)
	belowZero  = pattern.New(`^[-−–]\s*\d`)
	hedges     = pattern.New(`(?i)\s*[()]?\s*\b(?:usually|mostly|mainly|often|sometimes|seldom|rarely|perhaps|maybe|probably)\b\s*|\s*[()]`)
	joinWords  = []string{wording.Mark(" or "), wording.Mark(" to "), wording.Mark(" and ")}
)

// partsOf are the parts that a state's text may be made of, nil for a plain one.
func partsOf(text string) []string {
	if m := numberSpan().FindStringSubmatch(text); m != nil {
		return m[1:]
	}
	if parts := joins().Split(text, -1); len(parts) > 1 {
		return parts
	}
	if parts := joinedByWords(text); parts != nil {
		return parts
	}
	if parts := hedges().Split(text, -1); len(parts) > 1 {
		return parts
	}
	return nil
}

// joinedByWords are the parts of "2 or 3", in English or in the language in use; nil
// where no such word parts the text.
func joinedByWords(text string) []string {
	for _, word := range joinWords {
		for _, w := range []string{word, wording.Text(word)} {
			if at := strings.Index(strings.ToLower(text), w); at > 0 {
				return []string{strings.TrimSpace(text[:at]), strings.TrimSpace(text[at+len(w):])}
			}
		}
	}
	return nil
}

// isJoinedFigures reports whether a text is several figures, as "2 or 3" is.
func isJoinedFigures(text string) bool {
	parts := joinedByWords(text)
	return len(parts) > 0 && !slices.ContainsFunc(parts, func(p string) bool { return !figures().MatchString(p) })
}

// question looks at the states of all columns once the sheet has been read: one
// whose parts stand in its column too was meant as several, and one met once may
// be misspelt.
func (r *sheetReader) question() {
	var near, once authored.Findings
	others := slices.ContainsFunc(r.seen, func(all []seen) bool { return len(all) > 1 && !allDiffer(all) })
	for column, all := range r.seen {
		trait := r.sheet.Traits[column]
		if allDiffer(all) && others {
			near = append(near, authored.Finding{
				Pos: all[0].pos, Rule: "all-differ",
				Message: wording.Sprintf("no two rows say the same in the column %s, so it is taken for a note and left out",
					plain.Quote(trait.ID)),
				Hint: wording.Text("call it notes or scientific name; if it is a trait, group its states")})
			trait.States = nil
			continue
		}
		for k, s := range all {
			if isJoinedFigures(s.text) {
				r.fail(s.pos, "joined-states", wording.Sprintf("%s is several numbers in one cell", plain.Quote(s.text)),
					wording.Text("write them as 2|3, which is either"))
				continue
			}
			if part := r.partIn(column, k); part != "" {
				r.fail(s.pos, "joined-states",
					wording.Sprintf("%s may be several states: %s stands in the column %s by itself", plain.Quote(s.text),
						plain.Quote(part), plain.Quote(trait.ID)),
					wording.Text("write several states as 2|3; if it is one state, give it a name of its own"))
				continue
			}
			if s.times > 1 || len(r.sheet.Names) < 3 {
				continue
			}
			f := authored.Finding{Pos: s.pos, Rule: "met-once",
				Message: wording.Sprintf("%s stands only here in the column %s", plain.Quote(s.text), plain.Quote(trait.ID))}
			if like := r.misspelt(column, k); like != "" {
				f.Hint = wording.Sprintf("did you mean %s?", plain.Quote(like))
				near = append(near, f)
			} else {
				once = append(once, f)
			}
		}
	}
	if names := r.sheet.Names; len(names) > 0 && !slices.ContainsFunc(names, func(n string) bool { return !figures().MatchString(n) }) {
		near = append(near, authored.Finding{Pos: r.place(1, 1), Rule: "numbered-rows",
			Message: wording.Sprintf("the first column is taken for the names of the animals, and holds nothing but numbers, such as %s",
				plain.Quote(names[0])),
			Hint: wording.Text("put a column with their names before it")})
	}
	near.Sort()
	once.Sort()
	r.sheet.Remarks = append(r.sheet.Remarks, cut(slices.Concat(near, once))...)
}

// notesFrom is how many cells must all differ for their column to be no trait.
const notesFrom = 6

// allDiffer reports whether each state of a column stands there once.
func allDiffer(all []seen) bool {
	return len(all) >= notesFrom && !slices.ContainsFunc(all, func(s seen) bool { return s.times > 1 })
}

// partIn is a state of the column that is a part of state k there, or "".
func (r *sheetReader) partIn(column, k int) string {
	for _, part := range partsOf(r.seen[column][k].text) {
		if other, there := r.states[column][plain.ID(part)]; there && other != k {
			return part
		}
	}
	return r.withinSpan(column, k)
}

// withinSpan is a number of the column that lies in the span which state k is, or "".
func (r *sheetReader) withinSpan(column, k int) string {
	m := numberSpan().FindStringSubmatch(r.seen[column][k].text)
	if m == nil {
		return ""
	}
	from, _ := strconv.ParseFloat(m[1], 64) // the pattern leaves nothing else
	to, _ := strconv.ParseFloat(m[2], 64)
	for _, s := range r.seen[column] {
		if n, err := strconv.ParseFloat(s.text, 64); err == nil && from <= n && n <= to {
			return s.text
		}
	}
	return ""
}

// misspelt is the state of a column that state k is most likely a misspelling of, or
// "". Numbers that are near are not alike.
func (r *sheetReader) misspelt(column, k int) string {
	text, best, least := r.seen[column][k].text, "", 3
	if strings.IndexFunc(text, unicode.IsLetter) < 0 {
		return ""
	}
	for other, s := range r.seen[column] {
		d := plain.Distance(strings.ToLower(text), strings.ToLower(s.text))
		if other != k && d < least && 3*d <= len(text) && s.times >= r.seen[column][k].times {
			best, least = s.text, d
		}
	}
	return best
}

// mostRemarks are made of one sheet.
const mostRemarks = 20

// cut leaves so many remarks, and says how many more there are.
func cut(all authored.Findings) authored.Findings {
	if len(all) <= mostRemarks {
		return all
	}
	more := len(all) - mostRemarks
	all = all[:mostRemarks:mostRemarks]
	last := all[mostRemarks-1].Pos
	return append(all, authored.Finding{
		Pos: last, Rule: "and-more", Message: wording.Sprintf("%d more states stand only once in their column", more),
		Hint: wording.Text("look for columns whose cells all differ: they are no traits")})
}
