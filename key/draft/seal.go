package draft

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"

	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// sealLine is the last line of a drafted file, in any language.
var sealLine = pattern.New(`(?m)^# [^\n:]+: ([0-9a-f]{16})\..*\n?\z`)

// anySeal is that line wherever it stands: people add lines below it.
var anySeal = pattern.New(`(?m)^# [^\n:]+: [0-9a-f]{16}\..*\n?`)

func checksum(text []byte) string {
	sum := sha256.Sum256(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")))
	return fmt.Sprintf("%x", sum[:8])
}

// withoutSeal is the text of a file without the line that [Seal] adds.
func withoutSeal(text string) string { return anySeal().ReplaceAllString(text, "") }

// Seal adds a line to a drafted file by which it is known whether somebody has
// edited it since.
func Seal(text []byte) []byte {
	text = append(bytes.TrimRight(text, "\n"), '\n')
	return fmt.Appendf(slices.Clone(text), "# %s\n",
		wording.Sprintf("As drafted: %s. Drafted again, it keeps what was written by hand.", checksum(text)))
}

// NumberedLine is a line of a file by its number, the first being 1.
type NumberedLine struct {
	Number int
	Text   string
}

// ByHand are the lines of a file that would be lost if a newly drafted text took
// its place, without blanks around them; none where the file is as it was drafted,
// since then the table that it was drafted from is the place to look.
func ByHand(old, drafted []byte) []NumberedLine {
	if m := sealLine().FindSubmatchIndex(old); m != nil && string(old[m[2]:m[3]]) == checksum(old[:m[0]]) {
		return nil
	}
	have := map[string]bool{}
	for line := range strings.Lines(string(drafted)) {
		have[squeezed(line)] = true
	}
	var lost []NumberedLine
	n := 0
	for line := range strings.Lines(string(old)) {
		n++
		if text := squeezed(line); text != "" && !have[text] && !sealLine().MatchString(line) {
			lost = append(lost, NumberedLine{n, text})
		}
	}
	return lost
}

// squeezed is a line with single blanks, so that aligning is no editing.
func squeezed(line string) string { return strings.Join(strings.Fields(line), " ") }
