package main

import (
	"runtime"
	"runtime/debug"
)

// garbageRoom is how many bytes may lie about beside what is in use while many visits
// are graded. Each is garbage as soon as it is graded; what is kept of all grows
// meanwhile, so a share of it would be collected too often at first and leave too
// much lying about at last.
const garbageRoom = 16 << 20

// collecting keeps to garbageRoom: step is called now and then, and done at last.
type collecting struct{ percent, previous int }

func startCollecting() *collecting {
	const most = 400 // per cent
	return &collecting{percent: most, previous: debug.SetGCPercent(most)}
}

func (c *collecting) step() {
	if now := c.percentNow(); now < c.percent*9/10 {
		c.percent = now
		debug.SetGCPercent(now)
	}
}

func (c *collecting) done() { debug.SetGCPercent(c.previous) }

// percentNow is how much may be added, in per cent of what is in use. (Package
// runtime/metrics tells it too, and makes its list of metrics at each start of the program.)
func (c *collecting) percentNow() int {
	var now runtime.MemStats
	runtime.ReadMemStats(&now)
	inUse := now.NextGC * 100 / uint64(100+c.percent)
	const least, most = 10, 400
	return int(min(most, max(least, 100*uint64(garbageRoom)/max(inUse, 1))))
}
