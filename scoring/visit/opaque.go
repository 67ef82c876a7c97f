package visit

import (
	"bytes"
	"slices"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Opaque is an event that this program does not understand: of a kind or with
// values of a newer program. It counts for nothing and is kept as it is.
type Opaque struct {
	Word string // the kind, as the file has it
}

func (o Opaque) kind() string { return o.Word }

// Block is the text of an event that holds what this program does not know, as
// it stands in its file but without the checksum, else "".
func (e Event) Block() string {
	if e.raw == nil {
		return ""
	}
	body, _, _ := bytes.Cut(e.raw, []byte("\n"+sealStart))
	return string(body) + "\n"
}

// Known is the event without what this program does not know of it, and whether
// anything is left.
func (e Event) Known() (Event, bool) {
	_, opaque := e.Body.(Opaque)
	e.raw = nil
	return e, !opaque
}

// ParseBlock reads the text that [Event.Block] gave.
func ParseBlock(text string) (Event, error) {
	block := []byte(text + sealLine([]byte(text)) + "\n")
	chunks, _ := split(block, 2)
	var notes notices
	if len(chunks) == 1 {
		if e, ok := readEvent(chunks[0], &notes); ok && e.raw != nil {
			e.Line = 0
			return e, nil
		}
	}
	return Event{}, wording.NewError("it is no entry of a visit's file that holds something unknown")
}

// Unread are the lines of the header that this program does not know, each with
// its newline, else "".
func (h Header) Unread() string { return strings.Join(h.unread, "") }

// WithUnread is the header with the lines that [Header.Unread] gave.
func (h Header) WithUnread(lines string) (Header, error) {
	h.unread = nil
	block := strings.TrimSuffix(string(encodeHeader(h)), "\n")
	cut := strings.LastIndex(block, "\n") + 1
	again, err := decodeHeader([]byte(block[:cut] + lines + block[cut:] + "\n"))
	if err != nil {
		return h, err
	}
	if again.Unread() != lines {
		return h, wording.NewError("they are no lines that this program does not know")
	}
	return again, nil
}

func (h Header) unreadKeys() (keys []string) {
	for _, line := range h.unread {
		key, _, _ := strings.Cut(line, "=")
		keys = append(keys, strings.TrimSpace(key))
	}
	return keys
}

// linesOf are the lines of a block that give these fields, sorted.
func linesOf(text []byte, fields []string) (lines []string) {
	for line := range bytes.Lines(text) {
		key, _, ok := strings.Cut(string(line), "=")
		if ok && slices.Contains(fields, strings.Trim(strings.TrimSpace(key), `"'`)) {
			lines = append(lines, strings.TrimSpace(string(line))+"\n")
		}
	}
	slices.Sort(lines)
	return lines
}

// verbatim is the text of a block to be kept as it is, with plain line ends; nil
// where it holds what could disturb a screen.
func verbatim(text []byte) []byte {
	text = bytes.ReplaceAll(bytes.TrimSpace(text), []byte("\r\n"), []byte("\n"))
	for line := range strings.Lines(string(text)) {
		if plain.Printable(strings.TrimSuffix(line, "\n")) != strings.TrimSuffix(line, "\n") {
			return nil
		}
	}
	return append(text, '\n')
}

// uniteUnread is the union of the unknown lines of headers, the same whatever
// their order; where two say different things of one field, the line that comes
// first by its letters holds and the field is returned too.
func uniteUnread(headers []Header) (lines, torn []string) {
	by := map[string]string{}
	for _, h := range headers {
		for i, key := range h.unreadKeys() {
			line, there := by[key]
			if there && line != h.unread[i] && !slices.Contains(torn, key) {
				torn = append(torn, key)
			}
			if !there || h.unread[i] < line {
				by[key] = h.unread[i]
			}
		}
	}
	for _, line := range by {
		lines = append(lines, line)
	}
	slices.Sort(lines)
	return lines, torn
}
