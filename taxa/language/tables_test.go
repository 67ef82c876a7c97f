package language_test

import (
	"slices"
	"strings"

	"rillkey/couplets/rules"
	"rillkey/scoring/condition"
	"rillkey/scoring/export"
	"rillkey/scoring/scheme"
	"rillkey/scoring/series"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// tables are the sentences that stand in tables of the program.
func tables() (out []string) {
	for _, f := range condition.Parameters() {
		out = append(out, f.Title, f.Section, f.Help)
		if f.Unit == "days" { // the others are signs, the same in every language
			out = append(out, f.Unit)
		}
		for _, o := range f.Categories {
			out = append(out, o.Word, o.What)
		}
	}
	for _, c := range taxa.Classes {
		out = append(out, string(c))
	}
	for _, s := range []series.Stage{series.Unfinished, series.Finished, series.Unreadable} {
		out = append(out, string(s))
	}
	for _, page := range rules.Pages() {
		out = append(append(out, page.Kind, page.Brief), wording.Pieces(page.Text)...)
		for _, m := range rules.Readable().FindAllStringSubmatch(page.Fails+page.Passes, -1) {
			if !strings.Contains(m[2], `\`) {
				out = append(out, m[2])
			}
		}
	}
	return slices.Concat(out, taxa.Ranks, scheme.Statuses, export.Remarks())
}
