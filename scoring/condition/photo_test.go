package condition

import (
	"errors"
	"strings"
	"testing"
	"testing/iotest"
)

// The sum of "abc" is the example of FIPS 180-4's one-block message.
func TestFileEntry(t *testing.T) {
	const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	got, err := FileEntry("on/the/card/a.jpg", strings.NewReader("abc"))
	if err != nil || got != "a.jpg sha256:"+abc {
		t.Errorf("%q, %v", got, err)
	}
	if got, err = fileEntry("a.jpg", strings.NewReader("abc"), 3); err != nil || got != "a.jpg sha256:"+abc {
		t.Errorf("as large as it may be: %q, %v", got, err)
	}
	if got, err = fileEntry("a.jpg", strings.NewReader("abcd"), 3); err == nil || got != "" {
		t.Errorf("one byte more: %q, %v", got, err)
	}
	if got, err = FileEntry("a.jpg", iotest.ErrReader(errors.New("the card is out"))); err == nil || got != "" {
		t.Errorf("a card that was taken out: %q, %v", got, err)
	}
}
