// Package scoring judges a visit: it places the animals of a tally in the
// kinds of an index scheme, computes the index and its rating, or withholds
// both and says why.
//
// Begin with [Rules], [Grade] and [Index].
//
// Schemes and protocols are TOML files, so that a region's rules need no Go.
// A scheme names one of the forms of formula written here. All sums are done
// in whole steps of the scheme's last decimal, and a mean is a chance.Ratio of whole
// numbers until it is rounded half up once, so that a value on a band's edge,
// or halfway to it, is exactly there.
//
// A grade describes the animals found that day. It never speaks on drinking
// or swimming.
package scoring

// KickArea is the area of stream bed in square metres that a kick sample
// covers: the width of the net times the length of bed disturbed in front of
// it, both in metres. Source: common practice.
func KickArea(netWidth, bedLength float64) float64 { return netWidth * bedLength }
