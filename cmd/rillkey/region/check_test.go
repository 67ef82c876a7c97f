package region_test

import (
	"errors"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/cmd/rillkey/region"
	"rillkey/taxa/folder"
)

const regionHead = "[region]\nid = \"mine\"\ntitle = \"Mine\"\nversion = \"1\"\nauthors = [\"We\"]\nlicence = \"CC0-1.0\"\n" +
	"source = \"memory\"\ntaxa = [\"hirudinea\"]\n"

// A check names what the files of a region do not give each other, at its place.
func TestWhatFilesOfARegionDoNotGiveEachOther(t *testing.T) {
	for _, row := range []struct {
		why   string
		files map[string]string
		rule  string
		at    string
		grave bool // an error, not a warning
	}{
		{"no key is named, and none is there", map[string]string{"region.toml": regionHead}, "no-key", "mine/region.toml:1:1", true},
		{"schemes without a protocol", map[string]string{"region.toml": regionHead + "key = \"north-america\"\n",
			"schemes/mine.toml": "[scheme]\n"}, "half-rules", "mine/protocols", true},
		{"a key file with a slip in its name", map[string]string{"region.toml": regionHead, "key.tml": ""},
			"misnamed", "mine/key.tml", true},
		{"a protocol that is not there", map[string]string{"region.toml": regionHead +
			"key = \"north-america\"\nprotocols = [\"riffle-thre\"]\n"}, "unknown-protocol", "mine/region.toml:10:14", true},
		{"animals in a folder without any", map[string]string{"region.toml": regionHead, "taxa/readme.md": "soon"},
			"no-taxa", "mine/taxa", true},
		{"a remark of a merge in the words", map[string]string{"region.toml": regionHead + "key = \"north-america\"\nlanguage = \"en\"\n",
			"words.toml": "[say]\n# Merged: here the other version has\n#   x\n"}, "leftover-remark", "mine/words.toml:2:1", false},
	} {
		held := fstest.MapFS{}
		for name, text := range row.files {
			held[name] = &fstest.MapFile{Data: []byte(text)}
		}
		f, err := folder.FromFS("mine", held)
		if err != nil {
			t.Fatal(row.why, err)
		}
		found := region.Opened(f).Check()
		among := found.Warnings
		if row.grave {
			among = found.Errors
		}
		told := false
		for _, one := range among {
			told = told || one.Rule == row.rule && strings.HasPrefix(one.Error(), row.at)
		}
		if !told {
			t.Errorf("%s: got errors %v, warnings %v", row.why, found.Errors, found.Warnings)
		}
	}
}

// A region that asks a key that is built in and brings nothing else is sound.
func TestARegionWithABuiltInKeyIsSound(t *testing.T) {
	head := regionHead + "key = \"north-america\"\nlanguage = \"en\"\n"
	f, err := folder.FromFS("mine", fstest.MapFS{"region.toml": {Data: []byte(head)}})
	if err != nil {
		t.Fatal(err)
	}
	if found := region.Opened(f).Check(); len(found.Errors)+len(found.Warnings) > 0 || found.KeyFile != "" {
		t.Errorf("errors %v, warnings %v, key %q", found.Errors, found.Warnings, found.KeyFile)
	}
}

// A region to begin with is sound under any id, and says it wherever its files name it.
func TestAStarterIsSound(t *testing.T) {
	files, err := region.Starter("alder-brook")
	if err != nil {
		t.Fatal(err)
	}
	held := fstest.MapFS{}
	for _, file := range files {
		held[file.Name] = &fstest.MapFile{Data: file.Data}
		if strings.Contains(string(file.Data), `"ID"`) {
			t.Errorf("%s has no id in its place", file.Name)
		}
	}
	f, err := folder.FromFS("alder-brook", held)
	if err != nil {
		t.Fatal(err)
	}
	if found := region.Opened(f).Check(); len(found.Errors)+len(found.Warnings) > 0 {
		t.Errorf("it is not sound: %v %v", found.Errors, found.Warnings)
	}
	if head := string(held[folder.HeadFile].Data); !strings.Contains(head, `"alder-brook"`) {
		t.Error("its head does not say its id")
	}
}

// A built-in region as a folder has all that it is graded by, and no part that cannot be read.
func TestABuiltInRegionIsAWholeFolder(t *testing.T) {
	for _, id := range region.BuiltInIDs() {
		f, err := region.BuiltInFolder(id)
		if err != nil {
			t.Fatal(id, err)
		}
		for _, part := range []string{folder.HeadFile, folder.KeyFile, folder.Taxa + "/", folder.Protocols + "/", folder.Schemes + "/"} {
			if !slices.ContainsFunc(f.Names(), func(name string) bool { return strings.HasPrefix(name, part) }) {
				t.Errorf("%s has no %s", id, part)
			}
		}
		if _, err := f.Fingerprint(); err != nil {
			t.Errorf("%s: %v", id, err)
		}
	}
	if _, err := region.BuiltInFolder("nowhere"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a region that is not there: %v", err)
	}
}
