package visit

import (
	"os"
	"testing"
)

// A visit that was finished on two laptops is open again once both finishes are
// withdrawn, and takes samples; asking whether it could takes nothing.
func TestReopen(t *testing.T) {
	path := begin(t)
	v := read(t, path)
	for _, note := range []string{"on one laptop", "on the other"} {
		if err := v.Conclude("Ann", Finish{Note: note}); err != nil {
			t.Fatal(err)
		}
	}
	both := path + ".both"
	if err := v.WriteNew(both, 0o666); err != nil {
		t.Fatal(err)
	}
	if _, err := Append(both, noon, "", Sample{Label: "late", Habitat: "riffle"}, someRandom()); err == nil {
		t.Error("a finished visit took a sample")
	}
	before, _ := os.ReadFile(both)
	if err := Appendable(both); err != nil {
		t.Error(err)
	}
	if after, _ := os.ReadFile(both); string(after) != string(before) {
		t.Error("looking changed the file")
	}
	saved, err := Reopen(read(t, both), noon, "Bo", "one tray was left", someRandom())
	if err != nil || len(saved) != 2 || read(t, both).Tally().Finished {
		t.Errorf("%d finishes withdrawn, %v", len(saved), err)
	}
	if _, err := Append(both, noon, "", Sample{Label: "late", Habitat: "riffle"}, someRandom()); err != nil {
		t.Error(err)
	}
	if saved, err := Reopen(read(t, both), noon, "Bo", "again", someRandom()); err != nil || len(saved) != 0 {
		t.Errorf("an open visit: %d, %v", len(saved), err)
	}
}
