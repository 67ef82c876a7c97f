package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// A region begun in a folder goes by the folder's name, whatever letters that has, and is sound.
func TestARegionIsCalledAsItsFolder(t *testing.T) {
	t.Parallel()
	for folder, id := range map[string]string{
		"Our Brook": "our-brook", "Mühlbäche (2)": "muhlbache-2", "小川": "u5c0fu5ddd", "()": "our-stream",
	} {
		dir := filepath.Join(t.TempDir(), folder)
		out, complaints, status := spoken("region", "new", dir)
		if status != statusDone || !strings.Contains(out, "The region "+id+" is begun") {
			t.Errorf("%s: status %d, %s%s", folder, status, out, complaints)
		}
		out, complaints, status = spoken("region", "check", dir)
		if status != statusDone || !strings.Contains(out, "0 errors, 0 warnings") {
			t.Errorf("%s: status %d, %s%s", folder, status, out, complaints)
		}
	}
}
