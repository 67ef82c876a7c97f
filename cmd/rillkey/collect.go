package main

import (
	"runtime/debug"
	"runtime/metrics"
)

// garbageRoom is how many bytes may lie about beside what is in use while many visits
// are graded. Each is garbage as soon as it is graded; what is kept of all grows
// meanwhile, so a share of it would be collected too often at first and leave too
// much lying about at last.
const garbageRoom = 16 << 20

// collecting keeps to garbageRoom: step is called now and then, and done at last.
type collecting struct{ percent, before int }

func startCollecting() *collecting {
	c := &collecting{percent: percentNow()}
	c.before = debug.SetGCPercent(c.percent)
	return c
}

func (c *collecting) step() {
	if now := percentNow(); now < c.percent*9/10 {
		c.percent = now
		debug.SetGCPercent(now)
	}
}

func (c *collecting) done() { debug.SetGCPercent(c.before) }

// percentNow is how much may be added, in per cent of what is in use.
func percentNow() int {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	const least, most = 10, 400
	return int(min(most, max(least, 100*uint64(garbageRoom)/max(live[0].Value.Uint64(), 1))))
}
