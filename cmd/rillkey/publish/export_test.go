package publish

// KeepInMemory has so many entries kept in memory at most, until the function that it gives
// is called.
func KeepInMemory(entries int) (restore func()) {
	usual := mostKept
	mostKept = entries
	return func() { mostKept = usual }
}
