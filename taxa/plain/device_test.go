package plain

import "testing"

func TestNamesThatWindowsKeepsForDevices(t *testing.T) {
	for name, want := range map[string]bool{
		"con": true, "Aux": true, "NUL.txt": true, "com1": true, "Lpt9.practice.toml": true,
		"": false, "Conny": false, "com": false, "com0": false, "com10": false, "falcon": false, "2026-05-16-con.visit.toml": false,
	} {
		if got := IsDevice(name); got != want {
			t.Errorf("%q: %v", name, got)
		}
	}
}
