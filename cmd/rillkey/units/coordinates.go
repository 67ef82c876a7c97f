package units

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// Coordinates reads latitude and longitude in decimal degrees, north and east positive, as
// 44.12,-72.98 or 44,12 -72,98; false where they cannot be told apart or lie nowhere on
// earth.
func Coordinates(at string) (latitude, longitude float64, ok bool) {
	north, east := apart(at)
	latitude, err := strconv.ParseFloat(north, 64)
	longitude, err2 := strconv.ParseFloat(east, 64)
	if err != nil || err2 != nil || !(math.Abs(latitude) <= 90 && math.Abs(longitude) <= 180) {
		return 0, 0, false
	}
	return latitude, longitude, true
}

// apart parts latitude from longitude, empty where they cannot be told apart. A
// comma stands between the two, or is a decimal sign: 44.12,-72.98 and 44,12 -72,98.
func apart(at string) (north, east string) {
	var words []string
	for w := range strings.FieldsFuncSeq(at, func(r rune) bool { return r == ';' || unicode.IsSpace(r) }) {
		if w = strings.Trim(w, ","); w != "" {
			words = append(words, w)
		}
	}
	parts := strings.Split(strings.Join(words, " "), ",")
	switch {
	case len(words) == 2:
		return strings.Replace(words[0], ",", ".", 1), strings.Replace(words[1], ",", ".", 1)
	case len(words) == 1 && len(parts) == 2:
		return parts[0], parts[1]
	case len(words) == 1 && len(parts) == 4:
		return parts[0] + "." + parts[1], parts[2] + "." + parts[3]
	}
	return "", ""
}
