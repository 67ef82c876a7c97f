package visit

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// The header stands at the beginning of a file and, as comments, once more in
// front of every sample, so that no damage to the beginning costs the visit.
const (
	copyStart = "# The header once more, in case the beginning of this file is damaged:\n"
	copyMark  = "# "
)

// headerCopy is the header as comments, with a blank line before it.
func headerCopy(h Header) []byte {
	var b bytes.Buffer
	b.WriteString("\n" + copyStart)
	for line := range bytes.Lines(encodeHeader(h)) {
		b.WriteString(copyMark)
		b.Write(line)
	}
	return b.Bytes()
}

// copiedHeaders are the sound headers among the comments of a file, with the
// lines where they begin.
func copiedHeaders(data []byte) (headers []Header, lines []int) {
	var block []byte // of the copy that is being read; nil outside one
	begun, n := 0, 0
	for line := range bytes.Lines(data) {
		n++
		text, isComment := bytes.CutPrefix(bytes.TrimRight(line, "\r\n"), []byte(copyMark))
		switch {
		case isComment && string(text) == headerLine:
			block, begun = []byte(headerLine+"\n"), n
		case !isComment:
			block = nil
		case block != nil && isSeal(text):
			if string(text) == sealLine(block) {
				if h, err := decodeHeader(append(block, text...)); err == nil {
					headers, lines = append(headers, h), append(lines, begun)
				}
			}
			block = nil
		case block != nil:
			block = append(append(block, text...), '\n')
		}
	}
	return headers, lines
}

// readHeader reads the header, from its first copy where it is damaged itself.
// What was changed by hand holds, but an obscured place is obscured if any copy
// says so.
func (v *Visit) readHeader(data []byte, chunks []chunk, notes *notices) error {
	if len(chunks) > 0 {
		chunks[0].mendSeal()
	}
	line, why := v.ownHeader(data, chunks)
	if why == nil && chunks[0].intact {
		if chunks[0].mended {
			notes.tell(line, Changed, "the checksum of the header is damaged; the header is whole")
		}
		noteUnread(line, v.Header.unreadKeys(), notes)
		return nil
	}
	copies, at := copiedHeaders(data)
	hurt := why != nil || len(v.Header.unread) > 0 // a field's name may be what was damaged
	switch {
	case why != nil && len(copies) == 0:
		return fmt.Errorf("%s:%d: %w", plain.Printable(v.File), line, why)
	case hurt && len(copies) > 0:
		notes.tell(line, Damaged, "the [visit] header is damaged; its copy on line %d is used", at[0])
		v.Header, v.headCopied = copies[0], true
	default:
		notes.tell(line, Changed, "the header was changed by hand; it is used as it stands%s", otherwise(v.Header, copies))
		v.headByHand = true
	}
	for _, h := range copies {
		v.Header.Obscured = v.Header.Obscured || h.Obscured
	}
	noteUnread(line, v.Header.unreadKeys(), notes)
	return nil
}

// otherwise says what a copy of the header says otherwise.
func otherwise(h Header, copies []Header) string {
	if len(copies) == 0 {
		return ""
	}
	own := map[string]bool{}
	for line := range strings.Lines(string(encodeHeader(h))) {
		own[line] = true
	}
	for line := range strings.Lines(string(encodeHeader(copies[0]))) {
		if !own[line] && !strings.HasPrefix(line, sealStart) {
			key, _, _ := strings.Cut(line, " ")
			return wording.Sprintf("; its copy says something else of the field %s", key)
		}
	}
	return ""
}

// ownHeader reads the header at the beginning of the file; the error says at
// which line and why there is none.
func (v *Visit) ownHeader(data []byte, chunks []chunk) (line int, why error) {
	start := data[:min(len(data), 512)]
	switch {
	case len(data) == 0:
		return 1, wording.NewError("the file is empty; it is not a visit file")
	case len(chunks) == 0:
		return 1, wording.NewError("the file has no [visit] header; it is not a visit file")
	case chunks[0].isHeader() && chunks[0].sealed:
		// A power cut can leave zeros after it.
	case bytes.IndexByte(start, 0) >= 0 || !chunks[0].isHeader() && !utf8.Valid(start):
		return 1, wording.NewError("the file holds binary data; it is not a visit file")
	case !chunks[0].isHeader():
		return chunks[0].line, wording.Errorf(
			"the file does not begin with a [visit] header; it is not a visit file, or its beginning is lost%s", helpless(v.File))
	case !chunks[0].sealed:
		return chunks[0].line, wording.Errorf("the [visit] header is cut short; nothing can be read without it%s",
			helpless(v.File))
	}
	line = chunks[0].line
	if v.Header, why = decodeHeader(chunks[0].text); why != nil {
		return line, wording.Errorf("the [visit] header is damaged: %w%s", why, helpless(v.File))
	}
	return line, nil
}

// helpless says what can be done where a file has no header that can be read.
func helpless(file string) string {
	return wording.Sprintf(". With another copy of the visit named behind it, or the site and the day, a sound file is made by: "+
		"rillkey visit salvage %s", plain.ShellFiles(file))
}

func (c chunk) isHeader() bool {
	return bytes.HasPrefix(bytes.TrimSpace(c.text), []byte(headerLine))
}
