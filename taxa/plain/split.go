package plain

import (
	"strings"

	"rillkey/taxa/wording"
)

// SplitList gives what stands between the commas of a list, without what is empty.
func SplitList(list string) []string { return itemsAt(list, ",") }

// SplitNames gives the names of a list such as "Oona, Mags and Bo", in the language in use.
func SplitNames(list string) (names []string) {
	for _, part := range SplitList(strings.ReplaceAll(list, ";", ",")) {
		names = append(names, itemsAt(strings.ReplaceAll(part, " & ", wording.Text(" and ")), wording.Text(" and "))...)
	}
	return names
}

func itemsAt(list, sign string) []string {
	var out []string
	for _, s := range strings.Split(list, sign) {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}
