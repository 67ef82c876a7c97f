package phone

import (
	"strings"
	"testing"
)

// All is made ready piece by piece, and each press of the rehearsal is one that the
// page takes: none is refused.
func TestEachPressIsRehearsed(t *testing.T) {
	t.Parallel()
	p := phoneOf(3)
	before := p.HTML()
	for part := 0; p.Warm(part); part++ {
		if part > 1000 {
			t.Fatal("it has no end")
		}
		if p.rehearsal != nil && p.rehearsal.page != nil && p.rehearsal.page.wrong {
			t.Errorf("press %d of the rehearsal: %s", p.rehearsal.done, p.rehearsal.page.said)
		}
	}
	if !p.Draws() || p.HTML() != before || p.Begun() {
		t.Error("the page is not as it was before it was made ready")
	}
	if p.rehearsal == nil || p.rehearsal.page != nil || p.rehearsal.done != len(rehearsed) {
		t.Errorf("the rehearsal is not over: %+v", p.rehearsal)
	}
	for _, press := range rehearsed {
		if name, _, _ := strings.Cut(press.Do, ":"); name != drawn.Do && acts()[name] == nil {
			t.Errorf("no button does %s", press.Do)
		}
	}
}
