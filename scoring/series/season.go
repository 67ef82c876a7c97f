package series

import (
	"math"
	"slices"
	"time"

	"rillkey/scoring/visit"
)

// season is a quarter of the year, as RIVPACS has them: spring is March to May,
// summer June to August, autumn September to November (Wright and others 2000,
// from memory).
type season int

const (
	spring season = iota
	summer
	autumn
	winter
)

// seasonOf is the season of a day and the year it is told by: December goes with
// the winter of the next year.
func seasonOf(day time.Time) (season, int) {
	switch m := day.Month(); {
	case m == time.December:
		return winter, day.Year() + 1
	case m < time.March:
		return winter, day.Year()
	default:
		return season((m - time.March) / 3), day.Year()
	}
}

// apart is how many days two days of the year are from each other, whatever the
// year.
func apart(a, b float64) float64 {
	d := math.Mod(math.Abs(a-b), daysPerYear)
	return math.Min(d, daysPerYear-d)
}

// sameTime is how many days from the newest visit's day of the year earlier visits
// may lie to be compared with it: animals grow up and fly off within weeks
// (common practice: compare within the same month or so).
const sameTime = 30

// SameTimeOfYear reports whether two days lie at most 30 days apart, whatever their
// years: of animals that grow up within weeks no more can be said to be the same ones.
func SameTimeOfYear(a, b time.Time) bool {
	return apart(float64(a.YearDay()), float64(b.YearDay())) <= sameTime
}

// InSeason reports whether a visit was at the time of year of a day, in whichever year, and
// to a site, however its name is written; to any where that is empty.
func InSeason(h visit.Header, day time.Time, site string) bool {
	then, err := time.Parse(time.DateOnly, h.Date)
	return err == nil && SameTimeOfYear(then, day) && (site == "" || visit.SameSite(site, h.Site))
}

// mostSeasonal is how many files are read for their season at most: a folder of several
// sites over ten years, which takes a second or so.
const mostSeasonal = 200

// Seasonal are the visits at the time of year of a day, in whichever year, of the newest 200
// of some files, which are in the order of their names and so of their days; to one site
// where it is named (see [InSeason]). A file that cannot be read is passed over with the
// reason.
func Seasonal(files []string, day time.Time, site string, passOver func(file string, why error)) (out []*visit.Visit) {
	for _, file := range files[max(0, len(files)-mostSeasonal):] {
		v, err := visit.Read(file)
		if err != nil {
			passOver(file, err)
		} else if InSeason(v.Header, day, site) {
			out = append(out, v)
		}
	}
	return out
}

// atTheTimeOfTheLast are the visits at the same time of year as the last.
func atTheTimeOfTheLast(all []observed) []observed {
	if len(all) == 0 {
		return nil
	}
	last := all[len(all)-1]
	return slices.DeleteFunc(slices.Clone(all), func(o observed) bool { return apart(o.day, last.day) > sameTime })
}

// drifts tells that within the seasons the day of the visit wanders with the
// years, so that nobody can tell a trend from the time of year: it moves by over
// sameTime days, and so regularly as chance moves it in one of ten cases.
func drifts(seasons [][]observed) bool {
	var days []([]point)
	widest := 0.0
	for _, s := range seasons {
		var points []point
		for _, o := range s {
			points = append(points, point{float64(o.year), o.day})
			for _, p := range points {
				widest = max(widest, math.Abs(p.value-o.day))
			}
		}
		days = append(days, points)
	}
	t, ok := seasonal(days, 0)
	return ok && widest > sameTime && t.P <= 0.1
}
