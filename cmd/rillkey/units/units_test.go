package units

import (
	"math"
	"testing"
)

// The international foot is 0.3048 m and the inch 25.4 mm exactly (agreement of
// 1959); the rest is arithmetic.
func TestMeasuresAreReadAsPeopleWriteThem(t *testing.T) {
	for _, row := range []struct {
		read func(string) (float64, error)
		text string
		want float64
	}{
		{Metres, "2 ft", 0.6096},
		{Metres, "60cm", 0.6},
		{Metres, "0.6", 0.6},
		{Metres, "24 in", 0.6096},
		{Metres, "60 centimetres", 0.6},
		{Metres, "2'", 0.6096},
		{Metres, `24"`, 0.6096},
		{Metres, "1 yard", 0.9144},
		{SquareMetres, "0.37 square metres", 0.37},
		{SquareMetres, "4 square feet", 0.37161216},
		{SquareMetres, "0.37 m^2", 0.37},
		{SquareMetres, "4 ft^2", 0.37161216},
		{SquareMetres, "576 sq. in.", 0.37161216},
		{SquareMetres, "3700 sq cm", 0.37},
		{SquareMetres, "0.37 metres squared", 0.37},
		{SquareMetres, "1 square yard", 0.83612736},
		{SquareMetres, "2' x 2'", 0.37161216},
		{SquareMetres, "4 sq ft", 0.37161216},
		{SquareMetres, "0.37", 0.37},
		{SquareMetres, "4 Sq. Ft.", 0.37161216},
		{SquareMetres, "0.37 m²", 0.37},
		{SquareMetres, "0,37 m2", 0.37},
		{SquareMetres, "0,375", 0.375},
		{SquareMetres, "2ft x 2ft", 0.37161216},
		{SquareMetres, "2 x 2 ft", 0.37161216},
		{SquareMetres, "60 cm × 50 cm", 0.3},
		{SquareMetres, "0,6 by 0,5 m", 0.3},
		{SquareMetres, "2 ft by 30 cm", 0.6096 * 0.3},
		{SquareMetres, "3 sq ft", 0.27870912},
		{SquareMetres, "0.1 m x 0.7 m", 0.07},
		{Metres, "2,5", 2.5},
		{Millimetres, "12", 12},
		{Millimetres, "12,5 mm", 12.5},
		{Millimetres, "0.5 in", 12.7},
		{Millimetres, "1.2 cm", 12},
		{Millimetres, "0.333 in", 8.46},
		{Millimetres, "1/3 in", 8.47},
		{Millimetres, "1 1/2 in", 38.1},
		{Millimetres, "1½ in", 38.1},
		{Millimetres, "½ inch", 12.7},
		{Millimetres, "half an inch", 12.7},
		{Millimetres, "3/4\"", 19.05},
		{Metres, "1 1/2 ft", 0.4572},
		{SquareMetres, "1/2 m2", 0.5},
		{SquareMetres, "half a square metre", 0.5},
		{SquareMetres, "1/2 x 1/2 m", 0.25},
	} {
		got, err := row.read(row.text)
		if err != nil || math.Abs(got-row.want) > 1e-12 {
			t.Errorf("%q is %v, %v; want %v", row.text, got, err, row.want)
		}
	}
	for _, tiny := range []func(string) (float64, error){Millimetres, SquareMetres} {
		if got, err := tiny("1e-300"); err == nil && got == 0 {
			t.Error("what is there is taken for nothing")
		}
	}
	for _, text := range []string{"", "ft", "-2", "0", "nan", "inf", "1e999", "2 furlongs", "12 mm2",
		"1,200", "1,2,3", "1.234,5", ",", "1/0 m", "1/ m",
		"/2 m", "1/2/3 m"} {
		if got, err := Metres(text); err == nil {
			t.Errorf("Metres(%q) is taken for %v", text, got)
		}
	}
	for _, text := range []string{"2 ft x", "x", "2 x 2 x 2", "2 ft x -2 ft", "2 ft x 4 m2",
		"4 ft", "0.37 m", "0.37 m3", "2 sq", "3 ^2", "4 square"} {
		if got, err := SquareMetres(text); err == nil {
			t.Errorf("SquareMetres(%q) is taken for %v", text, got)
		}
	}
}

func TestCounts(t *testing.T) {
	for text, want := range map[string]int{"1": 1, " 12 ": 12, "1000000": 1000000} {
		if got, err := Animals(text); err != nil || got != want {
			t.Errorf("%q is %d, %v", text, got, err)
		}
	}
	for _, text := range []string{"0", "-3", "1000000000000", "1.5", "", "x", "9999999999999999999999"} {
		if got, err := Animals(text); err == nil {
			t.Errorf("%q is taken for %d", text, got)
		}
	}
}

func TestProbabilities(t *testing.T) {
	for text, want := range map[string]float64{"0.8": 0.8, "0,8": 0.8, "80%": 0.8, " 2,5 % ": 0.025, "0": 0, "1": 1} {
		if got, err := Probability(text); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%q is %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "80", "-0.1", "nan", "inf", "a", "101%", "1,2,3", "0.1.2"} {
		if got, err := Probability(text); err == nil {
			t.Errorf("%q is taken for %v", text, got)
		}
	}
}

func TestShares(t *testing.T) {
	for text, want := range map[string]float64{"1/4": 0.25, "0.25": 0.25, "0,25": 0.25, " 3 / 4 ": 0.75,
		"25%": 0.25, "12,5 %": 0.125, "1": 1, "1/1": 1} {
		if got, err := Fraction(text); err != nil || got != want {
			t.Errorf("%q is %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "0", "-1/4", "5/4", "1/0", "0/0", "nan", "1/nan", "inf", "a", "1/4/2", "0%", "120%", "%"} {
		if got, err := Fraction(text); err == nil {
			t.Errorf("%q is taken for %v", text, got)
		}
	}
}
