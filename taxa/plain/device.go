package plain

import "strings"

// IsDevice reports whether Windows keeps the name of a file, before its first dot, for a
// device (memory): "con" as well as "Con.practice.toml".
func IsDevice(name string) bool {
	name, _, _ = strings.Cut(strings.ToLower(name), ".")
	switch name {
	case "con", "prn", "aux", "nul":
		return true
	}
	port, digit := strings.CutPrefix(name, "com")
	if !digit {
		port, digit = strings.CutPrefix(name, "lpt")
	}
	return digit && len(port) == 1 && port[0] >= '1' && port[0] <= '9'
}
