package visit

import "testing"

// One site is one, however its name is typed; another name is another site.
func TestSameSite(t *testing.T) {
	for _, row := range []struct {
		a, b     string
		same     bool
		compared string // what a visit to a with the reference b is compared with
	}{
		{"Mill Brook", "Mill Brook", true, ""},
		{"Mill Brook", " mill   BROOK ", true, ""},
		{"Mill Brook", "Millbrook", false, "Millbrook"},
		{"Mill Brook", "Mill Brook 2", false, "Mill Brook 2"},
		{"Mill Brook", "  Tanyard Brook ", false, "Tanyard Brook"},
		{"Mill Brook", "", false, ""},
	} {
		if SameSite(row.a, row.b) != row.same || SameSite(row.b, row.a) != row.same {
			t.Errorf("%q and %q are one: %v", row.a, row.b, !row.same)
		}
		if got := (Header{Site: row.a, Reference: row.b}).ComparesWith(); got != row.compared {
			t.Errorf("%q with the reference %q is compared with %q", row.a, row.b, got)
		}
	}
}
