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
		{"an inch and a half", 38.1, ""},
		{"brown, about an inch and a half long", 38.1, "brown"},
		{"two centimetres and a half, flat", 25, "flat"},
		{"two and a half centimeters", 25, ""},
		{"half a mm", 0.5, ""},
		{"thin as a hair, 1 m", 1000, "thin as a hair"},
		{"brown, half a metre long", 500, "brown"},
		{"a worm 1 m long", 1000, "a worm"},
		{"from 1 m of water", 0, "from 1 m of water"}, // which is no length of an animal
		{"pool a metre deep, brown", 0, "pool a metre deep, brown"},
		{"no case, 7 mm", 7, "no case"},
		{"without a house or net, 7 mm", 7, "without a house or net"},
		{"five millimetres", 5, ""},
		{"10 to 12 mm, six legs", 11, "six legs"},
		{"10-12mm", 11, ""},
		{"6 legs, 8 mm", 8, "6 legs"},
		{"a 20 millimeter worm", 20, "a , worm"},
		// The length of a part is not the body's.
		{"two tails 5 mm long", 0, "two tails"},
		{"5 mm legs", 0, "legs"},
		{"tails are half an inch", 0, "tails"},
		{"case 2 cm long", 0, "case"},
		{"the case is 2 cm long", 0, "the case"},
		{"in a tube an inch long", 0, "in a tube"},
		{"Stick about an inch long, bored out down the middle, and the fellow lives inside", 0,
			"Stick,, bored out down the middle, and the fellow lives inside"},
		{"in a muddy tube about an inch long", 0, "in a muddy tube"},
		{"case of sand grains 2 cm long", 0, "case of sand grains"},
		{"a 2 cm case", 0, "a case"},
		{"a 2 cm sand case", 0, "a, sand case"},
		{"2 cm long, in a case", 20, "in a case"},
		{"2 cm long in a case", 0, "in a case"},
		{"case made of sand, 2 cm long", 0, "case made of sand"},
		{"six legs, case made of sand, about 2 cm, brown", 0, "six legs, case made of sand,,, brown"},
		{"the tube it lives in is 3 cm", 0, "the tube it lives in is"},
		{"lives in a house 15 mm long", 0, "lives in a house"},
		{"tunnels on a stone, 25 mm long", 0, "tunnels on a stone"},
		{"a silk gallery 4 cm long", 0, "a silk gallery"},
		{"the larva is 12 mm, in a case", 12, "the larva is ,, in a case"},
		{"in a case of stones the larva itself 12 mm long", 12, "in a case of stones the larva itself"},
		{"case 20 mm, larva 12 mm", 12, "case,, larva"},
		{"case 20 mm, body 12 mm", 12, "case"},
		{"body 20 mm", 20, ""},
		{"The house is from sand and is flat as a shield, 20 mm long", 0, "The house is from sand and is flat as a shield"},
		{"House made of coarse sand, short and stout, 12 mm", 0, "House made of coarse sand, short and stout"},
		{"it lives in a neat little chimney, four-sided, 13 mm long", 0, "it lives in a neat little chimney, four-sided"},
		{"the case is gone, the larva 12 mm long", 12, "the case is gone, the larva"},
		{"It was in the net. 10 mm, brown", 10, "It was in the net. ,, brown"},
		{"in a case, brown, 12 mm", 12, "in a case, brown"},
		{"shell 2 cm long", 20, "shell"},
		// Nor is its width.
		{"8 mm across", 0, ""},
		{"brown, about 8 mm wide", 0, "brown"},
		{"half an inch in diameter, round", 0, "round"},
		{"10 mm long, 3 mm wide, brown", 10, "brown"},
		{"3 mm wide and 10 mm long", 10, "and"},
		{"10 mm long and 3 mm across", 10, "and"},
		{"12 mm, a head 2 mm wide", 12, "a head"},
		// Nor is it that of the body with its tails.
		{"12 mm, tails and all", 0, ""},
		{"brown, 12 mm with its tails", 0, "brown"},
		{"12 mm including the tails, flat", 0, "flat"},
		{"12 mm with tails and all", 12, "with tails and all"}, // it may only have some
		{"12 mm with three tails", 12, "with three tails"},
		{"8 mm without the tails, brown", 8, "brown"},
		{"12 mm not counting the tails and feelers", 12, ""},
		{"38 mm even without the tail end whiskers, brown", 38, "brown"},
		{"20 mm, tails and all, body 12 mm", 12, ""},
		// What was measured goes before what was guessed.
		{"an inch long near enough, 22 mm by my ruler", 22, "near enough, , by my ruler"},
		{"22 mm, nearly an inch", 22, "nearly an inch"},
		// A word behind a comma may begin another thing.
		{"25 mm, wide and flattened belly", 25, "wide and flattened belly"},
		{"6 mm, across", 0, ""},
		// No length.
		{"long and thin", 0, "long and thin"},
		{"six legs in front", 0, "six legs in front"},
		{"six legs, two in front", 0, "six legs, two in front"},
		{"2 in front, 4 behind", 0, "2 in front, 4 behind"},
		{"ten legs in all", 0, "ten legs in all"},
		{"moves like an inchworm", 0, "moves like an inchworm"},
		// How high a coiled shell is, is its length; that of another thing is not.
		{"shell 5 mm high, dark", 5, "shell ,, dark"},
		{"a 3 mm tube of the finest sand", 0, "a tube of the finest sand"},
		{"a cap-shaped shell 3 mm high", 0, "a cap-shaped shell"},
		{"a house 5 mm high", 0, "a house"},
		{"12", 0, "12"},
		{"", 0, ""},
	} {
		got, err := LengthSaid(tc.said)
		if got.MM != tc.mm || got.Rest != tc.rest || err != nil {
			t.Errorf("%q: %+v, %v; want %v, %q", tc.said, got, err, tc.mm, tc.rest)
		}
	}
	for _, said := range []string{"-3 mm", "six legs, -3 mm long", "3000 mm", "0 mm", "0.001 mm", "4 x 900 inches"} {
		if got, err := LengthSaid(said); err == nil {
			t.Errorf("%q: %+v, and no error", said, got)
		}
	}
}

func FuzzLengthSaid(f *testing.F) {
	f.Add("about 1 1/2 inches long, brown")
	f.Add("tails 10-12 mm")
	f.Add("half an inch")
	f.Fuzz(func(t *testing.T, said string) {
		got, err := LengthSaid(said)
		if err == nil && (got.MM < 0 || got.MM > 1e4 || got.MM == 0 && got.Part == "" && got.Rest == "" && len(said) > 60) {
			t.Errorf("%q: %+v", said, got)
		}
	})
}
