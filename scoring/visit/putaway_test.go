package visit

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"strings"
	"testing"
)

func TestAMergedFileIsPutAwayWhole(t *testing.T) {
	path, _ := afternoon(t)
	v := read(t, path)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path+PutAwaySuffix, []byte("put away long ago"), 0o644); err != nil {
		t.Fatal(err)
	}
	to, err := PutAway(path, v)
	if err != nil || to != path+PutAwaySuffix+"-2" {
		t.Fatal(to, err)
	}
	now, err := os.ReadFile(to)
	if err != nil || !bytes.Equal(now, data) {
		t.Errorf("it holds other bytes than before (%v)", err)
	}
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the old name is still there: %v", err)
	}
	if old, _ := os.ReadFile(path + PutAwaySuffix); string(old) != "put away long ago" {
		t.Errorf("another file was replaced: %q", old)
	}
}

// What was added after the file was read for merging is not put out of sight.
func TestAFileWithNewsIsNotPutAway(t *testing.T) {
	path := begin(t)
	v := read(t, path)
	if _, err := Append(path, noon, "Bo", Sample{Label: "late", Habitat: "riffle"}, someRandom()); err != nil {
		t.Fatal(err)
	}
	if _, err := PutAway(path, v); err == nil || !strings.Contains(err.Error(), "merge it once more") {
		t.Error(err)
	}
	if again := read(t, path); len(again.Events) != 1 {
		t.Errorf("it holds %d events", len(again.Events))
	}
}
