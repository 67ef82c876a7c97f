package plain

import "testing"

func TestNamesBecomeIDs(t *testing.T) {
	for _, row := range [][2]string{
		{"Jointed legs", "jointed-legs"},
		{"  Größe (mm) ", "grosse-mm"},
		{"Schwänze", "schwanze"},
		{"éphémère", "ephemere"},
		{"œil", "oeil"},
		{"Подёнка", "podenka"},
		{"жуки", "zuki"},
		{"εφήμερο", "efimero"},
		{"Łątka", "latka"},
		{"蜉蝣", "u8709u8763"},
		{"2|3", "2-3"},
		{"--", ""},
		{"?", ""},
	} {
		got := ID(row[0])
		if got != row[1] || got != "" && !IsID(got) {
			t.Errorf("%q: %q, want %q", row[0], got, row[1])
		}
	}
}

func FuzzID(f *testing.F) {
	f.Add("Größe (mm)")
	f.Fuzz(func(t *testing.T, name string) {
		if id := ID(name); id != "" && (!IsID(id) || ID(id) != id) {
			t.Errorf("%q: %q, again %q", name, id, ID(id))
		}
	})
}
