// Package wording has the program's own sentences said in the language of the
// region. They stand in the source in English, where they are said, and are looked
// up in the catalogue in use by that very text; without one, English it is. What a
// region's own files say is never looked up.
package wording

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
)

// Translation is what the program says in one language. It is safe for use by several
// goroutines. The zero value says everything in English.
type Translation struct {
	Language string            // as RFC 5646 writes it, such as "de"; empty for English
	Say      map[string]string // by the English text; forms of a plural are parted by |
	Instead  map[string]string // a word or phrase of these sentences, and what is said instead
	Comma    bool              // before decimals, in place of a point
	Date     string            // a layout of package time, its month a name of Months
	Months   []string          // twelve names

	once    sync.Once
	instead replacer
	mutex   sync.RWMutex
	said    map[string]string // sentences with their words replaced
}

// Replacing is the catalogue with further words said instead, where it has none of its own
// for them. It may be nil, and is nil where nothing comes to it.
func (c *Translation) Replacing(instead map[string]string) *Translation {
	if len(instead) == 0 {
		return c
	}
	out := &Translation{Instead: maps.Clone(instead)}
	if c != nil {
		out.Language, out.Say, out.Comma, out.Date, out.Months = c.Language, c.Say, c.Comma, c.Date, c.Months
		maps.Copy(out.Instead, c.Instead)
	}
	return out
}

// inUse is the catalogue of the whole process: one program speaks one language.
var inUse atomic.Pointer[Translation]

// Use has everything said from c from now on, in English where it is nil.
func Use(c *Translation) { inUse.Store(c) }

// InUse is the catalogue in use, nil for plain English.
func InUse() *Translation { return inUse.Load() }

// Language is the language that is spoken, as RFC 5646 writes it.
func Language() string {
	if c := inUse.Load(); c != nil && c.Language != "" {
		return c.Language
	}
	return "en"
}

// Mark is a sentence that is looked up with [Text] when it is said: the language is
// not known yet where it stands.
func Mark(english string) string { return english }

// Errorf is fmt.Errorf with its format in the language in use, and with errors of the
// system among its values told as [Reason] tells them.
func Errorf(format string, args ...any) error { return fmt.Errorf(Text(format), withReasons(args)...) }

func withReasons(values []any) []any {
	if Language() == "en" {
		return values
	}
	out, beside := slices.Clone(values), ""
	for _, v := range values {
		if word, ok := v.(string); ok {
			beside += word + "\n"
		}
	}
	for i, v := range values {
		if err, ok := v.(error); ok {
			out[i] = reasonBeside(err, beside)
		}
	}
	return out
}

// NewError is errors.New of a sentence that is looked up when it is said, so that a
// variable of a package may hold it. Two of the same words are two errors.
func NewError(english string) error { return &sentence{english} }

type sentence struct{ english string }

func (s *sentence) Error() string { return Text(s.english) }

// Text is a sentence in the language in use.
func Text(english string) string {
	return inUse.Load().Text(english)
}

// Text is a sentence as a catalogue says it, which may be nil: in English.
func (c *Translation) Text(english string) string {
	if c == nil || english == "" {
		return english
	}
	return c.sentence(english)
}

func (c *Translation) sentence(english string) string {
	text, own := c.Say[english]
	if !own {
		text = english
	}
	if len(c.Instead) == 0 {
		return text
	}
	c.once.Do(func() { c.instead, c.said = newReplacer(c.Instead), map[string]string{} })
	c.mutex.RLock()
	said, known := c.said[english]
	c.mutex.RUnlock()
	if !known {
		said = c.instead.replace(text)
		c.mutex.Lock()
		c.said[english] = said
		c.mutex.Unlock()
	}
	return said
}

// Sprintf is a sentence in the language in use with values in it, as [fmt.Sprintf]
// has them; decimals come after what parts them in that language.
func Sprintf(english string, values ...any) string {
	return fmt.Sprintf(Text(english), local(values)...)
}

// Agree is the words that go with a number, given in English for 1 and for others.
// A catalogue has them under both, parted by |.
func Agree(n int, one, many string) string {
	c := inUse.Load()
	if c == nil {
		return english(n, one, many)
	}
	text, own := c.Say[one+"|"+many]
	if !own {
		return c.sentence(english(n, one, many))
	}
	forms := strings.Split(text, "|")
	text = forms[min(pluralForm(c.Language, n), len(forms)-1)]
	if len(c.Instead) > 0 {
		c.once.Do(func() { c.instead, c.said = newReplacer(c.Instead), map[string]string{} })
		text = c.instead.replace(text)
	}
	return text
}

func english(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// Number writes a value with as many decimals as it has.
func Number(v float64) string { return Decimal(strconv.FormatFloat(v, 'f', -1, 64)) }

// Decimal is a number, written with a point, as the language in use writes it.
func Decimal(s string) string {
	if c := inUse.Load(); c != nil && c.Comma {
		return strings.Replace(s, ".", ",", 1)
	}
	return s
}

// local are values with numbers as the language in use writes them.
func local(values []any) []any {
	values = withReasons(values)
	c := inUse.Load()
	if c == nil || !c.Comma {
		return values
	}
	out := make([]any, len(values))
	for i, v := range values {
		switch v := v.(type) {
		case float64:
			out[i] = decimal(v)
		default:
			out[i] = v
		}
	}
	return out
}

// decimal is a number with a comma before its decimals.
type decimal float64

// Format implements [fmt.Formatter].
func (d decimal) Format(s fmt.State, verb rune) {
	io.WriteString(s, strings.Replace(fmt.Sprintf(fmt.FormatString(s, verb), float64(d)), ".", ",", 1))
}
