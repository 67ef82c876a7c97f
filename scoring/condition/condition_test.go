package condition

import (
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/taxa/wording"
)

// What people type, and what is kept of it or wrong with it. Conversions: 1 ft is
// 0.3048 m and 1 in is 25.4 mm by definition (international yard and pound, 1959);
// °C = (°F - 32) × 5/9; NO3 weighs 62.005 and N 14.007 (IUPAC standard atomic
// weights of N and O), so nitrate is 4.427 times its nitrogen.
func TestParse(t *testing.T) {
	tests := []struct{ field, typed, want, wrong string }{
		{field: "water-temperature", typed: "9.5", want: "9.5 °C"},
		{field: "water-temperature", typed: "9,5 °C with a glass thermometer", want: "9.5 °C with a glass thermometer"},
		{field: "water-temperature", typed: "50F", want: "10 °C"},
		{field: "water-temperature", typed: "50 °f", want: "10 °C"},
		{field: "air-temperature", typed: "-4", want: "-4 °C"},
		{field: "air-temperature", typed: "0", want: "0 °C"},
		{field: "width", typed: "12 ft", want: "3.66 m"},
		{field: "depth", typed: "10in", want: "25.4 cm"},
		{field: "nitrate", typed: "10 ppm", want: "10 mg/L NO3"},
		{field: "oxygen", typed: "9 ppm", want: "9 mg/L"},
		{field: "nitrate", typed: "1 N", want: "4.43 mg/L NO3"},
		{field: "conductivity", typed: "0.4 mS/cm", want: "400 µS/cm"},
		{field: "mesh", typed: "0.5 mm", want: "500 µm"},
		{field: "begun", typed: "9:30", want: "09:30"},
		{field: "begun", typed: "9.30", want: "09:30"},
		{field: "begun", typed: "0930", want: "09:30"},
		{field: "begun", typed: "9h30", want: "09:30"},
		{field: "begun", typed: "1:05 PM", want: "13:05"},
		{field: "sky", typed: "Overcast", want: "overcast"},
		{field: "sky", typed: "part", want: "part cloud"},
		{field: "bed", typed: "sand 10, cobble 60 %, gravel: 30", want: "cobble 60 %, gravel 30 %, sand 10 %"},
		{field: "bed", typed: "cobble 60 sand 40", want: "cobble 60 %, sand 40 %"},
		{field: "bed", typed: "60 % cobble 40 % sand", want: "cobble 60 %, sand 40 %"},
		{field: "bed", typed: "62.5 cobble, 37.5 sand", want: "cobble 62.5 %, sand 37.5 %"},
		{field: "bed", typed: "62,5 cobble, 37,5 sand", want: "cobble 62.5 %, sand 37.5 %"},
		{field: "bed", typed: "cobble 62,5,sand 37,5", want: "cobble 62.5 %, sand 37.5 %"},
		{field: "plants", typed: "moss, film, moss", want: "film, moss"},
		{field: "trained", typed: "Oona, Mägs", want: "Oona, Mägs"},
		{field: "ph", typed: "71", wrong: "pH: 71 cannot be; it is from 0 to 14"},
		{field: "ph", typed: "7 acid", wrong: "it has no unit"},
		{field: "ph", typed: "NaN", wrong: "is no number"},
		{field: "bed", typed: "cobble 100, sand 40", wrong: "the parts make 140 %, not 100"},
		{field: "bed", typed: "cobble", wrong: "is no share"},
		{field: "bed", typed: "cobble 50, cobble 50", wrong: "stands twice"},
		{field: "plants", typed: "oaks", wrong: `"oaks" is none of none, film, threads, moss, rooted, floating`},
		{field: "sky", typed: "s", wrong: "is none of"},
		{field: "begun", typed: "25:00", wrong: "no time of the day"},
		{field: "width", typed: "3 furlongs", wrong: `"furlongs" is no unit for it; give m or ft or cm`},
		{field: "width", typed: "3 with a tape", wrong: "takes no instrument"},
		{field: "smell", typed: "a\x1b[2Jb", wrong: "control character"},
		{field: "smell", typed: "", wrong: "nothing is said"},
		{field: "photographs", typed: "../bank.jpg", wrong: "no name of a file with its checksum"},
	}
	for _, test := range tests {
		f := Find(test.field)
		v, err := f.Parse(test.typed)
		switch {
		case test.wrong == "" && (err != nil || f.Full(v) != test.want):
			t.Errorf("%s %q: %q, %v; want %q", test.field, test.typed, f.Full(v), err, test.want)
		case test.wrong != "" && (err == nil || !strings.Contains(err.Error(), test.wrong) || !strings.HasPrefix(err.Error(), f.Title)):
			t.Errorf("%s %q: %v; want %s: … %q", test.field, test.typed, err, f.Title, test.wrong)
		}
	}
}

func TestFind(t *testing.T) {
	for name, want := range map[string]string{
		"water-temperature": "water-temperature", "Water_Temperature": "water-temperature", "water_temperature_c": "water-temperature"} {
		if f := Find(name); f == nil || f.ID != want {
			t.Errorf("%s is %v", name, f)
		}
	}
	if err := UnknownParameter("temperature").Error(); !strings.Contains(err, "did you mean air-temperature, water-temperature?") {
		t.Error(err)
	}
}

// random are sound values of some parameters.
func random(r *rand.Rand) Values {
	out := Values{}
	for _, f := range Parameters() {
		if r.IntN(3) == 0 {
			continue
		}
		var v Value
		switch f.Form {
		case NumberForm:
			v.Number = min(max(float64(r.IntN(1000))/100, f.low), f.high)
		case TimeForm:
			v.Text = "09:30"
		case ChoiceForm:
			v.Text = f.Categories[r.IntN(len(f.Categories))].Word
		case ChoicesForm:
			v.List = []string{f.Categories[r.IntN(len(f.Categories))].Word}
		case PartsForm:
			v.Parts = []CategoryShare{{f.Categories[1].Word, 12.5}, {f.Categories[3].Word, 87.5}}
		case FilesForm:
			v.List = []string{"bank <1>.jpg sha256:" + strings.Repeat("0a", 32)}
		case PersonsForm:
			v.List = []string{"Oona", `Teodor "O'Hara"`}
		default:
			v.Text = `a \"smell\" & foam`
		}
		if f.Instrumented && r.IntN(2) == 0 {
			v.Instrument = "paper strips"
		}
		if r.IntN(8) == 0 {
			v = Value{None: true}
		}
		out[f.ID] = v
	}
	return out
}

// What is written as JSON comes back as it was, and is written in the same way.
func TestValuesComeBackFromJSON(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		vs := random(r)
		text, err := json.Marshal(vs)
		var back Values
		if err == nil {
			err = json.Unmarshal(text, &back)
		}
		again, _ := json.Marshal(back)
		if err != nil || len(back) != len(vs) || vs.Contradicts(back) || string(again) != string(text) {
			t.Fatalf("%s came back as %s: %v", text, again, err)
		}
		if err := back.Check(true); err != nil {
			t.Fatalf("%s: %v", text, err)
		}
	}
	for _, wrong := range []string{`{"moon": 1}`, `{"ph": "7"}`, `{"ph_with": "strips"}`,
		`{"width_m": 3, "width_m_with": "tape"}`, `[]`, `{"bed_percent": 3}`} {
		var vs Values
		if err := json.Unmarshal([]byte(wrong), &vs); err == nil {
			t.Errorf("%s is taken for %v", wrong, vs)
		}
	}
}

func TestCorrecting(t *testing.T) {
	before := Values{"ph": {Number: 7}, "sky": {Text: "clear"}}
	after := before.Updated(Values{"ph": {Number: 7.4}, "sky": {None: true}, "look": {Text: "muddy"}})
	if len(after) != 2 || after["ph"].Number != 7.4 || after["look"].Text != "muddy" || before["ph"].Number != 7 {
		t.Errorf("%v after %v", after, before)
	}
	if err := (Values{"ph": {None: true}}).Check(false); err == nil {
		t.Error("nothing is noted, and taken for a note")
	}
}

func TestUnlike(t *testing.T) {
	now := Values{"level": {Text: "high"}, "water-temperature": {Number: 4}, "look": {Text: "clear"}, "rain": {Text: "none"},
		"smell": {Text: "none"}}.Compared()
	before := Values{"level": {Text: "low"}, "water-temperature": {Number: 12}, "look": {Text: "clear"}, "ph": {Number: 7},
		"smell": {Text: "foul"}}.Compared()
	if got := strings.Join(now.Differences(before), "; "); got != "water level high, not low; water temperature 4 °C, not 12 °C" {
		t.Error(got)
	}
	if got := now.Differences(now); len(got) > 0 {
		t.Error(got)
	}
}

// What most visits noted, and the median.
func TestOrdinary(t *testing.T) {
	var all []Compared
	for _, v := range []Values{
		{"level": {Text: "low"}, "water-temperature": {Number: 20}},
		{"level": {Text: "high"}, "water-temperature": {Number: 10}},
		{"level": {Text: "low"}, "water-temperature": {Number: 12}},
		{"look": {Text: "clear"}, "water-temperature": {Number: 11}}, nil,
	} {
		all = append(all, v.Compared())
	}
	now := Values{"level": {Text: "high"}, "look": {Text: "muddy"}, "water-temperature": {Number: 4}, "rain": {Text: "heavy"}}.Compared()
	if got := strings.Join(now.Differences(Ordinary(all)), "; "); got != "water level high, not low; water looks muddy, not clear; "+
		"water temperature 4 °C, not 11.5 °C" {
		t.Error(got)
	}
	if got := Ordinary(nil); got != nil {
		t.Error(got)
	}
}

// A table that somebody spoilt is refused at its place.
func TestLoad(t *testing.T) {
	const head = "[section]\nday = \"The day\"\n[condition.x]\ntitle = \"X\"\nsection = \"day\"\n"
	tests := []struct{ name, text, want string }{
		{"sound", head + "form = \"text\"\ncolumn = \"x\"\n", ""},
		{"no such form", head + "form = \"song\"\ncolumn = \"x\"\n", "c.toml:6:8"},
		{"no bounds", head + "form = \"number\"\ncolumn = \"x\"\n", "low"},
		{"turned bounds", head + "form = \"number\"\ncolumn = \"x\"\nlow = 4\nhigh = 3\n", "c.toml:9:8"},
		{"no options", head + "form = \"choice\"\ncolumn = \"x\"\n", "options"},
		{"something else", head + "form = \"text\"\ncolumn = \"x\"\nsize = 3\n", "c.toml:8"},
		{"a column twice", head + "form = \"text\"\ncolumn = \"x\"\n[condition.y]\ntitle = \"Y\"\nsection = \"day\"\n" +
			"form = \"text\"\ncolumn = \"x\"\n", "c.toml:12:10"},
		{"no such section", strings.ReplaceAll(head, "section = \"day\"", "section = \"night\"") +
			"form = \"text\"\ncolumn = \"x\"\n", "night"},
	}
	for _, test := range tests {
		_, err := load(fstest.MapFS{"c.toml": {Data: []byte(test.text)}}, "c.toml")
		if (err == nil) != (test.want == "") || err != nil && !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v; want %q", test.name, err, test.want)
		}
	}
	if _, err := load(embedded, "conditions.toml"); err != nil {
		t.Error(err)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"9.5", "50F with x", "cobble 60, sand 40", "moss, film", "09:30", "-", ",-"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		for _, field := range Parameters() {
			v, err := field.Parse(typed)
			if err != nil || v.None || field.Form == FilesForm {
				continue
			}
			if again, err := field.Parse(field.Full(v)); err != nil || !Equal(v, again) {
				t.Errorf("%s: %q is %v, and read again %v, %v", field.ID, field.Full(v), v, again, err)
			}
		}
	})
}

// A unit that is a word is said in the language in use, and not again behind a title that
// begins with it.
func TestUnitsAreSaidInTheLanguage(t *testing.T) {
	label, words := func() (string, string) {
		f := Find("since-high-water")
		return f.Label(), f.Words(Value{Number: 3})
	}, "Days since high water, 3 days"
	if a, b := label(); a+", "+b != words {
		t.Errorf("%s, %s", a, b)
	}
	wording.Use(&wording.Translation{Language: "de", Say: map[string]string{"days": "Tage",
		"Days since high water": "Tage seit Hochwasser"}})
	defer wording.Use(nil)
	if a, b := label(); a+", "+b != "Tage seit Hochwasser, 3 Tage" {
		t.Errorf("%s, %s", a, b)
	}
	if v, err := Find("since-high-water").Parse("3 Tage"); err != nil || v.Number != 3 {
		t.Error(v, err)
	}
}

// Where another language is spoken, numbers have its comma and words are its own, in what is
// refused as well.
func TestWhatIsRefusedInAnotherLanguage(t *testing.T) {
	wording.Use(&wording.Translation{Language: "de", Comma: true, Say: map[string]string{"clear": "klar", "cloudy": "trüb",
		"muddy": "schlammig", "bedrock": "Fels", "boulder": "Blöcke", "Water is": "Das Wasser ist"}})
	defer wording.Use(nil)
	for _, row := range []struct{ field, typed, wrong string }{
		{"width", "0", "it is from 0,05 to 5000 m"},
		{"mesh", "0.1", "0,1 µm cannot be"},
		{"air-temperature", "200 F", "93,33 °C cannot be"},
		{"look", "rot", `"rot" is none of klar, trüb, schlammig`},
		{"bed", "Fels", `write it as "Fels 60, Blöcke 40"`},
		{"bed", "Fels 12,5", "the parts make 12,5 %, not 100"},
	} {
		if _, err := Find(row.field).Parse(row.typed); err == nil || !strings.Contains(err.Error(), row.wrong) {
			t.Errorf("%s %q: %v; want %q", row.field, row.typed, err, row.wrong)
		}
	}
	if v, err := Find("look").Parse("schl"); err != nil || v.Text != "muddy" {
		t.Errorf("what a word of the language begins with is not taken: %v, %v", v, err)
	}
}
