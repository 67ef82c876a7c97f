package publish

import (
	"slices"
	"strings"

	"rillkey/taxa/plain"
)

// slugs are names as parts of addresses, each once: lower-case letters, digits and
// hyphens. Names that come to the same get a fingerprint each, whatever their order.
func slugs[T any](all []T, name func(T) string) []string {
	out := make([]string, len(all))
	times := map[string]int{}
	for i, of := range all {
		out[i] = slug(name(of))
		times[out[i]]++
	}
	for i, of := range all {
		if times[out[i]] > 1 {
			out[i] += "-" + short("name", name(of))
		}
	}
	return out
}

// reserved are names that a folder of pages has for itself.
var reserved = []string{"", "index"}

func slug(name string) string {
	id := plain.ID(name)
	if slices.Contains(reserved, id) || plain.IsDevice(id) {
		id = strings.TrimPrefix(id+"-"+short("name", name), "-")
	}
	return id
}
