package visit

import (
	"strings"

	"rillkey/taxa/plain"
)

// Suffix ends the name of every visit's file, so that a folder can be searched for
// them.
const Suffix = ".visit.toml"

// FileName is what the file of a visit is called when nobody chose a name: the day,
// the site in small letters, unless it is obscured, and what else tells it from others,
// if anything.
func FileName(date, site string, obscured bool, more ...string) string {
	if obscured {
		site = ""
	}
	slug := plain.ID(strings.Join(append([]string{site}, more...), " "))
	slug = strings.Trim(slug[:min(len(slug), 40)], "-")
	if slug == "" {
		slug = "stream"
	}
	return date + "-" + slug + Suffix
}

// NamedAsFile is a name that ends as that of every visit's file does, with more before that end.
func NamedAsFile(name, more string) string {
	return strings.TrimSuffix(strings.TrimSuffix(name, ".toml"), ".visit") + more + Suffix
}
