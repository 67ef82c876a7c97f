package visit

import (
	"strconv"
	"strings"
	"time"

	"rillkey/taxa/plain"
)

// vouched tells that a block whose checksum is right is an identification as this package
// writes it, with plain texts and no unusual field, and sound; it gives its id and time. For
// anything else ok is false, and the decoder decides. It makes no values, so that sending nine
// million events takes the processor minutes and not half an hour. That it vouches for nothing
// that the decoder would not take is tested.
func vouched(text string) (id string, at time.Time, ok bool) {
	r := lineByLine{text}
	if !r.take(eventLine + "\n") {
		return "", at, false
	}
	id, ok = unquoted(r.field("id"), 64)
	kind, _ := unquoted(r.field("kind"), 64)
	written := r.field("time")
	at, err := time.Parse(time.RFC3339Nano, written)
	if !ok || kind != kindIdentification || err != nil || at.Format(time.RFC3339Nano) != written || !plain.IsID(id) {
		return "", at, false
	}
	var c check
	c.time(at)
	r.text("who", maxText)
	label, _ := unquoted(r.field("sample"), maxLabel)
	c.label(label)
	taxon, _ := unquoted(r.field("taxon"), 64)
	r.text("rank", maxText)
	count := r.field("count")
	n, err := strconv.Atoi(count)
	if c.err != nil || err != nil || n < 1 || n > MaxCount || strconv.Itoa(n) != count || !plain.IsID(taxon) {
		return "", at, false
	}
	r.text("cell", 40)
	r.share("confidence")
	r.list("path", func(s string) bool { return strings.TrimSpace(s) != "" })
	r.list("possible", plain.IsID)
	r.also()
	return id, at, strings.HasPrefix(r.rest, sealStart) && strings.IndexByte(r.rest, '\n') == len(r.rest)-1
}

// lineByLine is what is left of a block. A field that is not as expected stays, and with it the
// lines behind it.
type lineByLine struct{ rest string }

func (r *lineByLine) take(start string) bool {
	rest, ok := strings.CutPrefix(r.rest, start)
	r.rest = rest
	return ok
}

// value is that of a field if it comes next, without being taken.
func (r *lineByLine) value(key string) (value, rest string, ok bool) {
	after, ok := strings.CutPrefix(r.rest, key)
	if !ok {
		return "", "", false
	}
	if after, ok = strings.CutPrefix(after, " = "); !ok {
		return "", "", false
	}
	return strings.Cut(after, "\n")
}

// field takes a field; "" where another comes next.
func (r *lineByLine) field(key string) string {
	value, rest, ok := r.value(key)
	if ok {
		r.rest = rest
	}
	return value
}

// text takes a field if it is a plain text of at most so many characters.
func (r *lineByLine) text(key string, most int) {
	if value, rest, ok := r.value(key); ok {
		if _, ok := unquoted(value, most); ok {
			r.rest = rest
		}
	}
}

func (r *lineByLine) share(key string) {
	if value, rest, ok := r.value(key); ok && plainShare(value) {
		r.rest = rest
	}
}

// list takes a field if it is a list of plain texts that are all good.
func (r *lineByLine) list(key string, good func(string) bool) {
	value, rest, ok := r.value(key)
	if !ok || !strings.HasPrefix(value, "[") || !strings.HasSuffix(value, "]") {
		return
	}
	n := 0
	for item := range strings.SplitSeq(value[1:len(value)-1], ", ") {
		s, ok := unquoted(item, maxText)
		if n++; !ok || n > MaxList || !good(s) {
			return
		}
	}
	r.rest = rest
}

// also takes the field of that name if it holds a few taxa, each once, with plain shares.
func (r *lineByLine) also() {
	const few = 20
	value, rest, ok := r.value("also")
	if !ok || !strings.HasPrefix(value, "{ ") || !strings.HasSuffix(value, " }") {
		return
	}
	var seen [few]string
	n := 0
	for item := range strings.SplitSeq(value[2:len(value)-2], ", ") {
		name, share, _ := strings.Cut(item, " = ")
		id, ok := unquoted(name, 64)
		if !ok || n == few || !plain.IsID(id) || !plainShare(share) {
			return
		}
		for _, before := range seen[:n] {
			if before == id {
				return
			}
		}
		seen[n] = id
		n++
	}
	r.rest = rest
}

// unquoted is a text in quotes without anything that needs care.
func unquoted(s string, most int) (string, bool) {
	if len(s) < 2 || len(s) > most+2 || s[0] != '"' || s[len(s)-1] != '"' {
		return "", false
	}
	s = s[1 : len(s)-1]
	for i := range len(s) {
		if c := s[i]; c < ' ' || c > '~' || c == '"' || c == '\\' {
			return "", false
		}
	}
	return s, true
}

// plainShare tells that s is a decimal fraction from 0 to 1.
func plainShare(s string) bool {
	if s == "1.0" {
		return true
	}
	digits, ok := strings.CutPrefix(s, "0.")
	if !ok || digits == "" || len(digits) > 20 {
		return false
	}
	for i := range len(digits) {
		if !isDigit(digits[i]) {
			return false
		}
	}
	return true
}
