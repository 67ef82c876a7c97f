package folder

import (
	"slices"
	"testing"
	"testing/fstest"
)

func TestEditions(t *testing.T) {
	files := fstest.MapFS{"k": {Data: []byte("a")}, "r": {Data: []byte("b")}, "k2": {Data: []byte("c")}}
	part := func(name, from string) RegionFile { return RegionFile{Name: name, FS: files, Path: from} }
	f := FromParts("brook", []RegionFile{part(KeyFile, "k"), part(HeadFile, "r")})
	was, err := f.Edition("3")
	if err != nil || was.Version() != "3" || len(was) != 5 || len(was.Key()) != 12 {
		t.Fatalf("%v: %q", err, was)
	}
	now, err := f.Replacing([]RegionFile{part(KeyFile, "k2")}, KeyFile).Edition("4")
	if err != nil || was.Is(now) || !slices.Equal(was.Differs(now), []string{"the key"}) {
		t.Errorf("%v: %q to %q differs in %q", err, was, now, was.Differs(now))
	}
	if d := (Edition{"version 3"}).Differs(now); len(d) != 0 {
		t.Errorf("an edition that says nothing differs in %q", d)
	}
	for name, e := range map[string]Edition{"none": nil, "of an older program": {"something"}} {
		if e.Key() != "" || e.Version() != "" || len(e.Differs(now)) != 0 {
			t.Errorf("%s: %q, %q, %q", name, e.Key(), e.Version(), e.Differs(now))
		}
	}
}
