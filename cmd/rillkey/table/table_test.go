package table

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillkey/cmd/rillkey/phone"
	"rillkey/scoring/visit"
)

var (
	kit = phone.NewKit("north-america")
	day = time.Date(2026, 5, 16, 10, 0, 0, 0, time.UTC)
)

func chance(seed int) *rand.ChaCha8 { return rand.NewChaCha8([32]byte{byte(seed), byte(seed >> 8), 9}) }

// begun is a visit with one sample.
func begun(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a.visit.toml")
	_, err := visit.Create(path, visit.Header{
		Site: "Mill Brook", Date: "2026-05-16", Protocol: "riffle-three", CautionsRead: true, Begun: day}, chance(1))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := visit.Append(path, day, "Mags", visit.Sample{Label: "1", Habitat: "riffle"}, chance(2)); err != nil {
		t.Fatal(err)
	}
	return path
}

// served is the table of a visit, reached over a network.
func served(t *testing.T, path string) (*SortingTable, *httptest.Server) {
	t.Helper()
	shared, err := visit.Share(path)
	if err != nil {
		t.Fatal(err)
	}
	guests, err := OpenGuests(StatePath(path), false, chance(3))
	if err != nil {
		t.Fatal(err)
	}
	table := &SortingTable{Visit: shared, Guests: guests, Kit: kit, Page: []byte("<!DOCTYPE html>the page"),
		Policy: "default-src 'none'", Often: 1e6,
		Now: time.Now, Random: chance(4)}
	server := httptest.NewUnstartedServer(table.Handler())
	table.Hosts = []string{server.Listener.Addr().String()}
	server.Start()
	t.Cleanup(server.Close)
	return table, server
}

// caller is a phone with its page and its network.
type caller struct {
	url    string
	client *http.Client
	page   *phone.Phone
	random *rand.Rand
}

func newCaller(t *testing.T, server *httptest.Server, seed int) *caller {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(uint64(seed), 1))
	wrong := time.Duration(random.IntN(2000)-1000) * time.Hour // its clock
	return &caller{url: server.URL, client: &http.Client{Jar: jar, Timeout: 20 * time.Second}, random: random,
		page: phone.New(kit, func() time.Time { return time.Now().Add(wrong) }, chance(seed))}
}

func (c *caller) post(path string, body any) (int, []byte, error) {
	text, err := json.Marshal(body)
	if err != nil {
		return 0, nil, err
	}
	answer, err := c.client.Post(c.url+path, "application/json", bytes.NewReader(text))
	if err != nil {
		return 0, nil, err
	}
	defer answer.Body.Close()
	said, err := io.ReadAll(answer.Body)
	return answer.StatusCode, said, err
}

func (c *caller) join(name, code string) error {
	status, said, err := c.post("/join", map[string]string{"Name": name, "Code": code})
	if err != nil || status != http.StatusOK {
		return errors.Join(err, fmt.Errorf("%d: %s", status, said))
	}
	var w phone.JoinAnswer
	if err := json.Unmarshal(said, &w); err != nil {
		return err
	}
	return c.page.Join(w)
}

// hand hands over once; lost says that the answer does not arrive.
func (c *caller) hand(lost bool) error {
	status, said, err := c.post("/hand", c.page.Hand())
	if err != nil || status != http.StatusOK {
		return errors.Join(err, fmt.Errorf("%d: %s", status, said))
	}
	if lost {
		return nil
	}
	var a phone.Receipt
	if err := json.Unmarshal(said, &a); err != nil {
		return err
	}
	_, err = c.page.Handed(a)
	return err
}

func joinedCaller(t *testing.T, table *SortingTable, server *httptest.Server, name, code string, seed int) *caller {
	t.Helper()
	c := newCaller(t, server, seed)
	if err := errors.Join(c.join(name, code), c.hand(false)); err != nil {
		t.Fatal(err)
	}
	return c
}

// A file that has the name of a table's by chance is left alone.
func TestAForeignFileIsNotTheTables(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.table.json")
	text := `{"legs": 4}`
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, anew := range []bool{false, true} {
		if _, err := OpenGuests(path, anew, chance(3)); err == nil {
			t.Errorf("taken for the table's, new codes %v", anew)
		}
	}
	if now, err := os.ReadFile(path); string(now) != text {
		t.Errorf("it holds %q (%v)", now, err)
	}
}

func TestTwoPhonesCountIntoOneFile(t *testing.T) {
	path := begun(t)
	table, server := served(t, path)
	ada := joinedCaller(t, table, server, "Ada", table.Guests.Codes().Day, 1)
	bo := joinedCaller(t, table, server, "Bo", table.Guests.Codes().Spoken, 2)
	ada.page.Do("more:taxon-baetidae:5", nil)
	bo.page.Do("more:taxon-baetidae:1", nil)
	if !strings.Contains(bo.page.Waiting(), "1 not yet") {
		t.Error(bo.page.Waiting())
	}
	for _, c := range []*caller{ada, bo, ada} {
		if err := c.hand(false); err != nil {
			t.Fatal(err)
		}
	}
	if string(ada.page.File()) != string(bo.page.File()) || bo.page.Waiting() != "All at the table." {
		t.Errorf("the two differ, or %s", bo.page.Waiting())
	}
	if v, err := visit.Read(path); err != nil || len(v.Tally().Records) != 2 {
		t.Errorf("%v", err)
	}
}

// What others entered only the leader corrects, ends or takes out.
func TestWhatIsTheLeadersAlone(t *testing.T) {
	path := begun(t)
	table, server := served(t, path)
	codes := table.Guests.Codes()
	ada := joinedCaller(t, table, server, "Ada", codes.Day, 1)
	bo := joinedCaller(t, table, server, "Bo", codes.Day, 2)
	mags := joinedCaller(t, table, server, "Mags", codes.Leader, 3)
	ada.page.Do("more:taxon-baetidae:5", nil)
	for _, c := range []*caller{ada, bo, mags} {
		if err := c.hand(false); err != nil {
			t.Fatal(err)
		}
	}
	v, _ := visit.Read(path)
	record, sample := v.Events[1].ID, v.Events[0].ID
	n, sorted := 9, visit.Sorted
	amend := visit.Amendment{Entry: record, Reason: "counted again", Change: visit.Change{Count: &n}}
	for _, tt := range []struct {
		who  string
		by   *caller
		body visit.Body
		take bool
	}{
		{"Bo", bo, amend, false},
		{"Ada", bo, amend, false}, // lies about its name
		{"Bo", bo, visit.Finish{}, false},
		{"Bo", bo, visit.Amendment{Entry: sample, Reason: "no", Withdrawn: true}, false},
		{"Bo", bo, visit.Amendment{Entry: sample, Reason: "sorted", Change: visit.Change{Said: &sorted}}, true},
		{"Bo", bo, visit.SecondLook{Entry: record, Taxon: "baetidae"}, true},
		{"Ada", ada, visit.SecondLook{Entry: record, Taxon: "baetidae"}, false},
		{"Ada", ada, amend, true},
		{"Mags", mags, amend, true},
		{"Mags", mags, visit.Finish{}, true},
	} {
		copied, err := visit.Read(path)
		if err != nil {
			t.Fatal(err)
		}
		e, err := copied.Add(time.Now(), tt.who, tt.body, chance(len(copied.Events)+50))
		if err != nil {
			t.Fatal(err)
		}
		status, said, err := tt.by.post("/hand", phone.Handing{Blocks: string(visit.Blocks([]visit.Event{e}))})
		var a phone.Receipt
		if err := errors.Join(err, json.Unmarshal(said, &a)); err != nil || status != http.StatusOK {
			t.Fatalf("%d %s %v", status, said, err)
		}
		if took := len(a.Kept) == 1; took != tt.take {
			t.Errorf("%s %T: taken %v, %v", tt.who, tt.body, took, a.Refused)
		}
	}
}

func TestASentAwayPhoneIsNotHeard(t *testing.T) {
	path := begun(t)
	table, server := served(t, path)
	codes := table.Guests.Codes()
	ada := joinedCaller(t, table, server, "Ada", codes.Day, 1)
	mags := joinedCaller(t, table, server, "Mags", codes.Leader, 3)
	away := func(c *caller) int {
		answer, err := c.client.PostForm(c.url+"/away", url.Values{"do": {"Ada"}})
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		return answer.StatusCode
	}
	if status := away(ada); status != http.StatusForbidden {
		t.Errorf("Ada sends somebody away: %d", status)
	}
	if status := away(mags); status != http.StatusOK {
		t.Errorf("the leader cannot: %d", status)
	}
	if err := ada.hand(false); err == nil || !strings.Contains(err.Error(), "401") {
		t.Error(err)
	}
	_, again := served(t, path) // begun anew
	ada.url = again.URL
	if err := ada.hand(false); err == nil {
		t.Error("a table begun anew forgot who was sent away")
	}
}

func TestGuessingTheSpokenCodeEnds(t *testing.T) {
	table, server := served(t, begun(t))
	c := newCaller(t, server, 1)
	for i := range spokenTries {
		if err := c.join("Eve", fmt.Sprintf("%06d", i)); err == nil {
			t.Fatal("guessed")
		}
	}
	if err := c.join("Eve", table.Guests.Codes().Spoken); err == nil {
		t.Error("the spoken code opens after as many wrong ones")
	}
	if err := c.join("Eve", strings.ToUpper(Grouped(table.Guests.Codes().Day))); err != nil {
		t.Errorf("the scanned one does not: %v", err)
	}
}

func TestNamesAreHeldByOnePhone(t *testing.T) {
	table, server := served(t, begun(t))
	code := table.Guests.Codes().Day
	ada := joinedCaller(t, table, server, "Ada", code, 1)
	if err := newCaller(t, server, 2).join(" ada ", code); err == nil {
		t.Error("a second phone took Ada's name")
	}
	if err := ada.join("Ada", code); err != nil {
		t.Errorf("her own phone cannot come back: %v", err)
	}
	for _, name := range []string{"", "  ", strings.Repeat("x", 41), "a\u202eb"} {
		if err := newCaller(t, server, 3).join(name, code); err == nil {
			t.Errorf("%q joined", name)
		}
	}
}

// Nothing is to be had without a token but the page and a form to join, and nothing
// for another host, from another origin, too large or not whole.
func TestWhatAStrangerGets(t *testing.T) {
	path := begun(t)
	table, server := served(t, path)
	ada := joinedCaller(t, table, server, "Ada", table.Guests.Codes().Day, 1)
	stranger := newCaller(t, server, 9)
	hand := `{"blocks":""}`
	for _, tt := range []struct {
		by           *caller
		method, path string
		body         string
		change       func(*http.Request)
		want         int
	}{
		{stranger, "GET", "/", "", nil, 200},
		{stranger, "GET", "/plain", "", nil, 200},
		{stranger, "GET", "/board", "", nil, 401},
		{stranger, "POST", "/hand", hand, nil, 401},
		{stranger, "POST", "/away", "", nil, 401},
		{stranger, "GET", "/a.visit.toml", "", nil, 404},
		{stranger, "GET", "/../a.table.json", "", nil, 404},
		{stranger, "GET", "/", "", func(r *http.Request) { r.Host = "evil.example" }, 421},
		{ada, "POST", "/hand", hand, nil, 200},
		{ada, "POST", "/hand", hand, func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }, 403},
		{ada, "POST", "/hand", hand, func(r *http.Request) { r.Header.Set("Origin", "http://evil.example") }, 403},
		{ada, "POST", "/hand", `{"blocks":"` + strings.Repeat("x", mostBody) + `"}`, nil, 400},
		{ada, "POST", "/hand", `{"blocks":"[[event]]\nid = 1\n"}`, nil, 400},
		{ada, "DELETE", "/hand", "", nil, 405},
	} {
		r, err := http.NewRequest(tt.method, server.URL+tt.path, strings.NewReader(tt.body))
		if err != nil {
			t.Fatal(err)
		}
		if tt.change != nil {
			tt.change(r)
		}
		answer, err := tt.by.client.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		said, _ := io.ReadAll(answer.Body)
		answer.Body.Close()
		if answer.StatusCode != tt.want {
			t.Errorf("%s %s: %d, not %d", tt.method, tt.path, answer.StatusCode, tt.want)
		}
		if tt.by == stranger && bytes.Contains(said, []byte("Mill Brook")) {
			t.Errorf("%s %s tells where the visit is", tt.method, tt.path)
		}
		if p := answer.Header.Get("Content-Security-Policy"); !strings.Contains(p, "default-src 'none'") {
			t.Errorf("%s %s: policy %q", tt.method, tt.path, p)
		}
	}
	if v, err := visit.Read(path); err != nil || len(v.Events) != 1 {
		t.Errorf("the file changed: %v", err)
	}
}

// Without a script the same page is made of forms.
func TestPlainPages(t *testing.T) {
	path := begun(t)
	table, server := served(t, path)
	c := newCaller(t, server, 1)
	press := func(fields ...string) string {
		f := url.Values{}
		for i := 0; i < len(fields); i += 2 {
			f.Set(fields[i], fields[i+1])
		}
		answer, err := c.client.PostForm(server.URL+"/plain", f)
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		page, _ := io.ReadAll(answer.Body)
		return string(page)
	}
	for _, tt := range []struct {
		fields []string
		sees   string
	}{
		{[]string{"do", "more:row-0:1"}, "Join the table"},
		{[]string{"do", "join", "name", "Ada", "code", "000"}, "Not done: that is not the code"},
		{[]string{"do", "join", "name", "<b>Ada", "code", table.Guests.Codes().Spoken}, "Known at sight"},
		{[]string{"do", "more:taxon-baetidae:5"}, "5 more"},
		{[]string{"do", "name"}, "<svg"},
		{[]string{"do", "drop"}, "Left without a name"},
		{[]string{"do", "go:tally"}, "by &lt;b&gt;Ada"},
		{[]string{"do", "finish"}, "only the leader"},
		{[]string{"do", "go:hand"}, "counts here for the table"},
		{[]string{"do", "undo"}, "Taken back"},
	} {
		page := press(tt.fields...)
		if !strings.Contains(page, tt.sees) || strings.Contains(page, "<script") || strings.Contains(page, "<b>Ada") {
			t.Errorf("%v: no %q in\n%s", tt.fields, tt.sees, page[strings.Index(page, "<body"):])
		}
	}
	if v, err := visit.Read(path); err != nil || len(v.Events) != 3 {
		t.Errorf("%v", err)
	}
}

func TestTheQRCodeFitsANarrowTerminal(t *testing.T) {
	rows, err := QR(JoinAddress("http", "192.168.143.151:8017", "k3v9m2qa"))
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(QRText(rows)), "\n")
	if n := len([]rune(lines[0])); n > 40 || len(lines) > 20 {
		t.Errorf("%d columns, %d lines", n, len(lines))
	}
}
