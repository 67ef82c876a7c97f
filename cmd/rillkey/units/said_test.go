package units

import "testing"

func TestALengthIsFoundAmongWords(t *testing.T) {
	for _, tc := range []struct {
		said string
		mm   float64
		rest string
	}{
		{"brown, 22 mm", 22, "brown"},
		{"22mm long, brown", 22, "brown"},
		{"about 1 cm long", 10, ""},
		{"it is roughly 1.5 centimetres, flat", 15, "flat"},
		{"1,5 cm", 15, ""},
		{"half an inch", 12.7, ""},
		{"Half inch long and brown", 12.7, "and brown"},
		{"a quarter inch", 6.35, ""},
		{"1/2 inch", 12.7, ""},
		{"1 1/2 inches", 38.1, ""},
		{"3/4 in", 19.05, ""},
		{"1½ inches, brown", 38.1, "brown"},
		{"½ inch", 12.7, ""},
		{"an inch long", 25.4, ""},
		{"two and a half centimeters", 25, ""},
		{"five millimetres", 5, ""},
		{"10 to 12 mm, six legs", 11, "six legs"},
		{"10-12mm", 11, ""},
		{"6 legs, 8 mm", 8, "6 legs"},
		{"a 20 millimeter worm", 20, "a , worm"},
		// The length of a part is not the body's.
		{"two tails 5 mm long", 0, "two tails"},
		{"5 mm legs", 0, "legs"},
		{"tails are half an inch", 0, "tails"},
		// No length.
		{"long and thin", 0, "long and thin"},
		{"six legs in front", 0, "six legs in front"},
		{"six legs, two in front", 0, "six legs, two in front"},
		{"2 in front, 4 behind", 0, "2 in front, 4 behind"},
		{"ten legs in all", 0, "ten legs in all"},
		{"moves like an inchworm", 0, "moves like an inchworm"},
		{"12", 0, "12"},
		{"", 0, ""},
	} {
		mm, rest, err := LengthSaid(tc.said)
		if mm != tc.mm || rest != tc.rest || err != nil {
			t.Errorf("%q: %v mm, %q, %v; want %v, %q", tc.said, mm, rest, err, tc.mm, tc.rest)
		}
	}
	for _, said := range []string{"3000 mm", "0 mm", "0.001 mm", "4 x 900 inches"} {
		if mm, _, err := LengthSaid(said); err == nil {
			t.Errorf("%q: %v mm, and no error", said, mm)
		}
	}
}

func FuzzLengthSaid(f *testing.F) {
	f.Add("about 1 1/2 inches long, brown")
	f.Add("tails 10-12 mm")
	f.Add("half an inch")
	f.Fuzz(func(t *testing.T, said string) {
		if mm, rest, err := LengthSaid(said); err == nil && (mm < 0 || mm > 1e4 || mm == 0 && rest == "" && len(said) > 60) {
			t.Errorf("%q: %v mm, %q", said, mm, rest)
		}
	})
}
