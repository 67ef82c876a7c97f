package publish

import (
	"io/fs"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Streams say on which stream a site lies.
type Streams struct {
	titles map[string]string // title of the stream by the folded name of the site
}

// LoadStreams reads a file with a table for each stream:
//
//	[stream.tanyard-brook]
//	title = "Tanyard Brook"
//	sites = ["Tanyard Brook above the footbridge", "The mill"]
//
// A site that no table names goes by its own name. Messages call the file shown; the
// error is of type [authored.Findings] where it could be read at all.
func LoadStreams(fsys fs.FS, name, shown string) (*Streams, error) {
	var report authored.Report
	top, err := authored.ReadTable(fsys, name, shown, &report)
	if err != nil {
		return nil, err
	}
	if top == nil {
		return nil, report.Findings().Err()
	}
	s := &Streams{titles: map[string]string{}}
	top.Need("stream")
	for _, row := range top.Subs("stream") {
		title := row.NeedStr("title")
		row.Need("sites")
		for _, site := range row.Strs("sites") {
			if s.titles[folded(site)] != "" {
				row.Fail("sites", "doubled-site", wording.Sprintf("%s lies on another stream already", plain.Quote(site)),
					wording.Text("name it once"))
			}
			s.titles[folded(site)] = title
		}
		row.Done()
	}
	top.Done()
	return s, report.Findings().Err()
}

// where parts the name of a stream from where on it a site lies (common practice in
// naming sites).
var where = pattern.New(
	`(?i)\s*[,;:(/].*$|\s+[–—-]\s+.*$` +
		`|\s+(?:at|above|below|near|by|under|behind|opposite|beside|between|upstream|downstream|up|down)\s+.*$` +
		`|\s+(?:site|no\.?)\s*\d+$|\s+#?\d+$`)

// named is the title of the stream on which a site lies.
func (s *Streams) named(site string) string {
	if s != nil {
		if title := s.titles[folded(site)]; title != "" {
			return title
		}
	}
	if title := strings.TrimSpace(where().ReplaceAllString(site, "")); title != "" {
		return title
	}
	return site
}
