//go:build js

// Command browser is what a browser runs of rillkey: it puts the page of package
// phone before the script around it. It is built into the page by package pocket,
// never run by hand.
package main

import (
	"crypto/rand"
	"encoding/json"
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
	p := phone.New(kit, time.Now, rand.Reader)
	if js.Global().Get("rillkeyServed").Bool() {
		p.Host()
	}
	js.Global().Set("rillkey", js.ValueOf(map[string]any{
		"html": function(func([]js.Value) any { return p.HTML() }),
		"do": function(func(a []js.Value) any {
			f := phone.Fields{}
			if err := json.Unmarshal([]byte(a[1].String()), &f); err != nil {
				return err.Error()
			}
			p.Do(a[0].String(), f)
			return ""
		}),
		"figure":   function(func(a []js.Value) any { return p.Figure(a[0].String(), a[1].Bool()) }),
		"file":     function(func([]js.Value) any { return string(p.File()) }),
		"fileName": function(func([]js.Value) any { return p.FileName() }),
		"keep": function(func([]js.Value) any {
			kept, err := json.Marshal(p.Keep())
			if err != nil {
				return err.Error()
			}
			return string(kept)
		}),
		"open": function(func(a []js.Value) any {
			var k phone.Kept
			if err := json.Unmarshal([]byte(a[1].String()), &k); err != nil {
				return err.Error()
			}
			return words(p.Open([]byte(a[0].String()), k))
		}),
		"takeIn": function(func(a []js.Value) any { return words(p.TakeIn([]byte(a[0].String()))) }),
		"away":   function(func([]js.Value) any { p.PutAway(); return "" }),
		"join": function(func(a []js.Value) any {
			var w phone.Welcome
			if err := json.Unmarshal([]byte(a[0].String()), &w); err != nil {
				return err.Error()
			}
			return words(p.Join(w))
		}),
		"practice":     function(func([]js.Value) any { return p.Practice() }),
		"takePractice": function(func(a []js.Value) any { return words(p.TakePractice(a[0].String())) }),
		"joined":       function(func([]js.Value) any { _, ok := p.Table(); return ok }),
		"waiting":      function(func([]js.Value) any { return p.Waiting() }),
		"leave":        function(func([]js.Value) any { p.Leave(); return "" }),
		"refuse":       function(func(a []js.Value) any { p.Refuse(a[0].String()); return "" }),
		"warm":         function(func(a []js.Value) any { return warm(p, a[0].Int()) }),
		"firstParts":   phone.FirstParts,
		"hand": function(func([]js.Value) any {
			h, err := json.Marshal(p.Hand())
			if err != nil {
				return err.Error()
			}
			return string(h)
		}),
		"handed": function(func(a []js.Value) any { return handed(p, a[0].String()) }),
	}))
	js.Global().Call("rillkeyReady")
	select {}
}

// kitOf is the kit of a built-in key, or of the region whose parcel the page holds,
// which was checked before it came there: what cannot be read is said when it is wanted.
func kitOf(key string, parcel js.Value) *phone.Kit {
	if parcel.Type() != js.TypeString || parcel.String() == "" {
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

func function(do func([]js.Value) any) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) any { return do(args) })
}

// warm makes a part of the page ready. While it starts nothing is swept; from the last
// part on memory is.
func warm(p *phone.Phone, part int) bool {
	more := p.Warm(part)
	if !more {
		debug.SetGCPercent(sweptAt)
	}
	return more
}

// sweptAt is by how many percent what is held may grow before it is swept.
const sweptAt = 200

func words(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// handed takes a table's answer: what is wrong with it, whether the visit gained by
// it, and whether there is more to come or to hand in.
func handed(p *phone.Phone, text string) any {
	var a phone.Answer
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
