package visit

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func put(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestCutAtEveryByte cuts a file of every kind of event at every byte. What
// was complete must still be there, the torn rest must be named, and
// appending must go on and lose nothing.
func TestCutAtEveryByte(t *testing.T) {
	path, events := afternoon(t)
	data, _ := os.ReadFile(path)
	const shares = 4
	for share := range shares {
		t.Run(fmt.Sprintf("share %d of %d", share+1, shares), func(t *testing.T) {
			t.Parallel()
			name := filepath.Join(t.TempDir(), "cut.toml")
			step := shares
			if testing.Short() {
				step *= 5
			}
			for cut := share; cut < len(data); cut += step {
				cutAt(t, name, data, cut, events)
			}
		})
	}
}

func cutAt(t *testing.T, name string, data []byte, cut int, events []Event) {
	t.Helper()
	put(t, name, data[:cut])
	v, err := Read(name)
	ends := blockEnds(data) // of the header, then of each event
	if cut < ends[0] {
		if err == nil || strings.Contains(err.Error(), "\n") {
			t.Fatalf("cut at %d, inside the header: want one clear line, got %v", cut, err)
		}
		return
	}
	if err != nil {
		t.Fatalf("cut at %d: %v", cut, err)
	}
	whole, start := 0, ends[0]
	for whole < len(events) && ends[whole+1] <= cut {
		whole++
		start = ends[whole]
	}
	if !sameEvents(v.Events, events[:whole]) {
		t.Fatalf("cut at %d: %d events left of %d whole ones", cut, len(v.Events), whole)
	}
	torn := tornPart(data[start:cut])
	if lost := v.Lost(); lost > 1 || lost == 1 != (len(torn) > 0) {
		t.Errorf("cut at %d: %d entries are lost", cut, lost)
	}
	if named := len(v.Notices) == 1 && v.Notices[0].Trouble == Torn; named != (len(torn) > 0) || len(v.Notices) > 1 {
		t.Fatalf("cut at %d, %d bytes torn, remarks %v", cut, len(torn), v.Notices)
	}
	appendAfterCut(t, name, v, torn)
}

// tornPart is what is left of an event at the end of a file: the header's copy
// in front of it is no part of it.
func tornPart(end []byte) []byte {
	for line := range bytes.Lines(end) {
		if !isGap(line) {
			return bytes.TrimSpace(end)
		}
		end = end[len(line):]
	}
	return nil
}

// withoutCopies takes out the copies of the header.
func withoutCopies(data []byte) string {
	var out strings.Builder
	for block := range strings.SplitSeq(string(data), "\n\n") {
		if !strings.HasPrefix(block, "#") {
			out.WriteString(block + "\n\n")
		}
	}
	return strings.TrimSuffix(out.String(), "\n\n")
}

// blockEnds finds the byte after each checksum's closing quote: the newline
// after it is not needed.
func blockEnds(data []byte) (ends []int) {
	at := 0
	for _, line := range bytes.SplitAfter(data, []byte("\n")) {
		at += len(line)
		if bytes.HasPrefix(line, []byte(sealStart)) {
			ends = append(ends, at-1)
		}
	}
	return ends
}

func appendAfterCut(t *testing.T, name string, before *Visit, torn []byte) {
	t.Helper()
	body := Body(Sample{Label: "new", Habitat: "riffle"})
	if before.Tally().Finished {
		return
	}
	s, err := unsynced.append(name, noon, "Ada", body, bytes.NewReader([]byte("anything")))
	if err != nil {
		t.Fatal(err)
	}
	after, err := Read(name)
	if err != nil || len(after.Notices) != 0 ||
		!sameEvents(after.Events, append(before.Events[:len(before.Events):len(before.Events)], s.Event)) {
		t.Fatalf("after appending: %v, %+v", err, after)
	}
	kept, _ := os.ReadFile(name + ".torn")
	if !bytes.Contains(kept, torn) || (len(s.Notices) == 1) != (len(torn) > 0) {
		t.Fatalf("torn %q, kept %q, said %v", torn, kept, s.Notices)
	}
	os.Remove(name + ".torn")
}

func TestDamage(t *testing.T) {
	path, events := afternoon(t)
	data, _ := os.ReadFile(path)
	sound := withoutCopies(data)
	blocks := strings.SplitAfter(sound, "\"\n\n")
	block := func(i int) string { return blocks[i] }
	tests := []struct {
		label  string
		change func(string) string
		left   int // events still counted
		about  Trouble
		says   string
	}{
		{"a count changed by hand is counted but named",
			func(s string) string { return strings.Replace(s, "count = 102", "count = 10", 1) }, 10, Changed, "10 × perlidae"},
		{"an event changed to nonsense is not counted",
			func(s string) string { return strings.Replace(s, "count = 102", "count = -102", 1) }, 9, Damaged, "count must be"},
		{"a value of another kind", func(s string) string { return strings.Replace(s, "count = 102", `count = "102"`, 1) }, 9,
			Damaged, "whole number"},
		{"an escape sequence brought in by hand",
			func(s string) string { return strings.Replace(s, `cell = "B3"`, `cell = "\u001b[2J"`, 1) }, 9, Damaged, "control character"},
		{"a field added by hand", func(s string) string { return strings.Replace(s, `cell = "B3"`, `tray = "B3"`, 1) }, 9,
			Damaged, `"tray"`},
		{"a time without its offset", func(s string) string { return strings.Replace(s, "12:03:00+02:00", "12:03:00", 1) }, 9,
			Damaged, "offset"},
		{"a damaged header line costs its own block only",
			func(s string) string { return strings.Replace(s, "\n[[event]]\n", "\n[[evnt]]\n", 1) }, 9, Damaged, "no event"},
		{"a checksum line lost in the middle", func(s string) string {
			return s[:len(block(0))+len(block(1))-27] + "\n\n" + s[len(block(0))+len(block(1)):]
		}, 9, Damaged, "checksum"},
		{"a copied event is counted once", func(s string) string { return s + "\n" + block(3) }, 10, Doubled, "counted once"},
		{"a field put in by hand", func(s string) string {
			return strings.Replace(s, "count = 102",
				"count = 102\nmood = \"wet\"", 1)
		}, 9, Damaged, `no such field: "mood"`},
		{"a header changed by hand", func(s string) string { return strings.Replace(s, "Otter", "Heron", 1) }, 10, Changed, "header"},
		{"zeros after a power cut", func(s string) string {
			return s + "\n[[event]]\nid = \"ab\"\n" +
				strings.Repeat("\x00", 500)
		}, 10, Torn, "cut off"},
		{"noise in the middle", func(s string) string {
			return strings.Replace(s, `note = "no gills`, "note = \"\xff\xfe\x00",
				1)
		}, 9, Damaged, "TOML"},
		{"an event of a later program", func(s string) string {
			return s + reseal("[[event]]\nid = \"zz\"\nkind = \"photo\"\ntime = 2024-05-31T12:00:00Z\n")
		}, 10, Unknown, `"photo"`},
		{"a field of a later program", func(s string) string {
			return s + reseal("[[event]]\nid = \"zz\"\nkind = \"finish\"\ntime = 2024-05-31T12:00:00Z\nmood = \"wet\"\n")
		}, 11, Unknown, `"mood"`},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			changed := tt.change(string(sound))
			if changed == string(sound) {
				t.Fatal("the test changes nothing")
			}
			v, err := Parse("v.toml", []byte(changed))
			if err != nil {
				t.Fatal(err)
			}
			if counted(v) != tt.left || len(v.Notices) != 1 || v.Notices[0].Trouble != tt.about ||
				!strings.Contains(v.Notices[0].String(), tt.says) {
				t.Errorf("%d events, remarks %v", counted(v), v.Notices)
			}
		})
	}
	t.Run("an editor's line ends and mark change nothing", func(t *testing.T) {
		v, err := Parse("v.toml", []byte("\ufeff"+strings.ReplaceAll(string(data), "\n", "\r\n")))
		if err != nil || len(v.Notices) != 0 || !sameEvents(v.Events, events) {
			t.Errorf("%v, %+v", err, v)
		}
	})
	t.Run("blank lines and comments between events change nothing", func(t *testing.T) {
		v, err := Parse("v.toml", []byte("# ours\n\n"+strings.ReplaceAll(string(sound), "\n\n", "\n\n# looked at\n\n")+"# end"))
		if err != nil || len(v.Notices) != 0 || len(v.Events) != len(events) {
			t.Errorf("%v, %+v", err, v)
		}
	})
}

// counted is how many events of a visit are understood.
func counted(v *Visit) (n int) {
	for _, e := range v.Events {
		if _, opaque := e.Body.(Opaque); !opaque {
			n++
		}
	}
	return n
}

func reseal(lines string) string { return "\n" + lines + sealLine([]byte(lines)) + "\n" }

func TestNotAVisitFile(t *testing.T) {
	t.Parallel()
	noise := make([]byte, 5000)
	someRandom().Read(noise)
	future := strings.Replace(string(encodeHeader(Header{ID: "a", Site: "b", Date: "2024-01-01", Begun: noon})), "format = 1",
		"format = 2", 1)
	tests := []struct{ label, data, says string }{
		{"empty", "", "empty"},
		{"blank", "\n\n", "no [visit] header"},
		{"noise", string(noise), "binary data"},
		{"two bytes a letter", "[\x00v\x00i\x00s\x00i\x00t\x00]\x00\n\x00", "binary data"},
		{"prose", "Dear diary,\n", "does not begin"},
		{"events only", "[[event]]\n", "does not begin"},
		{"cut header", "[visit]\nformat = 1\n", "cut short"},
		{"a later format", future, "format 2"},
		{"too many events", string(encodeHeader(Header{ID: "a", Site: "b", Date: "2024-01-01", Begun: noon})) +
			strings.Repeat("[[event]]\n", MaxEvents+1), "more than 100000"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			_, err := Parse("v.toml", []byte(tt.data))
			if err == nil || !strings.Contains(err.Error(), tt.says) || !strings.HasPrefix(err.Error(), "v.toml:") ||
				strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v, want one line with %q", err, tt.says)
			}
		})
	}
	if _, err := Parse("v.toml", make([]byte, MaxFile+1)); err == nil || !strings.Contains(err.Error(), "larger than 64 MB") {
		t.Errorf("too large: %v", err)
	}
	if _, err := Read(filepath.Join(t.TempDir(), "none.toml")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
}

func TestRemarksOnRubbishAreBounded(t *testing.T) {
	head := string(encodeHeader(Header{ID: "a", Site: "b", Date: "2024-01-01", Begun: noon}))
	v, err := Parse("v.toml", []byte(head+strings.Repeat("[[event]]\n", 5000)))
	if err != nil || len(v.Notices) != maxNotices+1 || v.Notices[maxNotices].Trouble != Further {
		t.Errorf("%v, %d remarks", err, len(v.Notices))
	}
}

func TestEventsThatReferToNothing(t *testing.T) {
	v := &Visit{Events: []Event{
		{ID: "a", Body: Sample{Label: "1"}},
		{ID: "b", Body: Sample{Label: "1"}},
		{ID: "c", Body: Identification{Sample: "9", Taxon: "x", Count: 1}},
		{ID: "d", Body: Amendment{Entry: "zz", Withdrawn: true}},
		{ID: "e", Body: SecondLook{Entry: "zz"}},
	}}
	tally := v.Tally()
	if len(tally.Notices) != 4 || len(tally.Samples) != 1 || len(tally.Records) != 0 {
		t.Errorf("%+v", tally)
	}
}

// TestNoBlockTakesLong gives the decoder's worst cases as many events: by
// itself it would take more than a minute for one of them.
func TestNoBlockTakesLong(t *testing.T) {
	t.Parallel()
	const deep = MaxBlock/2 - 100
	head := string(encodeHeader(Header{ID: "a", Site: "b", Date: "2024-01-01", Begun: noon}))
	for label, line := range map[string]string{
		"dotted key":          strings.Repeat("a.", deep) + "a = 1",
		"dotted number":       "x = { " + strings.Repeat("1.", deep) + "1 = 1 }",
		"spaced dots":         strings.Repeat("1 .", deep/2) + "1 = 1",
		"quoted dots":         strings.Repeat("''.", deep/2) + "a = 1",
		"dotted table":        "[" + strings.Repeat("a.", deep) + "a]",
		"nested tables":       "x = " + strings.Repeat("{a=", deep/2),
		"nested lists":        "x = " + strings.Repeat("[", deep) + strings.Repeat("]", deep),
		"text over lines":     "x = \"\"\"\n" + strings.Repeat("[\n", 100) + "\"\"\"",
		"tables in the lists": "x = [" + strings.Repeat("{a=[", deep/4),
	} {
		t.Run(label, func(t *testing.T) {
			block := "[[event]]\n" + line + "\n" + sealStart + "0123456789abcdef\"\n"
			v, err := Parse("v.toml", []byte(head+strings.Repeat(block, 50)))
			if err != nil || len(v.Events) != 0 || len(v.Notices) != 50 || !strings.Contains(v.Notices[0].Text, "nested") {
				t.Errorf("%v, %v", err, v)
			}
		})
	}
}

func FuzzParse(f *testing.F) {
	h := encodeHeader(Header{ID: "a", Site: "b", Date: "2024-01-01", Begun: noon})
	f.Add([]byte(""))
	f.Add(h)
	f.Add(append(h, encodeEvent(Event{ID: "b", Time: noon, Body: Sample{Label: "1", Habitat: "riffle"}})...))
	f.Add(append(h, "\n[[event]]\nid = \"b\"\nkind = \"identification\"\nalso = { a = nan }\ncheck = \"0123456789abcdef\"\n"...))
	f.Add([]byte("[visit]\n\"\\\ncheck = \"0123456789abcdef\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		v, err := Parse("v.toml", data)
		if err != nil {
			return
		}
		v.Tally()
		// Whatever was counted can be written, and then reads without a remark.
		out := encodeHeader(v.Header)
		for _, e := range v.Events {
			out = append(out, v.block(e)...)
		}
		again, err := Parse("v.toml", out)
		if err != nil || slices.ContainsFunc(again.Notices, func(n Notice) bool { return n.Trouble != Unknown }) ||
			len(again.Events) != len(v.Events) {
			t.Errorf("%v, %+v of %+v", err, again, v)
		}
		comesBack(t, "any", again)
	})
}
