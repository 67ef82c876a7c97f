package grid

import (
	"fmt"
	"math"
	"strings"
	"time"
)

const (
	secondsADay = 24 * 60 * 60
	from1900To  = 1462      // days, from the first of those counted since 1900 to that of those since 1904
	lastDay     = 2_958_466 // the first day that is none: 10000-01-01
)

// isoTimes are the forms of ISO 8601 that a cell may hold a day or time in.
var isoTimes = [...]string{time.RFC3339Nano, "2006-01-02T15:04:05.999999999", "2006-01-02T15:04", time.DateOnly}

// day is a day or time of ISO 8601 as the code shows it.
func (c numberCode) day(text string, from1904 bool) string {
	for _, form := range isoTimes {
		at, err := time.Parse(form, strings.TrimSpace(text))
		if err != nil {
			continue
		}
		n := at.Sub(time.Date(1899, time.December, 30, 0, 0, 0, 0, at.Location())).Seconds() / secondsADay
		if from1904 {
			n -= from1900To
		}
		if len(c) == 0 {
			return text
		}
		return c.number(n, from1904)
	}
	return text
}

// moment is a day and the time on it.
type moment struct {
	year, day            int
	month                time.Month
	weekday              time.Weekday
	hour, minute, second int
	fraction             string  // digits of the second
	elapsed              float64 // seconds since day 0
}

// momentOf is the moment that a number stands for: days since 1899-12-31, or 1904-01-01 (18.17.4, dates),
// to so many digits of a second. The year 1900 has a 29th of February, day 60, as it always had in
// spreadsheets; day 0 is shown as the 0th of January.
func momentOf(n float64, from1904 bool, digits int) (moment, bool) {
	if from1904 {
		n += from1900To
	}
	if n < 0 || n >= lastDay {
		return moment{}, false
	}
	unit := math.Pow10(digits)
	units := math.Round(n * secondsADay * unit)
	elapsed := math.Floor(units / unit)
	days, seconds := int(elapsed)/secondsADay, int(elapsed)%secondsADay
	if days >= lastDay {
		return moment{}, false
	}
	m := moment{hour: seconds / 3600, minute: seconds / 60 % 60, second: seconds % 60, elapsed: elapsed,
		fraction: fmt.Sprintf("%0*.0f", digits, units-elapsed*unit)}
	switch {
	case days == 0:
		m.year, m.month, m.day = 1900, time.January, 0
	case days == 60:
		m.year, m.month, m.day = 1900, time.February, 29
	default:
		if days < 60 {
			days++
		}
		at := time.Date(1899, time.December, 30+days, 0, 0, 0, 0, time.UTC)
		m.year, m.month, m.day = at.Date()
	}
	m.weekday = time.Weekday((int(elapsed)/secondsADay + 6) % 7)
	if from1904 {
		m.elapsed -= from1900To * secondsADay
	}
	return m, true
}

// date is a number as a section with places for days and times shows it.
func (s *section) date(n float64, from1904 bool) (string, bool) {
	digits, half := 0, false
	for i, p := range s.parts {
		if p.kind == digit && i > 0 && (s.parts[i-1].kind == point || digits > 0) {
			digits++
		}
		half = half || p.kind == halfDay
	}
	m, ok := momentOf(n, from1904, min(digits, 3))
	if !ok {
		return "", false
	}
	names := namesOfDays(s.language)
	var b strings.Builder
	for i, p := range s.parts {
		switch p.kind {
		case calendar:
			b.WriteString(m.unit(p.text, s.isMinute(i), half, names))
		case elapsed:
			b.WriteString(m.elapsedIn(p.text))
		case halfDay:
			before, after, _ := strings.Cut(p.text, "/")
			if m.hour >= 12 {
				before = after
			}
			b.WriteString(before)
		case digit:
			if m.fraction != "" {
				b.WriteString(m.fraction[:1])
				m.fraction = m.fraction[1:]
			} else {
				b.WriteString("0")
			}
		default:
			b.WriteString(p.text)
		}
	}
	return b.String(), true
}

// isMinute tells whether "m" at this place is minutes: the unit before it is hours, or that
// behind it seconds.
func (s *section) isMinute(at int) bool {
	for i := at - 1; i >= 0; i-- {
		if p := s.parts[i]; p.kind == calendar || p.kind == elapsed {
			if p.text[0] == 'h' {
				return true
			}
			break
		}
	}
	for _, p := range s.parts[at+1:] {
		if p.kind == calendar || p.kind == elapsed {
			return p.text[0] == 's'
		}
	}
	return false
}

// unit is a unit of a moment as a code says it.
func (m moment) unit(code string, isMinute, half bool, names dayNames) string {
	n := 0
	switch code[0] {
	case 'y':
		if len(code) <= 2 {
			return fmt.Sprintf("%02d", m.year%100)
		}
		return fmt.Sprintf("%04d", m.year)
	case 'e':
		return fmt.Sprint(m.year)
	case 'm':
		switch {
		case len(code) == 3:
			return names.shortMonths[m.month-1]
		case len(code) == 5:
			return firstRune(names.months[m.month-1])
		case len(code) > 3:
			return names.months[m.month-1]
		}
		if n = int(m.month); isMinute {
			n = m.minute
		}
	case 'd', 'a':
		switch {
		case len(code) == 3:
			return names.shortWeekdays[m.weekday]
		case len(code) > 3:
			return names.weekdays[m.weekday]
		}
		n = m.day
	case 'h':
		if n = m.hour; half {
			n = (n+11)%12 + 1
		}
	case 's':
		n = m.second
	}
	return fmt.Sprintf("%0*d", min(len(code), 2), n)
}

// elapsedIn is the time since day 0 in a unit.
func (m moment) elapsedIn(code string) string {
	n := m.elapsed
	switch code[0] {
	case 'h':
		n = math.Floor(n / 3600)
	case 'm':
		n = math.Floor(n / 60)
	}
	return fmt.Sprintf("%0*.0f", len(code), n)
}
