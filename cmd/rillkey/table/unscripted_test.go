package table

import (
	"errors"
	"html"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"regexp"
	"strings"
	"testing"

	"rillkey/scoring/visit"
	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

// reader is a browser that runs no script: it follows links and presses buttons of the
// forms that a page has, with what stands in their fields.
type reader struct {
	t      *testing.T
	client *http.Client
	home   string
	page   string
}

func newReader(t *testing.T, server *httptest.Server, seed int) *reader {
	r := &reader{t, newCaller(t, server, seed).client, server.URL, ""}
	r.client.CheckRedirect = nil
	r.open("/plain")
	return r
}

func (r *reader) took(answer *http.Response, err error) {
	r.t.Helper()
	if err != nil {
		r.t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		r.t.Fatal(err)
	}
	r.page = string(text)
	if strings.Contains(r.page, "<script") {
		r.t.Fatal("the page has a script")
	}
}

func (r *reader) open(path string) {
	r.t.Helper()
	r.took(r.client.Get(r.home + path))
}

// follow follows the link whose words hold these.
func (r *reader) follow(words string) {
	r.t.Helper()
	for _, m := range regexp.MustCompile(`<a href="([^"]*)"[^>]*>([^<]*)</a>`).FindAllStringSubmatch(r.page, -1) {
		if strings.Contains(html.UnescapeString(m[2]), words) {
			r.open(html.UnescapeString(m[1]))
			return
		}
	}
	r.t.Fatalf("no link %q in\n%s", words, r.said())
}

var (
	forms   = regexp.MustCompile(`(?s)<form method="post"[^>]*action="([^"]*)">(.*?)</form>`)
	buttons = regexp.MustCompile(`<button type="submit" name="do" value="([^"]*)"[^>]*>`)
	inputs  = regexp.MustCompile(`<input [^>]*>`)
	choices = regexp.MustCompile(`(?s)<select name="([^"]*)">.*?<option value="([^"]*)"`)
	valueOf = regexp.MustCompile(`(name|value|type)="([^"]*)"`)
)

// press presses the first button whose value begins so, after typing into its form.
func (r *reader) press(value string, typed ...string) {
	r.t.Helper()
	for _, form := range forms.FindAllStringSubmatch(r.page, -1) {
		for _, b := range buttons.FindAllStringSubmatch(form[2], -1) {
			do := html.UnescapeString(b[1])
			if !strings.HasPrefix(do, value) {
				continue
			}
			fields := url.Values{"do": {do}}
			for _, input := range inputs.FindAllString(form[2], -1) {
				has := map[string]string{}
				for _, m := range valueOf.FindAllStringSubmatch(input, -1) {
					has[m[1]] = html.UnescapeString(m[2])
				}
				if has["type"] != "checkbox" {
					fields.Set(has["name"], has["value"])
				}
			}
			for _, c := range choices.FindAllStringSubmatch(form[2], -1) {
				fields.Set(c[1], html.UnescapeString(c[2]))
			}
			for i := 0; i < len(typed); i += 2 {
				if !strings.Contains(form[2], `name="`+typed[i]+`"`) {
					r.t.Fatalf("the form of %q has no field %q", do, typed[i])
				}
				fields.Set(typed[i], typed[i+1])
			}
			r.took(r.client.PostForm(r.home+html.UnescapeString(form[1]), fields))
			return
		}
	}
	r.t.Fatalf("no button %q in\n%s", value, r.said())
}

// said is what stands on the page.
func (r *reader) said() string {
	text := regexp.MustCompile(`(?s)<(svg|style|head)\b.*?</(svg|style|head)>|<[^>]*>`).ReplaceAllString(r.page, " ")
	return strings.Join(strings.Fields(html.UnescapeString(text)), " ")
}

func (r *reader) sees(words ...string) {
	r.t.Helper()
	for _, w := range words {
		if !strings.Contains(r.said(), w) {
			r.t.Fatalf("no %q in\n%s", w, r.said())
		}
	}
}

func (r *reader) misses(words string) {
	r.t.Helper()
	if strings.Contains(r.said(), words) {
		r.t.Fatalf("%q in\n%s", words, r.said())
	}
}

// Everybody at the table does what is theirs without a script, by forms and links alone:
// a volunteer counts, takes back, names and sets aside; somebody else looks again, blind;
// the leader corrects, notes an expert's slip, sends a phone away, finishes and opens again.
func TestATableWithoutAScript(t *testing.T) {
	path := begun(t)
	table, server := served(t, path)
	codes := table.Guests.Codes()

	ada := newReader(t, server, 1)
	ada.sees("Join the table")
	ada.press("join", "name", "Ada", "code", "wrong")
	ada.sees("Not done: that is not the code of the day")
	ada.press("join", "code", codes.Spoken) // the name was kept
	ada.sees("Mill Brook, sample 1, 0 animals", "Known at sight")
	ada.press("more:row-0:1")
	ada.press("more:row-0:5")
	ada.sees("6 animals", "5 more")
	ada.press("undo")
	ada.sees("1 animal", "Taken back")
	ada.press("find", "find", "scud")
	ada.press("more:taxon-")
	ada.sees("2 animals")

	ada.press("name")
	ada.sees("What strikes you?")
	ada.press("hear", "words", "six legs, three tails")
	ada.sees("(taken)")
	ada.press("confirm")
	ada.sees("Noted: ", "Your answers so far", "How to look, and what you can answer")
	ada.press("answer:?")
	ada.press("answer:<")
	ada.press("answer:s")
	ada.press("keep", "cell", "B3")
	ada.sees("Noted in sample 1")
	ada.press("go:board")
	ada.sees("No animal waits for your second look", "Ada: 3 animals")

	bo := newReader(t, server, 2)
	bo.press("join", "name", "Bo", "code", codes.Day)
	bo.press("go:board")
	bo.sees("Look again: sample 1, cell B3, 1 animal")
	bo.press("look:")
	bo.sees("A second look. Take the animals of sample 1, cell B3.")
	bo.misses("ayfly")
	bo.press("answer:<")
	bo.press("answer:?")
	bo.press("answer:s")
	bo.press("keep")
	bo.sees("Noted.")
	bo.press("go:board")
	bo.sees("No animal waits for your second look")
	bo.press("go:tally")
	bo.misses("Finish the visit")
	if strings.Contains(bo.page, `value="entry:`) {
		t.Error("Bo can change what Ada entered")
	}

	mags := newReader(t, server, 3)
	mags.press("join", "name", "Mags", "code", codes.Leader)
	mags.press("go:hand")
	mags.sees("Mags leads the table from here")
	mags.press("go:sample")
	mags.press("sorted:all")
	mags.sees("Sample 1: sorted")
	mags.press("sample")
	mags.sees("Sample 2 is noted")
	mags.press("go:tally")
	mags.press("entry:")
	mags.press("slip:", "is", "golden stonefly", "expert", "Dr Elm")
	mags.sees("the name of Dr Elm counts as settled")
	mags.press("entry:")
	mags.press("change:", "count", "4", "cell", "C1")
	mags.sees("Corrected")
	mags.press("entry:")
	mags.press("out:")
	mags.sees("Taken out")
	mags.press("go:grade")
	mags.sees("drink")
	mags.press("go:board")
	mags.follow("send one away")
	mags.sees("Phones at the table", "counts sample", "Waiting for a second look", "Set aside, without a name")
	mags.misses("Send away: Mags")
	mags.press("Bo")
	mags.misses("Send away: Bo")
	mags.follow("Anew every 10 seconds")
	mags.follow("Stop showing it anew")
	mags.follow("Back to counting")
	mags.press("go:tally")
	mags.press("finish")
	mags.sees("Nobody said how far these samples are sorted: 2.")
	mags.press("finish:yes")
	mags.sees("Finished. It can be opened again.")

	bo.open("/plain")
	bo.sees("Join the table")
	bo.misses("Mill Brook")
	ada.press("go:count")
	ada.press("more:row-0:1")
	ada.sees("Not done: the visit is finished")
	mags.press("reopen")
	ada.press("more:row-0:1")
	ada.misses("Not done")
	ada.press("go:hand")
	ada.press("leave")
	ada.sees("Join the table")
	cy := newReader(t, server, 4)
	cy.press("join", "name", "Ada", "code", codes.Day)
	cy.sees("Known at sight")
	v, err := visit.Read(path)
	if err != nil || v.Tally().Finished || len(v.Notices) > 0 {
		t.Fatalf("%v %v", err, v.Notices)
	}
}

// Who joined without the leader's code, and then has it, leads under the same name; who
// joins under another name leaves the old one free.
func TestAPhoneThatJoinsAnew(t *testing.T) {
	path := begun(t)
	table, server := served(t, path)
	codes := table.Guests.Codes()
	ada := joinedCaller(t, table, server, "Ada", codes.Day, 1)
	if err := ada.join("Ada", codes.Leader); err != nil || !ada.page.Keep().Table.Leader {
		t.Errorf("Ada does not lead: %v", err)
	}
	if err := ada.join("Ada", codes.Day); err != nil || !ada.page.Keep().Table.Leader {
		t.Errorf("Ada leads no more: %v", err)
	}
	if err := ada.join("Bo", codes.Day); err != nil {
		t.Fatal(err)
	}
	if err := newCaller(t, server, 2).join("Ada", codes.Day); err != nil {
		t.Errorf("the name that was given up is kept: %v", err)
	}
	_, again := served(t, path) // begun anew
	ada.url = again.URL
	if err := ada.hand(false); err != nil {
		t.Error(err)
	}
}

// What a phone counted under one name, and had not handed over, is told when it joins
// under another: the table does not take it, and it stays there to be seen.
func TestWhatWasCountedUnderAnotherNameIsNotForgotten(t *testing.T) {
	path := begun(t)
	table, server := served(t, path)
	codes := table.Guests.Codes()
	ada := joinedCaller(t, table, server, "Ada", codes.Day, 1)
	ada.page.Do("more:taxon-baetidae:5", nil)
	if err := ada.hand(false); err != nil {
		t.Fatal(err)
	}
	ada.page.Do("more:taxon-perlidae:1", nil)
	ada.page.Leave()
	if err := errors.Join(ada.join("Bo", codes.Day), ada.hand(false), ada.hand(false)); err != nil {
		t.Fatal(err)
	}
	if w := ada.page.Waiting(); !strings.Contains(w, "0 not yet at the table; 1 not taken by it") {
		t.Error(w)
	}
	ada.page.Leave()
	if err := errors.Join(ada.join("Ada", codes.Day), ada.hand(false)); err != nil {
		t.Fatal(err)
	}
	if v, err := visit.Read(path); err != nil || len(v.Tally().Records) != 2 || ada.page.Waiting() != "All at the table." {
		t.Errorf("%v: %s", err, ada.page.Waiting())
	}
}

// A visit whose file is gone is told on a plain page, in the language in use.
func TestAPlainPageOfAVisitThatCannotBeRead(t *testing.T) {
	path := begun(t)
	table, server := served(t, path)
	ada := newReader(t, server, 1)
	ada.press("join", "name", "Ada", "code", table.Guests.Codes().Spoken)
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	ada.open("/plain")
	ada.sees("The visit cannot be read")
	german, err := language.BuiltIn("de")
	if err != nil {
		t.Fatal(err)
	}
	wording.Use(german)
	defer wording.Use(nil)
	ada.open("/plain")
	ada.sees("Der Besuch lässt sich nicht lesen")
}
