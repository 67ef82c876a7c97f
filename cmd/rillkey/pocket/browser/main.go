//go:build js

// Command browser is what a browser runs of rillkey: it puts the page of package
// phone before the script around it. It is built into the page by package pocket,
// never run by hand.
package main

import (
	"crypto/rand"
	"encoding/json"
	"syscall/js"
	"time"

	"rillkey/cmd/rillkey/phone"
)

func main() {
	kits := map[string]*phone.Kit{}
	kit := func(name string) *phone.Kit {
		if kits[name] == nil {
			kits[name] = phone.NewKit(name)
		}
		return kits[name]
	}
	p := phone.New(kit(js.Global().Get("rillkeyKey").String()), time.Now, rand.Reader)
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
	}))
	js.Global().Call("rillkeyReady")
	select {}
}

func function(do func([]js.Value) any) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) any { return do(args) })
}

func words(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}
