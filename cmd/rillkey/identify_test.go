package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"rillkey/cmd/rillkey/demo"
	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
)

// fields are what 'identify --json' prints as agreed; more may be added, none
// renamed.
var fields = []string{"taxon", "rank", "scientific", "common", "class", "confidence", "path", "also", "doubts", "questions"}

// call runs the program without a terminal and without files.
func call(t *testing.T, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	return callDrawing(t, bytes.NewReader(make([]byte, 1<<12)), args...)
}

// callDrawing is call with a source of chance of its own: the entries of one visit need
// codes that differ.
func callDrawing(t *testing.T, random io.Reader, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	status = run(args, world{
		stdin: strings.NewReader(""), stdout: &out, stderr: &errs, width: 80, random: random,
		now: func() time.Time { return time.Date(2026, 5, 16, 12, 0, 0, 0, time.UTC) },
		env: func(string) string { return "" },
	})
	return status, out.String(), errs.String()
}

// runIn runs the program, which must not end as misused or on bad data.
func runIn(t *testing.T, args ...string) string {
	t.Helper()
	status, out, errs := call(t, args...)
	if status != statusDone && status != statusCannotSay {
		t.Fatalf("rillkey %s: status %d\n%s%s", strings.Join(args, " "), status, out, errs)
	}
	return out
}

// Every lead of the key is taken once, on the way to some end point, and every
// end point is reached. Whoever goes on to answer as the trait table has it gets
// that end point named, or, where nothing parts it for certain from its like,
// the group above; the JSON has all that was agreed.
func TestEveryLeadLeadsToItsEnd(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	m := keytest.Model(t)
	for _, lens := range []bool{true, false} {
		o := key.DefaultOptions()
		o.NoLens = !lens
		var above, open []string
		reached := map[string]bool{}
		for i, path := range pathsOverEveryLead(m.Key()) {
			end := path[len(path)-1]
			if reached[end] && !lens {
				continue
			}
			if i%keytest.Times(1, 4) > 0 { // its walk takes a while
				reached[end] = true
				continue
			}
			q := truthfully(t, m, o, end, path[:len(path)-1])
			reached[end] = true
			switch v := q.Verdict(); {
			case v.Taxon == end:
			case v.Taxon != "" && m.Key().Catalog().IsUnder(end, v.Taxon):
				above = append(above, end+" as "+v.Taxon)
			case v.Level == key.ToSet && slices.Contains(v.Set, end):
				above = append(above, end+" as one of "+strings.Join(v.Set, ", "))
			case v.Taxon != "" && len(path) > 1 && sharesItsEnd(m, end) && sharesItsEnd(m, v.Taxon):
				above = append(above, end+" as "+v.Taxon)
			case v.Taxon != "":
				t.Errorf("%v: %s is named %s (%.3f)", q.Path(), end, v.Taxon, v.Probability)
			default:
				open = append(open, end+" as "+string(v.Level)+" "+string(v.Class))
			}
		}
		for _, e := range m.Key().Ends() {
			if !reached[e.ID] {
				t.Errorf("no path leads to %s", e.ID)
			}
		}
		t.Logf("with a lens: %v; %d end points; the group above is named on %d paths: %q; no name on %d: %q", lens,
			len(reached), len(above), above, len(open), open)
		if len(open) > len(reached)/10 {
			t.Errorf("with a lens: %v: %d of %d truthful paths end without a name", lens, len(open), len(reached))
		}
	}
}

// Every end point has a path whose JSON names it: that of the key with truthful
// confirming answers, or, where these leave the group above, the same with the
// name that is likelier than all others together (--sure 0.51); kinds that share an
// end with a commoner one may go by the name of that. The JSON has all
// that was agreed, and nothing of it contradicts the rest.
func TestIdentifyJSON(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	m := keytest.Model(t)
	byDefault, unsure := 0, []string{}
	for i, end := range m.Key().Ends() {
		if i%keytest.Thoroughly(1, 2) > 0 {
			continue
		}
		o := key.DefaultOptions()
		got := identifyJSON(t, m, o, end.ID)
		if got["taxon"] == end.ID {
			byDefault++
			continue
		}
		o.Required, o.Settle = 0.51, 0.51
		if got := identifyJSON(t, m, o, end.ID); got["taxon"] != end.ID && !sharesItsEnd(m, end.ID) && got["taxon"] != lostParts[end.ID] {
			unsure = append(unsure, fmt.Sprintf("%s as %v (%v)", end.ID, got["taxon"], got["confidence"]))
		}
	}
	t.Logf("%d of %d end points are named at 0.90", byDefault, len(m.Key().Ends()))
	if len(unsure) > 0 {
		t.Errorf("not named even at 0.51: %q", unsure)
	}
}

// lostParts are the ends of animals that are known by what they lost: each may be any of
// its group.
var lostParts = map[string]string{"damselfly-plateless": "zygoptera"}

// identifyJSON runs the program on truthful answers for an end point, checks the
// document against the verdict, and gives it.
func identifyJSON(t *testing.T, m *key.Model, o key.Options, end string) map[string]any {
	t.Helper()
	q := truthfully(t, m, o, end, m.Key().PathsTo()[end])
	args := []string{"identify", "--no-save", "--json", "--answers", answersFlag(q.Path())}
	if o.Required == o.Settle {
		args = append(args, "--sure", fmt.Sprint(o.Required))
	}
	status, stdout, stderr := call(t, args...)
	var got map[string]any
	if err := json.Unmarshal([]byte(stdout), &got); err != nil || stderr != "" {
		t.Fatalf("%s: %v in %s%s", end, err, stdout, stderr)
	}
	for _, f := range fields {
		if _, ok := got[f]; !ok {
			t.Errorf("%s: no field %q", end, f)
		}
	}
	v := q.Verdict()
	want := map[string]any{"taxon": v.Taxon, "level": string(v.Level), "questions": float64(v.Questions), "likeliest": v.Likeliest}
	if named := m.Key().Catalog().Taxon(v.Taxon); named != nil {
		want["rank"], want["scientific"] = named.Rank, named.Scientific
	}
	for f, w := range want {
		if got[f] != w {
			t.Errorf("%s: %s is %v, want %v", end, f, got[f], w)
		}
	}
	if c := got["confidence"].(float64); (c >= o.Required) != (v.Taxon != "") || c > 1 {
		t.Errorf("%s: confidence %v, named %q", end, c, v.Taxon)
	}
	if (status == statusCannotSay) != (v.Taxon == "") {
		t.Errorf("%s: ends with %d, named %q", end, status, v.Taxon)
	}
	return got
}

// A record keeps the probabilities of all else that it may be; with that of the
// name they never make more than one, and nothing under the name is among them.
func TestRecordsKeepProbabilities(t *testing.T) {
	t.Parallel()
	m := keytest.Model(t)
	for i, end := range m.Key().Ends() {
		if i%3 != 0 {
			continue
		}
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		path := m.Key().PathsTo()[end.ID]
		for _, lead := range path[:len(path)-i%2] {
			if err := q.Say(lead); err != nil {
				t.Fatal(err)
			}
		}
		body, err := (&recordFlags{sample: "1", count: "1"}).identification(q, 0)
		if err != nil {
			t.Fatal(err)
		}
		sum := body.Confidence
		for _, c := range body.Also {
			if c.Taxon == body.Taxon {
				t.Errorf("%v: %s is beside itself", path, c.Taxon)
			}
			if body.Taxon == "" || !m.Key().Catalog().IsUnder(c.Taxon, body.Taxon) {
				sum += c.Probability
			}
		}
		if sum > 1+1e-9 || body.FitsHalf <= 0 || body.FitsTwice <= 0 || sum < 0.8 || body.Undecided != (body.Taxon == "") ||
			!slices.Equal(body.Path, q.Path()) {
			t.Errorf("%v: sum %v, taxon %q, undecided %v", path, sum, body.Taxon, body.Undecided)
		}
	}
}

// truthfully is an inquiry in which these leads were taken and all that was asked
// then was answered as the trait table has it for the animal.
func truthfully(t testing.TB, m *key.Model, o key.Options, animal string, leads []string) *key.Inquiry {
	t.Helper()
	q, err := m.Inquire(o)
	if err != nil {
		t.Fatal(err)
	}
	for _, lead := range leads {
		if err := q.Say(lead); err != nil {
			t.Fatal(err)
		}
	}
	f := demo.Catch{Taxon: animal}
	if err := f.Answer(q); err != nil {
		t.Fatal(err)
	}
	return q
}

// answersFlag is a path as --answers takes it.
func answersFlag(path []string) string {
	out := make([]string, len(path))
	for i, p := range path {
		out[i] = strings.ReplaceAll(p, ",", "+")
	}
	return strings.Join(out, ",")
}

// letters are what the states of a trait are chosen by, as the screen shows them.
const letters = "abcdefgijklmnop"

// keysTyped are the keys that answer a path on the screen.
func keysTyped(t testing.TB, m *key.Model, path []string) []string {
	t.Helper()
	var out []string
	for _, p := range path {
		trait, state, ok := strings.Cut(p, "=")
		if !ok {
			out = append(out, p[len(p)-1:])
			continue
		}
		i := m.Key().Catalog().Vocabulary().Trait(trait).State(state)
		out = append(out, letters[i:i+1])
	}
	return out
}

// pathsOverEveryLead gives paths that together take every lead; the last element
// of each is the taxon it ends in. It knows nothing but the couplets.
// sharesItsEnd reports whether the key does not part a kind from another.
func sharesItsEnd(m *key.Model, end string) bool {
	return slices.ContainsFunc(m.Key().Couplets(), func(c couplets.Couplet) bool {
		return slices.ContainsFunc(c.Leads, func(l couplets.Lead) bool { return len(l.Taxa) > 1 && slices.Contains(l.Taxa, end) })
	})
}

func pathsOverEveryLead(k *key.Key) [][]string {
	couplet := map[string]*couplets.Couplet{}
	for i := range k.Couplets() {
		couplet[k.Couplets()[i].ID] = &k.Couplets()[i]
	}
	start := k.Walk().Couplet().ID
	to := map[string][]string{start: {}}
	for queue := []string{start}; len(queue) > 0; queue = queue[1:] {
		c := couplet[queue[0]]
		for _, l := range c.Leads {
			if _, known := to[l.Next]; l.Next != "" && !known {
				to[l.Next] = append(slices.Clone(to[c.ID]), c.ID+l.Letter)
				queue = append(queue, l.Next)
			}
		}
	}
	var paths [][]string
	for i := range k.Couplets() {
		c := &k.Couplets()[i]
		for _, l := range c.Leads {
			path := append(slices.Clone(to[c.ID]), c.ID+l.Letter)
			for l.Next != "" {
				next := couplet[l.Next]
				l = next.Leads[0]
				path = append(path, next.ID+l.Letter)
			}
			for _, end := range l.Taxa {
				paths = append(paths, append(slices.Clone(path), end))
			}
		}
	}
	return paths
}

func TestIdentifyWithoutAName(t *testing.T) {
	for _, row := range []struct {
		why    string
		args   []string
		status int
		want   string
	}{
		{"what fits many kinds has no name", []string{"--answers", "1b"}, statusCannotSay, "Set aside for a second look"},
		{"what fits nothing says so", []string{"--observe", "legs=0", "--observe", "tails=3", "--observe", "wings=hard"},
			statusCannotSay, "No kind in this key shows all of that"},
		{"can't tell is an answer", []string{"--answers", "1?"}, statusCannotSay, "Set aside for a second look"},
		{"a class alone is told with its confidence",
			[]string{"--observe", "tails=2", "--observe", "tail-length=long", "--observe", "flat=flat"}, statusCannotSay,
			"Very likely a sensitive kind"},
		{"a group where its members are open",
			[]string{"--observe", "tails=3", "--observe", "gills=sides", "--observe", "gill-form=plates"}, statusDone,
			"mayfly (Ephemeroptera): order"},
		{"several states of one trait are joined by a plus", []string{"--answers", "tails=2+3,legs=6"}, statusCannotSay,
			"Seen two tails, or three tails; legs: six"},
	} {
		status, stdout, stderr := call(t, append([]string{"identify", "--no-save"}, row.args...)...)
		if status != row.status || !strings.Contains(strings.Join(strings.Fields(stdout), " "), row.want) {
			t.Errorf("%s: status %d\n%s%s", row.why, status, stdout, stderr)
		}
	}
}

// A length is held against that of grown animals; only a longer one speaks
// compareTaxa the name.
func TestLengthIsJudgedOneSidedly(t *testing.T) {
	m := keytest.Model(t)
	path := answersFlag(truthfully(t, m, key.DefaultOptions(), "perlidae", nil).Path())
	for _, row := range []struct{ length, want string }{
		{"2", "it may be young"},
		{"20", "fits a grown one"},
		{"200", "the name may be wrong"},
		{"4 in", "the name may be wrong"},
	} {
		_, stdout, _ := call(t, "identify", "--no-save", "--answers", path, "--length", row.length)
		if !strings.Contains(strings.Join(strings.Fields(stdout), " "), row.want) {
			t.Errorf("%s mm: %s", row.length, stdout)
		}
	}
}

func TestDemoShowsBothVisits(t *testing.T) {
	status, stdout, stderr := call(t, "demo")
	if status != statusDone || stderr != "" {
		t.Fatalf("status %d: %s", status, stderr)
	}
	for _, want := range []string{
		"1. A visit with all its samples", "3 taken, 3 required", "by ", "2. A visit that the weather cut short",
		"2 taken of 7 required", "no grade", "without being a grade", "says nothing on drinking or swimming", "not scored",
		"set aside for a second look",
		"small winter stonefly (Capniidae) or rolled-winged stonefly (Leuctridae)", "looked again at", "perhaps misread (0.",
	} {
		if !strings.Contains(strings.Join(strings.Fields(stdout), " "), want) {
			t.Errorf("the demo does not say %q", want)
		}
	}
	again, second, _ := call(t, "demo")
	if again != status || second != stdout {
		t.Error("the demo differs from one showing to the next")
	}
}

// Where no kind shows all that was said nothing is called sure, on paper or in the
// record; beside a name it is told what speaks against it, and nothing that denies it.
// Where a kind lacks one thing at most, the probability stands as it is.
func TestNothingIsSureThatNoKindShows(t *testing.T) {
	m := keytest.Model(t)
	for answers, misfit := range map[string]bool{
		"1a,2a,3a,4a,move=crawl": false, "1a,2a,3a,4a,move=crawl,outline=tapered,wings=hard": false,
		"1a,2a,3a,4a,move=crawl,posture=curled,rings=lobes": true,
	} {
		q, err := m.Inquire(key.DefaultOptions())
		if err == nil {
			err = say(q, answers, nil, 0)
		}
		if err != nil {
			t.Fatal(err)
		}
		body, err := (&recordFlags{sample: "1", count: "1"}).identification(q, 0)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		v := show.NewIdentified(q, 0)
		if err := v.Text(&out, 200); err != nil {
			t.Fatal(err)
		}
		says := strings.Contains(out.String(), "Against it")
		if strings.Contains(out.String(), "No kind in this key") {
			t.Errorf("%s: a name, and no kind shows it\n%s", answers, out.String())
		}
		sure := regexp.MustCompile(`: (very )?sure \(|  (very )?sure \(`).MatchString(out.String())
		if v.Name == "" || says != misfit || sure == misfit || (v.Confidence < 0.9) != misfit || (body.Confidence < 0.9) != misfit {
			t.Errorf("%s: says so %v, sure %v, confidence %v, recorded %v\n%s", answers, says, sure, v.Confidence,
				body.Confidence, out.String())
		}
	}
}
