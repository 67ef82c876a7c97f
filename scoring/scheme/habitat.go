package scheme

import (
	"slices"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// habitats are those that the built-in protocols need or that are offered beside them,
// as files have them. A region's protocol may name others in its own words.
var habitats = []string{wording.Mark("riffle"), wording.Mark("pool"), wording.Mark("leaf-pack"), wording.Mark("root-mat"),
	wording.Mark("sand-or-mud"), wording.Mark("wood"), wording.Mark("all")}

// HabitatWords is a habitat of a file as people are told it, in the language in use;
// one that is not the program's own stays as it was written.
func HabitatWords(habitat string) string {
	for _, h := range habitats {
		if h == habitat {
			return wording.Text(h)
		}
	}
	return habitat
}

// OfferedHabitats are the habitats that a sample may come from where one of the protocols
// is followed, as files have them: first those of the protocols' own, then the program's,
// which are of streams. Where there is no stream these are offered only if a protocol needs
// one of them, or none in particular.
func OfferedHabitats(streams bool, protocols ...*Protocol) (out []string) {
	streams = streams || len(protocols) == 0
	for _, p := range protocols {
		needed := p.habitats()
		streams = streams || len(needed) == 0
		for _, h := range needed {
			switch {
			case slices.Contains(habitats, h):
				streams = true
			case !slices.Contains(out, h):
				out = append(out, h)
			}
		}
	}
	if streams {
		out = append(out, habitats...)
	}
	return out
}

// habitatMeant is the habitat of the program that one of a file was most likely meant to
// be; empty where it is that, or is called in its author's own words.
func habitatMeant(habitat string) string {
	if habitat == AnyHabitat || slices.Contains(habitats, habitat) {
		return ""
	}
	for _, h := range habitats {
		if len(h) > 3 && plain.Distance(habitat, h) <= 2 {
			return h
		}
	}
	return ""
}

// HabitatNamed is the habitat, as files have it, that is so called in the language in
// use; what is none of the program's own is kept as it was said.
func HabitatNamed(said string) string {
	for _, h := range habitats {
		if strings.EqualFold(strings.TrimSpace(said), wording.Text(h)) {
			return h
		}
	}
	return said
}
