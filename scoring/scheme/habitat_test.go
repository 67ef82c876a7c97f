package scheme_test

import (
	"slices"
	"testing"

	"rillkey/scoring/scheme"
	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

// What is told of a habitat can be typed back, in each language.
func TestAHabitatIsToldAndTakenInTheLanguageInUse(t *testing.T) {
	de, err := language.BuiltIn("de")
	if err != nil {
		t.Fatal(err)
	}
	wording.Use(de)
	defer wording.Use(nil)
	for _, row := range []struct{ file, told string }{
		{"riffle", "Rausche"}, {"leaf-pack", "Laubpaket"}, {"Gumpen am Wehr", "Gumpen am Wehr"},
	} {
		if told := scheme.HabitatWords(row.file); told != row.told || scheme.HabitatNamed(told) != row.file {
			t.Errorf("%s is told as %s, which is taken for %s", row.file, told, scheme.HabitatNamed(told))
		}
	}
	if scheme.HabitatNamed("rausche ") != "riffle" || scheme.HabitatNamed("riffle") != "riffle" {
		t.Error("a habitat of the program is not taken in small letters, or as files have it")
	}
}

// A protocol's own habitats come first, each once; those of streams are kept from where
// there is no stream, unless a protocol needs one of them or none in particular.
func TestHabitatsOffered(t *testing.T) {
	of := func(habitats ...string) *scheme.Protocol {
		p := &scheme.Protocol{}
		for _, h := range habitats {
			p.Needs = append(p.Needs, scheme.Need{Habitat: h, Samples: 1})
		}
		return p
	}
	stream := []string{"riffle", "pool", "leaf-pack", "root-mat", "sand-or-mud", "wood", "all"}
	for _, row := range []struct {
		name      string
		streams   bool
		protocols []*scheme.Protocol
		own       []string
		offered   bool // those of streams
	}{
		{"no protocol at a stream", true, nil, nil, true},
		{"no protocol where there is none", false, nil, nil, true},
		{"any habitat", false, []*scheme.Protocol{of()}, nil, true},
		{"its own, at a stream", true, []*scheme.Protocol{of("weir", "riffle")}, []string{"weir"}, true},
		{"one of streams, where there is none", false, []*scheme.Protocol{of("weir", "riffle")}, []string{"weir"}, true},
		{"its own, where there is none", false, []*scheme.Protocol{of("wall")}, []string{"wall"}, false},
		{"two protocols", false, []*scheme.Protocol{of("wall"), of("roof", "wall")}, []string{"wall", "roof"}, false},
		{"two, one of which needs none", false, []*scheme.Protocol{of("wall"), of()}, []string{"wall"}, true},
	} {
		want := row.own
		if row.offered {
			want = slices.Concat(row.own, stream)
		}
		if got := scheme.OfferedHabitats(row.streams, row.protocols...); !slices.Equal(got, want) {
			t.Errorf("%s: %v, not %v", row.name, got, want)
		}
	}
}
