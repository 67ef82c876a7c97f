package wording_test

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
	"testing"

	"rillkey/taxa/wording"
)

// What the system says is told in the language in use, the commonest reasons in its own
// words, others as what the system says; its cause stays to be asked for. English stays
// as the system has it.
func TestReasonsOfTheSystemAreToldInTheLanguageInUse(t *testing.T) {
	german := &wording.Translation{Language: "de", Say: map[string]string{
		"there is no such file or folder there": "das gibt es dort nicht",
		"the disk or card is full":              "die Platte ist voll",
		"the system says \"%s\"":                "das System sagt: \"%s\"",
		"%s cannot be opened: %w":               "%s lässt sich nicht öffnen: %w",
	}}
	missing := &fs.PathError{Op: "open", Path: "a.toml", Err: syscall.ENOENT}
	for _, row := range []struct {
		err  error
		is   error
		want string
	}{
		{missing, fs.ErrNotExist, "a.toml: das gibt es dort nicht"},
		{&os.LinkError{Op: "rename", Old: "a", New: "b", Err: syscall.ENOSPC}, syscall.ENOSPC, "b: die Platte ist voll"},
		{errors.Join(errors.New("eins"), missing), fs.ErrNotExist, "eins\na.toml: das gibt es dort nicht"},
		{&fs.PathError{Op: "read", Path: "a.toml", Err: syscall.ENXIO}, syscall.ENXIO,
			"a.toml: das System sagt: \"" + syscall.ENXIO.Error() + "\""},
		{errors.New("eins"), nil, "eins"},
	} {
		wording.Use(german)
		said := wording.Reason(row.err)
		within := wording.Errorf("%s cannot be opened: %w", "a.toml", missing)
		wording.Use(nil)
		if said.Error() != row.want || row.is != nil && !errors.Is(said, row.is) {
			t.Errorf("%v is told as %q, not %q", row.err, said, row.want)
		}
		if english := wording.Reason(row.err); english != row.err {
			t.Errorf("in English %q became %q", row.err, english)
		}
		if want := "a.toml lässt sich nicht öffnen: das gibt es dort nicht"; within.Error() != want || !errors.Is(within, fs.ErrNotExist) {
			t.Errorf("%q, not %q", within, want)
		}
	}
}
