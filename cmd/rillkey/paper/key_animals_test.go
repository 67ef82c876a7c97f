package paper

import (
	"strings"
	"testing"
)

// A key warns of the look-alikes that it can lead to, and of none that live on
// another continent: small scuds are American.
func TestLookAlikesAreAnimalsOfTheKey(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	for name, warns := range map[string]bool{"north-america.toml": true, "north-west-europe.toml": false} {
		if got := strings.Contains(keyOnPaper(t, name).read(), "small scud"); got != warns {
			t.Errorf("%s: it speaks of small scuds: %v", name, got)
		}
	}
}
