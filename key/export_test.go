package key

// ClosedModel is [Key.Model] for trays that hold nothing but the key's end points.
func (k *Key) ClosedModel(rates Rates) (*Model, error) { return k.model(rates, k.Prior(), false) }
