// Package merge brings two edited versions of a TOML file together, table by table and
// field by field. What people wrote around the fields stays: comments, order, layout.
//
// Begin with [Document], [Block] and [Merged].
package merge

import (
	"fmt"
	"slices"
	"strings"
)

// Document is a file's text in its tables. Put together again they are the text to the
// last byte, with a line end at its end.
type Document struct {
	Blocks []*Block // the first has no header
	Tail   string   // comments and blank lines below the last field
}

// Block is a table with a header line of its own.
type Block struct {
	Path   []string // what the header names
	Lead   string   // comments and blank lines above it
	Header string   // its line
	Fields []KeyValue
	Tail   string // lines that were added below the fields
}

// KeyValue is a name with its value.
type KeyValue struct {
	Key   string // without quotation marks
	Lead  string // comments and blank lines above it
	Text  string // its line, or lines
	Value string
}

// Read takes a text apart, which must be sound TOML.
func Read(text string) *Document {
	d := &Document{Blocks: []*Block{{}}}
	if text != "" && !strings.HasSuffix(text, "\n") {
		text += "\n"
	}
	lead, at := "", 0
	seen := map[string]int{}
	for at < len(text) {
		end := lineEnd(text, at)
		line := text[at:end]
		switch bare := strings.TrimSpace(line); {
		case bare == "" || bare[0] == '#':
			lead += line
		case bare[0] == '[':
			d.Blocks = append(d.Blocks, &Block{Path: header(bare, seen), Lead: lead, Header: line})
			lead = ""
		default:
			f := field(text[at:])
			end = at + len(f.Text)
			f.Lead, lead = lead, ""
			b := d.Blocks[len(d.Blocks)-1]
			b.Fields = append(b.Fields, f)
		}
		at = end
	}
	d.Tail = lead
	return d
}

func lineEnd(text string, at int) int {
	if i := strings.IndexByte(text[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(text)
}

// header is what a line "[couplet.4.a]" names. Tables of a list of them are numbered.
func header(line string, seen map[string]int) []string {
	inner := strings.TrimLeft(line, "[")
	listed := len(line)-len(inner) > 1
	path := names(inner, ']')
	if listed {
		key := strings.Join(path, "\x00")
		seen[key]++
		path = append(path, fmt.Sprint(seen[key]))
	}
	return path
}

// names are the parts of a dotted name up to a character that ends it.
func names(s string, stop byte) []string {
	out, part, quote := []string{}, "", byte(0)
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case quote != 0 && c == quote:
			quote = 0
		case quote != 0:
			part += string(c)
		case c == '"' || c == '\'':
			quote = c
		case c == stop:
			return append(out, part)
		case c == '.':
			out, part = append(out, part), ""
		case c != ' ' && c != '\t':
			part += string(c)
		}
	}
	return append(out, part)
}

// field reads the field at the beginning of a text.
func field(text string) KeyValue {
	key := strings.Join(names(text, '='), ".")
	from := equalsSign(text) + 1
	end := valueEnd(text, from)
	return KeyValue{Key: key, Text: text[:lineEnd(text, end)], Value: strings.TrimSpace(text[from:end])}
}

// equalsSign is where the name of a field ends.
func equalsSign(text string) int {
	quote := byte(0)
	for i := range len(text) {
		switch c := text[i]; {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '=':
			return i
		}
	}
	return len(text) - 1
}

// valueEnd is where a value ends that begins at a place: at the end of its line, at a
// comment, or lines below where it is a list or a long text.
func valueEnd(s string, i int) int {
	for depth := 0; i < len(s); i++ {
		switch c := s[i]; c {
		case '"', '\'':
			i = textEnd(s, i) - 1
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case '#':
			if depth <= 0 {
				return i
			}
			i = lineEnd(s, i) - 1
		case '\n':
			if depth <= 0 {
				return i
			}
		}
	}
	return len(s)
}

// textEnd is where a text in quotation marks ends.
func textEnd(s string, i int) int {
	mark := s[i : i+1]
	if long := strings.Repeat(mark, 3); strings.HasPrefix(s[i:], long) {
		mark = long
	}
	for j := i + len(mark); j < len(s); j++ {
		switch {
		case s[j] == '\\' && mark[0] == '"':
			j++
		case strings.HasPrefix(s[j:], mark):
			for j+1+len(mark) <= len(s) && len(mark) == 3 && s[j+len(mark):j+1+len(mark)] == mark[:1] {
				j++ // marks of its own at the very end of a long text
			}
			return j + len(mark)
		}
	}
	return len(s)
}

// String is the text of the document, with the line ends of its first line.
func (d *Document) String() string {
	var b strings.Builder
	for _, block := range d.Blocks {
		b.WriteString(block.String())
	}
	b.WriteString(d.Tail)
	text := b.String()
	if i := strings.IndexByte(text, '\n'); i > 0 && text[i-1] == '\r' {
		return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\n", "\r\n")
	}
	return text
}

// String is the text of the table with what stands above it.
func (b *Block) String() string {
	var s strings.Builder
	s.WriteString(b.Lead)
	s.WriteString(b.Header)
	for _, f := range b.Fields {
		s.WriteString(f.Lead)
		s.WriteString(f.Text)
	}
	s.WriteString(b.Tail)
	return s.String()
}

// Is reports whether the table is that of a path.
func (b *Block) Is(path ...string) bool { return slices.Equal(b.Path, path) }

// Rename gives the part of the path at a place another name.
func (b *Block) Rename(part int, name string) {
	path := slices.Clone(b.Path)
	path[part] = name
	from, to := strings.IndexByte(b.Header, '['), strings.LastIndexByte(b.Header[:valueEnd(b.Header, 0)], ']')
	b.Header = b.Header[:from+1] + strings.Join(quotedNames(path), ".") + b.Header[to:]
	b.Path = path
}

func quotedNames(path []string) []string {
	out := make([]string, len(path))
	for i, name := range path {
		out[i] = name
		if strings.Trim(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-") != "" || name == "" {
			out[i] = `"` + name + `"`
		}
	}
	return out
}

// KeyValue is the field of a name, nil without one.
func (b *Block) Field(key string) *KeyValue {
	for i := range b.Fields {
		if b.Fields[i].Key == key {
			return &b.Fields[i]
		}
	}
	return nil
}

// SetValue puts another value in the place of a field's.
func (f *KeyValue) SetValue(value string) {
	from := equalsSign(f.Text) + 1
	at := from + strings.Index(f.Text[from:], f.Value)
	f.Text = f.Text[:at] + value + f.Text[at+len(f.Value):]
	f.Value = value
}

// Commented is a text in which every line is a comment, after a first one that says why.
func Commented(why, text string) string {
	out := "# " + why + "\n"
	for line := range strings.Lines(strings.Trim(text, "\r\n") + "\n") {
		if line = strings.TrimSpace(line); line != "" {
			out += "#   " + line + "\n"
		}
	}
	return out
}
