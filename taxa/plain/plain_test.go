package plain_test

import (
	"cmp"
	"errors"
	"io/fs"
	"strings"
	"testing"

	"rillkey/taxa/plain"
)

func TestAlike(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want bool
		why  string
	}{
		{"Tanyard Brook", "tanyard brook", true, "case"},
		{"Tanyard Brook", "Tanyard-Brook", true, "punctuation"},
		{"Tanyard Brook", "Tanyrd Brook", true, "a letter left out"},
		{"Tanyard Brook", "Tanyard Brook above the bridge", true, "one goes on"},
		{"Mägs", "Mags", true, "an accent"},
		{"A-1", "a1", true, "a label"},
		{"Site 1", "Site 2", false, "numbers tell sites apart"},
		{"Site 1", "Site 11", false, "numbers, one the beginning of the other"},
		{"Ann", "Bob", false, "different names"},
		{"Oona", "Ona", false, "too short for a letter left out"},
		{"Teodor", "Teodr", true, "a letter left out"},
		{"Mill Run", "Otter Run", false, "another stream"},
		{"Jo", "Joan", false, "too short to say"},
	} {
		if got := plain.Alike(tt.a, tt.b); got != tt.want || got != plain.Alike(tt.b, tt.a) {
			t.Errorf("%q and %q (%s): %v", tt.a, tt.b, tt.why, got)
		}
	}
}

// The words are ordinary ones of their languages; where their joiners stand is
// from memory.
func TestJoinersStandBetweenLettersThatNeedThem(t *testing.T) {
	for _, tt := range []struct {
		text, shown string
		why         string
	}{
		{"می\u200cخواهم", "", "Persian, two parts of a word"},
		{"क्\u200dष", "", "Devanagari, half a letter"},
		{"ශ්\u200dරී", "", "Sinhala, two letters as one"},
		{"Bro\u200dok", "Bro\ufffdok", "Latin letters need none, and it makes another name that looks the same"},
		{"Brook\u200c", "Brook\ufffd", "at the end"},
		{"\u200cمی", "\ufffdمی", "at the beginning"},
		{"می\u200c\u200cخواهم", "می\ufffd\ufffdخواهم", "two of them"},
		{"می\u200c xa", "می\ufffd xa", "before a blank"},
		{"a\u200dم", "a\ufffdم", "a letter of another script before it"},
	} {
		want := cmp.Or(tt.shown, tt.text)
		if got := plain.Printable(tt.text); got != want || plain.HasControl(tt.text) != (tt.shown != "") {
			t.Errorf("%s: %+q becomes %+q, want %+q; refused: %v", tt.why, tt.text, got, want, plain.HasControl(tt.text))
		}
	}
}

func TestCounted(t *testing.T) {
	for got, want := range map[string]string{
		plain.Count(1, "animal"):           "1 animal",
		plain.Count(0, "animal"):           "0 animals",
		plain.Count(12, "sample"):          "12 samples",
		plain.Number(2):                    "2",
		plain.Number(0.25):                 "0.25",
		plain.Capital("élan, and so on"):   "Élan, and so on",
		plain.Capital(""):                  "",
		plain.And(nil):                     "",
		plain.And([]string{"a"}):           "a",
		plain.And([]string{"a", "b", "c"}): "a, b and c",
		plain.Percent(0.0001):              "under 1\u00a0%",
		plain.Percent(0.9999):              "over 99\u00a0%",
		plain.Percent(1):                   "100\u00a0%",
		plain.Percent(0):                   "0\u00a0%",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestWithCauseSaysItsWordsAlone(t *testing.T) {
	err := plain.WithCause("a.toml: no such file", fs.ErrNotExist)
	if err.Error() != "a.toml: no such file" || !errors.Is(err, fs.ErrNotExist) {
		t.Error(err)
	}
}

func TestID(t *testing.T) {
	for id, ok := range map[string]bool{
		"perlidae": true, "4": true, "elmidae-larva": true,
		"": false, "-a": false, "a-": false, "A": false, "a b": false, "../a": false, "é": false, strings.Repeat("a", 65): false,
	} {
		if plain.IsID(id) != ok {
			t.Errorf("plain.IsID(%q) is not %v", id, ok)
		}
	}
}

func TestShown(t *testing.T) {
	for got, want := range map[string]string{
		plain.Printable("a\x1b[2Jb\u202ec\xff"):              "a\ufffd[2Jb\ufffdc\ufffd",
		plain.OneLine(" two\tlines\nof text "):               "two lines of text",
		plain.Quote(strings.Repeat("é", 61)):                 `"` + strings.Repeat("é", 60) + `…"`,
		plain.List([]string{"a", "b\n"}):                     `"a", "b\n"`,
		plain.List(strings.Fields(strings.Repeat("a ", 14))): strings.Repeat(`"a", `, 11) + `"a" and 2 more`,
		plain.Counted(2, "row is", "rows are"):               "2 rows are",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
