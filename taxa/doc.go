// Package taxa is what lives in streams: the vocabulary of traits that people
// can see on a live animal, the catalog of taxa with the states they show, and
// looking a taxon up by any of its names.
//
// Begin with [Catalog], [Taxon] and [Vocabulary].
//
// It knows nothing of keys, tallies or grades. A trait that a taxon does not
// state is unknown, which is never the same as absent.
package taxa
