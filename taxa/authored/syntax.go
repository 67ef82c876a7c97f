package authored

import (
	"errors"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// mistake is a slip of writing in words for people: where in the text it is, what
// is wrong, and what to do.
type mistake struct {
	offset        int
	message, hint string
}

// addSyntax reports why the decoder refused a text. The decoder's own places are
// often those of the line before, and its words those of a grammar, so the text
// itself is looked at first.
func addSyntax(t *tree, err error) {
	m, known := notText(t.text)
	var pe toml.ParseError
	switch {
	case known:
	case errors.As(err, &pe) && pe.Position.Line > 0:
		m = t.slip(min(afterMark(t.text)+max(0, pe.Position.Start), len(t.text)), pe.Message)
	case errors.As(err, &pe): // it has no place
		m = t.slip(len(t.text), pe.Message)
	default:
		m = mistake{0, wording.Sprintf("the file cannot be read: %s", err), wording.Text("is it the right file?")}
	}
	t.report.Add(t.pos(int32(min(m.offset, len(t.text)))), "syntax", plain.Printable(m.message), m.hint)
}

// addHidden reports what stands in a text, its notes included, and shows nothing or
// turns the direction of writing: what people read there is not what the program does.
func addHidden(t *tree) (found bool) {
	begin := afterMark(t.text)
	for at, r := range t.text[begin:] {
		if (r < ' ' || r >= 0x7f) && r != '\t' && r != '\n' && r != '\r' && plain.IsControl(r) {
			found = true
			t.report.Add(t.pos(int32(begin+at)), "control-character", wording.Sprintf("an invisible character stands here (U+%04X)", r),
				wording.Text("delete it, and type what belongs there"))
		}
	}
	return found
}

// notText finds what makes a file no text of ours at all.
func notText(text string) (mistake, bool) {
	utf8Hint := wording.Text("save it as UTF-8 in your editor")
	switch {
	case strings.HasPrefix(text, "PK\x03\x04"):
		return mistake{0, wording.Text("this is a zipped file, such as a spreadsheet or a document, and no plain text"),
			wording.Text("is it the right file?")}, true
	case strings.HasPrefix(text, `{\rtf`), strings.HasPrefix(text, "<!DOCTYPE"), strings.HasPrefix(text, "<html"):
		return mistake{0, wording.Text("the file is saved with letters in bold, sizes and the like, and not as plain text"),
			wording.Text("save it as plain text (UTF-8) in your editor")}, true
	case strings.HasPrefix(text, "\xff\xfe"), strings.HasPrefix(text, "\xfe\xff"), strings.IndexByte(text, 0) >= 0:
		return mistake{0, wording.Text("the file is not saved as UTF-8 but as UTF-16, or is no text"), utf8Hint}, true
	}
	for at := afterMark(text); at < len(text); {
		r, n := utf8.DecodeRuneInString(text[at:])
		switch {
		case r == utf8.RuneError && n == 1:
			return mistake{at, wording.Text("a letter here is not saved as UTF-8"), utf8Hint}, true
		case r == '\r' && !strings.HasPrefix(text[at:], "\r\n"):
			return mistake{at, wording.Text("the line ends in a way that only very old programs write"),
				wording.Text("save the file with the line ends of Linux or Windows")}, true
		case r == 0x7f || r < ' ' && r != '\t' && r != '\n' && r != '\r':
			return mistake{at, wording.Sprintf("an invisible control character stands here (0x%02x)", r),
				wording.Text("delete it, and type what belongs there")}, true
		}
		at += n
	}
	return mistake{}, false
}

// slip is the mistake behind one message of the decoder. The order matters: what
// can be told by the text comes first.
func (t *tree) slip(at int, said string) mistake {
	from := strings.LastIndexByte(t.text[:at], '\n') + 1
	line, _, _ := strings.Cut(t.text[from:], "\n")
	switch {
	case strings.HasPrefix(line, "//"):
		return mistake{from, wording.Text("a remark begins with #, not with //"), wording.Text("write # in the place of //")}
	case isClashMark(line):
		return mistake{from, wording.Text("a mark that a program for versions leaves where two versions of a file clash"),
			wording.Text("keep one of the two versions, and delete the lines that begin with <<<<<<<, ======= and >>>>>>>")}
	case strings.Contains(said, "already been defined"), strings.Contains(said, "already created"):
		return t.twice(from, from+blanksOf(line), said)
	case strings.ContainsAny(charAt(t.text, at), "“”„‘’«»"):
		return mistake{at, wording.Text("a curly quotation mark cannot begin or end a text"), wording.Text(`use straight ones: "…"`)}
	case strings.Contains(said, "strings cannot contain newlines"), strings.Contains(said, `expected '"`),
		strings.Contains(said, `expected "'`),
		at == len(t.text) && strings.Contains(said, "escape"):
		return mistake{t.opened(at, `"'`), wording.Text("the text that begins here has no quotation mark at its end"),
			wording.Text(`put the mark at the end of the line; a text of several lines stands between three, """…"""`)}
	case strings.Contains(said, "escape"), strings.Contains(said, "hexadecimal digits after"):
		return mistake{from + max(0, strings.IndexByte(t.text[from:], '\\')),
			wording.Text("a backslash within a text means something else"),
			wording.Text(`write \\ for a backslash, or put the text between single marks: '…'`)}
	}
	return t.misplaced(at, from, said)
}

// afterValue is a slip in what stands behind a value that has ended.
func (t *tree) afterValue(at, from int) mistake {
	next := charAt(t.text, at)
	switch {
	case next == "," && isDecimalComma(t.text, at):
		return mistake{at, wording.Text("a comma stands in this number"), wording.Text("write its decimals after a point: 4.5")}
	case strings.Count(t.text[from:at], "'") > 1:
		return mistake{at, wording.Text("the text has ended at the mark ' before this"),
			wording.Text(`put a text that holds ' between "…"`)}
	case next == "," || next == ";":
		return mistake{at, wording.Sprintf("%s stands after the end of the value", next), wording.Text("delete it")}
	case strings.HasPrefix(strings.TrimLeft(t.text[at:], " \t"), "//"):
		return mistake{at, wording.Text("a remark begins with #, not with //"), wording.Text("write # in the place of //")}
	case next == "%":
		return mistake{at, wording.Text("a number is written without %"),
			wording.Text("delete it; a share is written as a part of one: 0.1 for ten in a hundred")}
	}
	return mistake{at, wording.Text("something stands after the end of the value"),
		wording.Text(`write \" for a quotation mark within a text; anything else goes on a line of its own`)}
}

// misplaced is a slip in what stands between keys, values and brackets.
func (t *tree) misplaced(at, from int, said string) mistake {
	next := charAt(t.text, at)
	switch {
	case strings.Contains(said, "top-level item"):
		return t.afterValue(at, from)
	case strings.Contains(said, "array terminator"):
		return t.inBrackets(at, '[', wording.Text("the list that begins here has no ] at its end"),
			wording.Text("put ] after its last value"))
	case strings.Contains(said, "inline table terminator"):
		return t.inBrackets(at, '{', wording.Text("the braces that begin here have no } at their end"),
			wording.Text("put } at the end of the same entry"))
	case strings.Contains(said, "to end table name"), strings.Contains(said, "end of table"):
		return mistake{from, wording.Text("the name of the table that begins here has no ] at its end"),
			wording.Text("write it as [couplet.4.a], with nothing else in the brackets")}
	case strings.Contains(said, "table name"), strings.Contains(said, "table separator"):
		return mistake{from, wording.Text("a part of the table's name is missing"),
			wording.Text("write it as [couplet.4.a], each part of the name between two dots")}
	case strings.Contains(said, "expected '.' or '='"), strings.Contains(said, "expected key separator"):
		if strings.HasPrefix(t.text[from:], "(") {
			return mistake{from, wording.Text("the name of a table stands in square brackets"), wording.Text("write it as [couplet.4.a]")}
		}
		if next == ":" {
			return mistake{at, wording.Text("a colon stands where = belongs"), wording.Text(`write name = "value"`)}
		}
		if r, _ := utf8.DecodeRuneInString(next); next != "\n" && next != "\r" && (r == '\u00a0' || plain.IsControl(r)) {
			return mistake{at, wording.Sprintf("a blank of another kind stands here (U+%04X)", r),
				wording.Text("delete it, and type a blank")}
		} else if r >= utf8.RuneSelf {
			return mistake{at, wording.Sprintf("names are written in the letters a to z: %s cannot stand in one", plain.Quote(next)),
				wording.Text("write the name as the file of traits or animals has it")}
		}
		return mistake{at, wording.Text("= is missing after the name"), wording.Text(`write name = "value"; a remark begins with #`)}
	case strings.Contains(said, "expected value"):
		if next == "\n" || next == "" || next == "#" || next == "\r" {
			return mistake{at, wording.Text("the value after = is missing"), wording.Text(`write name = "value", or delete the line`)}
		}
		if next == "=" {
			return mistake{at, wording.Text("= stands twice"), wording.Text(`write name = "value", with one =`)}
		}
		return mistake{at, wording.Text("this is no value: no text in quotation marks, no number, not true or false"),
			wording.Text(`put text in quotation marks: "…"`)}
	case strings.Contains(said, "umber"), strings.Contains(said, "nteger"), strings.Contains(said, "loat"), strings.Contains(said, "digit"):
		return mistake{at, wording.Text("this number cannot be read"),
			wording.Text(`write it as 12 or 0.5; put text in quotation marks: "…"`)}
	case strings.Contains(said, "ate"):
		return mistake{at, wording.Text("this is no date and no number"), wording.Text(`put text in quotation marks: "…"`)}
	}
	return mistake{at, wording.Sprintf("this cannot be read (%s)", said),
		wording.Text("look at this line and the one above; a line is a remark after #, a [table], or name = value")}
}

// inBrackets is a mistake within brackets: a comma that is missing, or else the end.
func (t *tree) inBrackets(at int, open byte, message, hint string) mistake {
	if c := charAt(t.text, at); c != "" && strings.Contains(`"'0123456789`, c) || open == '{' && strings.HasPrefix(c, "_") {
		return mistake{at, wording.Text("a comma is missing between two values here"), wording.Text("put one between them")}
	}
	return mistake{t.opened(at, string(open)), message, hint}
}

// twice is a mistake of something that the file holds two times; what stands
// before the line of the second is sound.
func (t *tree) twice(line, at int, said string) mistake {
	_, name, _ := strings.Cut(said, "'")
	name, _, _ = strings.Cut(name, "'")
	m := mistake{at, wording.Sprintf("%s stands in this file twice", plain.Quote(name)),
		wording.Text("keep one of the two, or give one another name")}
	above := newTree(t.file, t.text[:line], t.report)
	above.scan()
	n := int32(0)
	for part := range strings.SplitSeq(name, ".") {
		if n = above.find(n, strings.Trim(part, `"`)); n == 0 {
			return m
		}
	}
	m.message += wording.Sprintf(", first in line %d", t.pos(above.node(n).key).Line)
	return m
}

// opened is where the last string or bracket begins, before at, that has no end
// there; at itself if there is none.
func (t *tree) opened(at int, marks string) int {
	if marks == "[" || marks == "{" {
		at-- // what stands there may close another bracket
	}
	s := &scanner{tree: &tree{text: t.text[:min(at+1, len(t.text))]}, offset: afterMark(t.text)}
	var open []int
	for s.offset < len(s.text) {
		start := s.offset
		switch c := s.text[s.offset]; c {
		case '"', '\'':
			s.passQuoted()
			if broken := strings.IndexByte(s.text[start:s.offset], '\n'); strings.IndexByte(marks, c) >= 0 &&
				(s.offset == len(s.text) || broken >= 0 && !strings.HasPrefix(s.text[start+1:], strings.Repeat(string(c), 2))) {
				return start
			}
			continue
		case '#':
			s.comment()
			continue
		case '[', '{':
			open = append(open, start)
		case ']', '}':
			open = open[:max(0, len(open)-1)]
		}
		s.offset++
	}
	for i := len(open) - 1; i >= 0; i-- {
		if strings.IndexByte(marks, s.text[open[i]]) >= 0 {
			return open[i]
		}
	}
	return at
}

// isDecimalComma reports whether the comma at a place stands between two digits.
func isDecimalComma(text string, at int) bool {
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	return digit(at-1) && digit(at+1)
}

func isClashMark(line string) bool {
	return strings.HasPrefix(line, "<<<<<<<") || strings.HasPrefix(line, ">>>>>>>") || strings.HasPrefix(line, "=======")
}

// charAt is the character at a place, "" at the end.
func charAt(text string, at int) string {
	if at >= len(text) {
		return ""
	}
	_, n := utf8.DecodeRuneInString(text[at:])
	return text[at : at+n]
}

func blanksOf(line string) int { return len(line) - len(strings.TrimLeft(line, " \t")) }
