package card

// table is other batch sizes beside the one of the day.
type table struct{}

func (t *teller) sizeTable(*content) {}

func (w *lister) table(*table) {}
