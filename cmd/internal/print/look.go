package print

import "chablon/layout/sale"

// ownLook is the shop's look on the labels of a pack: as brand.yaml says for its
// paper, unless the pack says otherwise; nil where they are plain.
func (j *Job) ownLook() *sale.Look {
	if j.brand == nil || own[LabelOptions](j).Look == "plain" || !j.Shop.Brand.Uses("labels") {
		return nil
	}
	on := j.Shop.Brand.On(j.Stock.ID)
	if j.Pack.Arrange.Set() {
		on.Arrange = j.Pack.Arrange
	}
	if j.Pack.OnLabel.Set() {
		on.Price = j.Pack.OnLabel
	}
	if on.Arrange.V == "plain" {
		return nil
	}
	return &sale.Look{Look: j.brand, Arrange: on.Arrange.V, Price: on.Price.V, About: on.About.V, Larger: on.Letters.V == "larger"}
}
