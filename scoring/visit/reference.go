package visit

import "strings"

// SameSite tells that two names are those of one site, whatever their case and spaces.
func SameSite(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}

// ComparesWith is the site that the group compares this one with, by its name; empty
// where it names none, or the site itself.
func (h Header) ComparesWith() string {
	if SameSite(h.Site, h.Reference) {
		return ""
	}
	return strings.TrimSpace(h.Reference)
}

// WithReference is a copy of a visit that names another site to compare with, or none, as
// its header has it from the beginning; its tally is that of the visit.
func WithReference(v *Visit, site string) *Visit {
	tally, out := v.Tally(), *v
	if v.asWritten != nil {
		written := *v.asWritten
		written.Reference = site
		out.asWritten = &written
	}
	out.Header.Reference = site
	out.replayed = replayed{out.asReplayed(), tally}
	return &out
}
