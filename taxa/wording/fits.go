package wording

import (
	"slices"
	"strconv"
	"strings"

	"rillkey/taxa/pattern"
)

var verb = pattern.New(`%%|%[-+#0]*([0-9.*]*)(?:\[(\d+)\])?([a-zA-Z])`)

// numbered is a verb that says which value it stands for.
var numbered = pattern.New(`%[-+#0-9.]*\[\d+\][a-zA-Z]`)

// Fits says what keeps a sentence from standing in the place of an English one: it
// must hold the same values, those of a format by their verbs and those of a page by
// their actions. With its values numbered, as in %[1]s and %.2[1]f, it may leave some out. It is
// empty where nothing keeps it.
func Fits(english, said string) string {
	want, got := valuesOf(english), valuesOf(said)
	if len(want) == 0 && len(got) == 0 {
		return ""
	}
	for _, v := range got {
		if !slices.Contains(want, v) {
			return "it holds " + v + ", and the English sentence does not"
		}
	}
	if numbered().MatchString(said) {
		return ""
	}
	for _, v := range want {
		if !slices.Contains(got, v) {
			return "it lacks " + v
		}
	}
	return ""
}

// valuesOf are the values in a sentence, each once: "%[1]s" for the first, which must
// be text, and actions as they stand.
func valuesOf(sentence string) (out []string) {
	next := 1
	add := func(v string) {
		if !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	for _, m := range verb().FindAllStringSubmatch(action().ReplaceAllString(sentence, ""), -1) {
		if m[0] == "%%" {
			continue
		}
		if m[2] != "" {
			next, _ = strconv.Atoi(m[2])
		}
		if strings.Contains(m[1], "*") {
			add("*")
			next++
		}
		kind := m[3]
		if strings.Contains("fgeG", kind) {
			kind = "g"
		}
		add("%[" + strconv.Itoa(next) + "]" + kind)
		next++
	}
	for _, a := range action().FindAllString(sentence, -1) {
		add(a)
	}
	return out
}
