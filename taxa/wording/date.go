package wording

import (
	"strings"
	"time"
)

// Date is a day as people say it: "4 March 2026".
func Date(t time.Time) string {
	const layout, month = "2 January 2006", "January"
	c := inUse.Load()
	if c == nil || c.Date == "" {
		return t.Format(layout)
	}
	before, after, _ := strings.Cut(c.Date, month)
	if len(c.Months) != 12 {
		return t.Format(c.Date)
	}
	return t.Format(before) + c.Months[t.Month()-1] + t.Format(after)
}
