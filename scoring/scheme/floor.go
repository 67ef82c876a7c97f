package scheme

import (
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// Floor is how much a value must rest on before its word may be said. What is 0
// is not asked for.
type Floor struct {
	Animals     int    // animals that the index counts; below them there is no word
	Provisional int    // animals below which the word is provisional
	Kinds       int    // kinds that the index counts; below them there is no word
	Source      string // where these figures are from
}

// mostOfAFloor bounds the figures of a floor.
const mostOfAFloor = 1_000_000

func readFloor(top *authored.Table) (f Floor) {
	if !top.Has("floor") {
		return f
	}
	t := top.Sub("floor")
	if t == nil {
		return f
	}
	figure := func(key string) int {
		n, _ := t.Int(key)
		if n < 0 || n > mostOfAFloor {
			t.Fail(key, "bad-figure", wording.Sprintf("%s must be from 0 to %d", key, mostOfAFloor),
				wording.Text("write how many there must be at least"))
			return 0
		}
		return int(n)
	}
	f = Floor{figure("animals"), figure("provisional"), figure("kinds"), t.NeedStr("source")}
	if f.Provisional > 0 && f.Provisional <= f.Animals {
		t.Fail("provisional", "bad-figure",
			wording.Sprintf("a word is provisional below more animals than the %d that it takes", f.Animals),
			wording.Text("raise provisional, or leave it out"))
	}
	t.Done()
	return f
}

// Lack says what a value rests on too little of for a word, or "".
func (f Floor) Lack(animals int64, kinds int) string {
	switch {
	case animals < int64(f.Animals):
		return wording.Sprintf("too few animals for a word: %d that this index counts, where at least %d are asked for (%s)",
			animals, f.Animals, f.Source)
	case kinds < f.Kinds:
		return wording.Sprintf("too few kinds for a word: %d that this index counts, where at least %d are asked for (%s)",
			kinds, f.Kinds, f.Source)
	}
	return ""
}
