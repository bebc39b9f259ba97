package online_test

import (
	"fmt"
	"os"

	"chablon/labels/online"
	"chablon/labels/words"
)

func ExamplePage_Linkset() {
	en, _ := words.Get("en")
	p := online.Page{Shop: "Quoin & Crumb", Batch: "L26076A", Link: "https://label.example/01/09520001000041/10/L26076A",
		Gone: []online.Gone{{Lang: en, Name: "Pistachio choux bun"}}}
	if err := p.Linkset(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// {
	//   "linkset": [
	//     {
	//       "anchor": "https://label.example/01/09520001000041/10/L26076A",
	//       "https://ref.gs1.org/voc/defaultLink": [
	//         {
	//           "href": "https://label.example/01/09520001000041/10/L26076A/",
	//           "type": "text/html",
	//           "hreflang": [
	//             "en"
	//           ],
	//           "title": "Pistachio choux bun"
	//         }
	//       ],
	//       "https://ref.gs1.org/voc/pip": [
	//         {
	//           "href": "https://label.example/01/09520001000041/10/L26076A/",
	//           "type": "text/html",
	//           "hreflang": [
	//             "en"
	//           ],
	//           "title": "Pistachio choux bun"
	//         }
	//       ]
	//     }
	//   ]
	// }
}
