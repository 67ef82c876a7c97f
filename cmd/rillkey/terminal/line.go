package terminal

import (
	"bufio"
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Line lengths in bytes.
const (
	longest = 400     // of an answer
	endless = 1 << 16 // from here on it is no text at all
)

// What may be wrong with a line although the next one can be read.
var (
	ErrLong    = wording.NewError("that line is too long to be an answer")
	ErrControl = wording.NewError("that line holds keys or bytes that are not text")
)

// Again reports whether err only concerns the line read, so that the question
// can be asked again.
func Again(err error) bool { return errors.Is(err, ErrLong) || errors.Is(err, ErrControl) }

// Back is the line that goes back to what was asked before.
const Back = "<"

// escape is what the key Esc sends, also to a program that reads lines.
const escape = "\x1b"

// ReadLine reads one line, without blanks around it; one of nothing but the key
// Esc is [Back], since that key goes back on screens. It gives [ErrLong] or
// [ErrControl] for a line that cannot be an answer, and io.ErrUnexpectedEOF
// when the input has ended: also in the middle of a line, because "10" may be
// what is left of "102".
func ReadLine(in *bufio.Reader) (string, error) {
	var line []byte
	size := 0
	for {
		part, err := in.ReadSlice('\n')
		if size += len(part); size <= longest+2 {
			line = append(line, part...)
		}
		switch {
		case err == nil && size > longest+2:
			return "", ErrLong
		case err == nil:
			return text(line)
		case errors.Is(err, io.EOF):
			return "", plain.WithCause(wording.Text("the input ended"), io.ErrUnexpectedEOF)
		case !errors.Is(err, bufio.ErrBufferFull):
			return "", err
		case size > endless:
			return "", wording.NewError("the input is no text: a line without an end")
		}
	}
}

func text(line []byte) (string, error) {
	s := strings.Trim(string(line), " \t\r\n")
	switch {
	case s == escape:
		return Back, nil
	case len(s) > longest:
		return "", ErrLong
	case !utf8.ValidString(s) || plain.HasControl(s):
		return "", ErrControl
	}
	return s, nil
}
