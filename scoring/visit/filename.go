package visit

import "strings"

// Suffix ends the name of every visit's file, so that a folder can be searched for
// them.
const Suffix = ".visit.toml"

// FileName is what the file of a visit is called when nobody chose a name: the day,
// the site in small letters, and what else tells it from others, if anything.
func FileName(date, site string, more ...string) string {
	slug := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}, strings.Join(append([]string{site}, more...), " "))
	for strings.Contains(slug, "--") {
		slug = strings.ReplaceAll(slug, "--", "-")
	}
	slug = strings.Trim(slug[:min(len(slug), 40)], "-")
	if slug == "" {
		slug = "stream"
	}
	return date + "-" + slug + Suffix
}
