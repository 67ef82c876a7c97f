package trim

import (
	"regexp"
	"slices"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// commonness takes out the weights of what is gone: lines of a table, or
// entries of an inline one.
func (t *trimmer) commonness() {
	for _, p := range slices.Backward(t.sound.WeightsAt()) {
		if !t.keep(p.Taxon) {
			t.cutEntry(p.Pos, weightEntry())
		}
	}
}

var (
	weightEntry = pattern.New(`^"?[a-z0-9-]+"?[ \t]*=[ \t]*[0-9.eE+_-]+`)
	textEntry   = pattern.New(`^("[^"]*"|'[^']*')`)
)

// cutEntry cuts an entry of a list or table, with its comma, or with its line
// where it has one of its own. Later entries are cut before earlier ones.
func (t *trimmer) cutEntry(p authored.Pos, entry *regexp.Regexp) {
	at := t.offset(p)
	end := at + len(entry.FindString(t.text[at:]))
	line := t.lines[p.Line-1]
	rest := t.text[end:]
	if i := strings.IndexByte(rest, '\n'); i >= 0 {
		rest = rest[:i]
	}
	tail := strings.TrimLeft(rest, " \t\r,")
	if strings.TrimSpace(t.text[line:at]) == "" && (tail == "" || tail[0] == '#') {
		t.cut(line, min(len(t.text), end+len(rest)+1))
		return
	}
	comma := end + len(t.text[end:]) - len(strings.TrimLeft(t.text[end:], " \t"))
	if strings.HasPrefix(t.text[comma:], ",") && !t.cutAt(comma) {
		comma++
		t.cut(at, comma+len(t.text[comma:])-len(strings.TrimLeft(t.text[comma:], " \t")))
		return
	}
	// Nothing stays behind it: the comma before it goes.
	if before := strings.TrimRight(t.text[:at], " \t"); strings.HasSuffix(before, ",") {
		at = len(before) - 1
	}
	t.cut(at, end)
}

// cutAt reports whether a byte is cut already.
func (t *trimmer) cutAt(at int) bool {
	for _, e := range t.edits {
		if e.start <= at && at < e.end {
			return true
		}
	}
	return false
}

// lensSets takes what is gone out of the lens sets, and sets that no longer hold
// two.
func (t *trimmer) lensSets(all []block) error {
	for _, set := range t.sound.LensSets {
		left := 0
		for _, id := range set.Taxa {
			if t.keep(id) {
				left++
			}
		}
		b, ok := t.ownLens(set.Pos, all)
		switch {
		case left == len(set.Taxa):
		case left > 1:
			for i, id := range slices.Backward(set.Taxa) {
				if !t.keep(id) {
					t.cutEntry(set.TaxaPos[i], textEntry())
				}
			}
		case ok:
			t.cut(b.start, b.end)
		default:
			return unusual(set.Pos, wording.Text("the lens set"))
		}
	}
	return nil
}

func (t *trimmer) ownLens(p authored.Pos, all []block) (block, bool) {
	at := t.offset(p)
	for _, b := range all {
		if len(b.path) == 2 && b.path[0] == "lens" && b.header == at {
			return b, true
		}
	}
	return block{}, false
}
