package card_test

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/words"
	"chablon/layout/card"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

func ExampleCompose() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	faces, err := text.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	f := sh.Formulas["craquelin"]
	batch, err := scale.Mass(sh, f, f.Out())
	if err != nil {
		fmt.Println(err)
		return
	}
	a6, _ := stock.Get("card-a6")
	en, _ := words.Get("en")
	pages := card.Compose(card.Card{Shop: sh, Formula: f, Batch: batch, Langs: []*words.Lang{en}, Stock: a6,
		Contains: []string{"wheat", "milk"}}, faces, &found)
	fmt.Println(len(pages), found.Errors())
	// Output: 1 0
}
