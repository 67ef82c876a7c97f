package visit

import "bytes"

// chunk is one block as it lies in the file, sound or not.
type chunk struct {
	line   int    // line where it begins, from 1
	start  int    // byte offset of its first line
	text   []byte // all its lines
	sealed bool   // it ends with a complete checksum line
	intact bool   // and the checksum is right
	isRow  bool   // it begins with the line [[event]]
	mended bool   // only its checksum line is damaged
}

// split cuts a file into blocks. A block begins at a header line, or at
// whatever stands where one should be, and ends with its checksum line; so a
// damaged header line costs its own block and no other. Blank lines and
// comments between blocks belong to none. At most max blocks are returned;
// more tells whether there were others.
func split(data []byte, max int) (chunks []chunk, more bool) {
	open := false // the last chunk still wants its checksum line
	at := 0
	if bytes.HasPrefix(data, []byte("\ufeff")) {
		at = 3 // a mark that some editors put in front
	}
	for line := 1; at < len(data); line++ {
		end := len(data)
		if i := bytes.IndexByte(data[at:], '\n'); i >= 0 {
			end = at + i + 1
		}
		text := withoutEnd(data[at:end])
		if head := isHead(text); head || !open && !isGap(text) {
			if len(chunks) == max {
				return chunks, true
			}
			chunks = append(chunks, chunk{line: line, start: at, isRow: head && bytes.Contains(text, []byte(eventLine))})
			open = true
		}
		if open {
			c := &chunks[len(chunks)-1]
			c.text = data[c.start:end]
			if isSeal(text) {
				c.sealed, open = true, false
				c.intact = sealedAs(text, data[c.start:at])
			}
		}
		at = end
	}
	return chunks, false
}

// withoutEnd is a line without the characters that end it.
func withoutEnd(line []byte) []byte {
	for len(line) > 0 && (line[len(line)-1] == '\n' || line[len(line)-1] == '\r') {
		line = line[:len(line)-1]
	}
	return line
}

func isHead(line []byte) bool {
	if len(line) > 0 && line[0] >= 'a' && line[0] <= 'z' {
		return false // as most lines are
	}
	s := string(bytes.TrimSpace(line))
	return s == headerLine || s == eventLine
}

// isGap tells whether a line may stand between blocks.
func isGap(line []byte) bool {
	line = bytes.TrimSpace(line)
	return len(line) == 0 || line[0] == '#'
}

// mendSeal recognizes a block that is whole but for its checksum line, so that a
// saved event is not taken for one that was cut off: nothing but the right line
// is that much like it.
func (c *chunk) mendSeal() {
	const alike = 22 // of the 26 characters
	if c.sealed {
		return
	}
	at := 0
	for line := range bytes.Lines(c.text) {
		if n := len(bytes.TrimRight(line, "\r\n")); (n == 26 || n == 27) &&
			(bytes.HasPrefix(line, []byte(sealStart[:3])) || bytes.Contains(line, []byte(sealStart[3:]))) {
			if right := sealLine(c.text[:at]); same(line, right) >= alike {
				c.text = append(append([]byte(nil), c.text[:at]...), right+"\n"...)
				c.sealed, c.intact, c.mended = true, true, true
			}
			return // one try, whatever there is in the file
		}
		at += len(line)
	}
}

// same counts the places where a line is as it should be.
func same(line []byte, right string) (n int) {
	for i := range len(right) {
		if line[i] == right[i] {
			n++
		}
	}
	return n
}
