package visit

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"strings"
	"time"
)

const (
	headerLine = "[visit]"
	eventLine  = "[[event]]"
)

// writer builds one block, a key per line, leaving out what is empty.
type writer struct{ b strings.Builder }

func encodeHeader(h Header) []byte {
	var w writer
	w.line(headerLine)
	w.put("format", strconv.Itoa(fileFormat))
	w.str("id", h.ID)
	w.str("site", h.Site)
	w.str("date", h.Date)
	w.strs("people", h.People)
	w.str("region", h.Region)
	w.strs("edition", h.Edition)
	w.str("protocol", h.Protocol)
	w.put("cautions_read", strconv.FormatBool(h.CautionsRead))
	w.time("begun", h.Begun)
	w.spot(h.Spot)
	w.flag("obscured", h.Obscured)
	w.str("reference", h.Reference)
	w.strs("joined", h.Joined)
	for _, line := range h.unread {
		w.b.WriteString(line)
	}
	return w.seal()
}

// block is what is written for an event: in front of a sample, the header once
// more.
func (v *Visit) block(e Event) []byte {
	block := encodeEvent(e)
	if _, ok := e.Body.(Sample); ok && !v.headByHand {
		return append(headerCopy(v.Written()), block...)
	}
	return block
}

func encodeEvent(e Event) []byte {
	if e.raw != nil {
		return append([]byte("\n"), e.raw...)
	}
	var w writer
	w.line(eventLine)
	w.str("id", e.ID)
	w.str("kind", e.Kind())
	w.time("time", e.Time)
	if !e.Follows.IsZero() {
		w.time("after", e.Follows)
	}
	w.str("who", e.Who)
	switch b := e.Body.(type) {
	case Sample:
		w.sample(b)
	case Identification:
		w.identification(b)
	case Amendment:
		w.amendment(b)
	case SecondLook:
		w.secondLook(b)
	case Finish:
		w.str("note", b.Note)
	case Settlement:
		w.settlement(b)
	case SameName:
		w.sameName(b)
	case SheetRows:
		w.sheetRows(b)
	case Conditions:
		w.conditions(b.Values)
	}
	return append([]byte("\n"), w.seal()...)
}

func (w *writer) sample(s Sample) {
	w.str("label", s.Label)
	writeFields(w, tables().sample, &s)
}

func (w *writer) identification(d Identification) {
	writeFields(w, tables().recordHead, &d)
	w.strs("path", d.Path)
	w.strs("possible", d.Possible)
	w.chances("also", d.Also)
	writeFields(w, tables().recordTail, &d)
}

func writeFields[O any](w *writer, list []field[O], o *O) {
	for _, f := range list {
		f.put(w, o)
	}
}

func (w *writer) amendment(a Amendment) {
	w.str("of", a.Entry)
	w.str("reason", a.Reason)
	w.flag("withdrawn", a.Withdrawn)
	for _, f := range tables().change {
		f.put(w, &a.Change)
	}
}

func (w *writer) secondLook(s SecondLook) {
	w.str("of", s.Entry)
	w.str("taxon", s.Taxon)
	w.str("rank", s.Rank)
	if s.Count > 0 {
		w.put("count", strconv.Itoa(s.Count))
	}
	w.num("confidence", s.Confidence)
	w.strs("path", s.Path)
	w.flag("undecided", s.Undecided)
	w.str("note", s.Note)
}

func (w *writer) spot(s *Spot) {
	if s == nil {
		return
	}
	w.put("latitude", float(s.Latitude))
	w.put("longitude", float(s.Longitude))
	w.num("uncertainty_m", s.Uncertainty)
}

func (w *writer) settlement(s Settlement) {
	w.str("of", s.Entry)
	w.str("holds", s.Holds)
	w.strs("over", s.Overruled)
}

func (w *writer) sameName(s SameName) {
	w.str("what", s.What)
	w.str("name", s.Name)
	w.str("as", s.Spelling)
	w.flag("differ", s.Differ)
}

func (w *writer) line(s string)       { w.b.WriteString(s + "\n") }
func (w *writer) put(key, val string) { w.line(key + " = " + val) }

func (w *writer) str(key, s string) {
	if s != "" {
		w.put(key, quote(s))
	}
}

func (w *writer) num(key string, v float64) {
	if v != 0 {
		w.put(key, float(v))
	}
}

func (w *writer) flag(key string, v bool) {
	if v {
		w.put(key, "true")
	}
}

func (w *writer) time(key string, t time.Time) { w.put(key, t.Format(time.RFC3339Nano)) }

func (w *writer) strs(key string, list []string) {
	if len(list) == 0 {
		return
	}
	quoted := make([]string, len(list))
	for i, s := range list {
		quoted[i] = quote(s)
	}
	w.put(key, "["+strings.Join(quoted, ", ")+"]")
}

func (w *writer) chances(key string, also []Chance) {
	if len(also) == 0 {
		return
	}
	pairs := make([]string, len(also))
	for i, a := range also {
		pairs[i] = quote(a.Taxon) + " = " + float(a.Probability)
	}
	w.put(key, "{ "+strings.Join(pairs, ", ")+" }")
}

// seal ends the block with the checksum of all its lines.
func (w *writer) seal() []byte {
	body := w.b.String()
	return []byte(body + sealLine([]byte(body)) + "\n")
}

const sealStart = `check = "`

// sealLine is the checksum line of a block: the first 64 bits of the SHA-256
// of its lines. It guards against accidents, not against intent.
func sealLine(body []byte) string {
	sum := sealOf(body)
	return sealStart + hex.EncodeToString(sum[:]) + `"`
}

func sealOf(body []byte) (seal [8]byte) {
	if bytes.IndexByte(body, '\r') >= 0 { // an editor that changes all line ends has not changed what they say
		body = bytes.ReplaceAll(body, []byte("\r\n"), []byte("\n"))
	}
	sum := sha256.Sum256(body)
	copy(seal[:], sum[:8])
	return seal
}

// sealedAs tells whether a line is the checksum line of a block with these lines.
func sealedAs(line, body []byte) bool {
	sum := sealOf(body)
	var digits [16]byte
	hex.Encode(digits[:], sum[:])
	return len(line) == len(sealStart)+17 && string(line[:len(sealStart)]) == sealStart &&
		string(line[len(sealStart):][:16]) == string(digits[:]) && line[len(line)-1] == '"'
}

// isSeal tells whether a line is a complete checksum line, right or wrong.
func isSeal(line []byte) bool {
	digits, ok := bytes.CutPrefix(bytes.TrimSuffix(line, []byte("\r")), []byte(sealStart))
	if !ok || len(digits) != 17 || digits[16] != '"' {
		return false
	}
	var value [8]byte
	_, err := hex.Decode(value[:], digits[:16])
	return err == nil
}

// quote writes a TOML basic string. Control characters were refused before.
func quote(s string) string { return `"` + escape.Replace(s) + `"` }

var escape = strings.NewReplacer(`\`, `\\`, `"`, `\"`)

// float writes a number so that TOML reads a float of the same value.
func float(v float64) string {
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	return s
}
