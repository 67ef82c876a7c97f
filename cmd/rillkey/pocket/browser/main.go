//go:build js

// Command browser is what a browser runs of rillkey: it puts the page of package
// phone before the script around it. It is built into the page by package pocket,
// never run by hand.
package main

import (
	"encoding/json"
	"runtime"
	"runtime/debug"
	"syscall/js"
	"time"

	"rillkey/cmd/rillkey/phone"
	"rillkey/cmd/rillkey/region"
	"rillkey/taxa/wording"
)

func main() {
	kit := kitOf(js.Global().Get("rillkeyKey").String(), js.Global().Get("rillkeyRegion"))
	if edition := js.Global().Get("rillkeyEdition"); !edition.IsUndefined() {
		for i := range edition.Length() {
			kit.Edition = append(kit.Edition, edition.Index(i).String())
		}
	}
	p := phone.New(kit, time.Now, random{})
	if js.Global().Get("rillkeyServed").Bool() {
		p.Host()
	}
	calls := map[string]any{}
	for _, some := range []map[string]call{pageCalls(p), fileCalls(p), tableCalls(p)} {
		for name, do := range some {
			calls[name] = js.FuncOf(func(_ js.Value, args []js.Value) any { return do(args) })
		}
	}
	js.Global().Set("rillkey", js.ValueOf(calls))
	js.Global().Call("rillkeyReady")
	select {}
}

// call is what the script on the page calls by a name.
type call func(args []js.Value) any

// pageCalls show the page and take what is pressed.
func pageCalls(p *phone.Phone) map[string]call {
	return map[string]call{
		"html": func([]js.Value) any { return p.HTML() },
		"do": func(a []js.Value) any {
			return withJSON(a[1], func(f phone.FormValues) error { p.Do(a[0].String(), f); return nil })
		},
		"figure": func(a []js.Value) any { return p.Figure(a[0].String(), a[1].Bool()) },
		"refuse": func(a []js.Value) any { p.Refuse(a[0].String()); return "" },
		"warm":   func(a []js.Value) any { return p.Warm(a[0].Int()) },
		"draws":  func([]js.Value) any { return p.Draws() },
		"rest":   func([]js.Value) any { rest(); return "" },

		"practice":         func([]js.Value) any { return p.Practice() },
		"practiceFileName": func([]js.Value) any { return p.PracticeFileName() },
		"takePractice":     func(a []js.Value) any { return words(p.TakePractice(a[0].String())) },
	}
}

// fileCalls keep the visit in the browser's store, and let it in and out.
func fileCalls(p *phone.Phone) map[string]call {
	return map[string]call{
		"begun":    func([]js.Value) any { return p.Begun() },
		"file":     func([]js.Value) any { return string(p.File()) },
		"fileName": func([]js.Value) any { return p.FileName() },
		"keep":     func([]js.Value) any { return encoded(p.Keep()) },
		"open": func(a []js.Value) any {
			return withJSON(a[1], func(k phone.SavedState) error { return p.Open([]byte(a[0].String()), k) })
		},
		"takeIn": func(a []js.Value) any { return words(p.TakeIn([]byte(a[0].String()))) },
		"away":   func([]js.Value) any { p.PutAway(); return "" },
	}
}

// tableCalls join a sorting table and hand entries over to it.
func tableCalls(p *phone.Phone) map[string]call {
	return map[string]call{
		"join":    func(a []js.Value) any { return withJSON(a[0], p.Join) },
		"joined":  func([]js.Value) any { _, ok := p.Table(); return ok },
		"waiting": func([]js.Value) any { return p.Waiting() },
		"leave":   func([]js.Value) any { p.Leave(); return "" },
		"hand":    func([]js.Value) any { return encoded(p.Hand()) },
		"handed":  func(a []js.Value) any { return handed(p, a[0].String()) },
	}
}

// withJSON hands the value that is written as JSON to use, and gives what is wrong.
func withJSON[T any](text js.Value, use func(T) error) string {
	var v T
	if err := json.Unmarshal([]byte(text.String()), &v); err != nil {
		return err.Error()
	}
	return words(use(v))
}

// encoded is a value as JSON, or what is wrong with it.
func encoded(v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		return err.Error()
	}
	return string(text)
}

// kitOf is the kit of a built-in key, or of the region whose parcel the page holds,
// which was checked before it came there: what cannot be read is said when it is wanted.
func kitOf(key string, parcel js.Value) *phone.Kit {
	if parcel.Type() != js.TypeString || parcel.String() == "" {
		wording.Use(region.BuiltInWords(key))
		return phone.NewKit(key)
	}
	own, words, err := region.Parcelled([]byte(parcel.String()))
	if err != nil {
		return phone.NewKit(key)
	}
	wording.Use(words)
	js.Global().Get("document").Get("documentElement").Set("lang", wording.Language())
	return phone.NewRegionKit(own, key)
}

// sweptAt is by how many percent what is held may grow before it is swept whatever
// somebody waits for. While the page starts nothing is: see GOGC in page.js.
const sweptAt = 400

// rest sweeps memory, while nobody presses anything, if half of what may be taken
// before that happens by itself is: on a slow phone a press that met it would take a
// fifth of a second longer.
func rest() {
	var m runtime.MemStats
	if runtime.ReadMemStats(&m); m.NumGC > 0 && m.HeapAlloc < m.NextGC/2 {
		return
	}
	runtime.GC()
	debug.SetGCPercent(sweptAt)
}

func words(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// handed takes a table's answer: what is wrong with it, whether the visit gained by
// it, and whether there is more to come or to hand in.
func handed(p *phone.Phone, text string) any {
	var a phone.Receipt
	out := map[string]any{"wrong": "", "gained": false, "more": false}
	if err := json.Unmarshal([]byte(text), &a); err != nil {
		out["wrong"] = err.Error()
		return out
	}
	gained, err := p.Handed(a)
	j, _ := p.Table()
	out["wrong"], out["gained"], out["more"] = words(err), gained, a.Left > 0 || len(j.Pending) > 0
	return out
}
