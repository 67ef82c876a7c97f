package grid

import (
	"cmp"
	"math"
	"strconv"
	"strings"
	"time"

	"rillkey/taxa/pattern"
)

// builtIn are the formats of numbers that go by their ids alone (ECMA-376, part 1,
// 18.8.30), as far as they are of one kind everywhere.
var builtIn = map[int]string{1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%"}

// dates are ids of formats of days and times (there, with those of East Asia).
func dates(id int) bool {
	return id >= 14 && id <= 22 || id >= 27 && id <= 36 || id >= 45 && id <= 47 || id >= 50 && id <= 58
}

// readStyles reads how the numbers of each style are shown.
func (w *workbook) readStyles() error {
	var styles struct {
		Formats []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Styles []struct {
			Format int `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if r, err := w.part("xl/styles.xml"); err != nil {
		return nil
	} else if r.Close(); w.decode("xl/styles.xml", &styles) != nil {
		return errWorkbook
	}
	own := map[int]string{}
	for _, f := range styles.Formats {
		own[f.ID] = f.Code
	}
	for _, s := range styles.Styles {
		code := cmp.Or(own[s.Format], builtIn[s.Format])
		if code == "" && dates(s.Format) {
			code = "yyyy-mm-dd"
		}
		w.formats = append(w.formats, code)
	}
	return nil
}

var (
	aside    = pattern.New(`"[^"]*"|\[[^\]]*\]|[\\_*].|;.*`) // what is no sign of a number
	decimals = pattern.New(`^[#,]*0(?:\.(0+))?(%?)$`)
)

// shown is a number as the spreadsheet shows it: with the decimals of its style or as
// per cent, else to 15 figures, which is what spreadsheets reckon with. Days and times
// are written as ISO 8601 has them, however they are shown.
func (w *workbook) shown(value string, style int) string {
	n, err := strconv.ParseFloat(value, 64)
	if err != nil || math.IsInf(n, 0) || math.IsNaN(n) {
		return value
	}
	code := ""
	if style >= 0 && style < len(w.formats) {
		code = aside().ReplaceAllString(w.formats[style], "")
	}
	if strings.ContainsAny(strings.ToLower(code), "ymdhs") && n >= 0 && n < 2_958_466 {
		return w.day(n)
	}
	if m := decimals().FindStringSubmatch(code); m != nil {
		if m[2] != "" {
			n *= 100
		}
		return strconv.FormatFloat(n, 'f', len(m[1]), 64) + m[2]
	}
	n, _ = strconv.ParseFloat(strconv.FormatFloat(n, 'g', 15, 64), 64) // a number as it was
	return strconv.FormatFloat(n, 'f', -1, 64)
}

// day is the day and the time of a number of days. The first is 1 January 1900, and a
// 29 February 1900 is counted that never was (ECMA-376, part 1, 18.17.4.1).
func (w *workbook) day(days float64) string {
	whole, part := math.Modf(days)
	from := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	switch {
	case w.mac:
		from = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	case whole < 60:
		from = from.AddDate(0, 0, 1)
	}
	seconds := time.Duration(math.Round(part*86400)) * time.Second
	t := from.AddDate(0, 0, int(whole)).Add(seconds)
	switch {
	case whole == 0 && !w.mac:
		return t.Format("15:04:05")
	case seconds == 0:
		return t.Format("2006-01-02")
	}
	return t.Format("2006-01-02 15:04:05")
}
