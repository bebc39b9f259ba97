package counter_test

import (
	"fmt"
	"html"
	"os"
	"path/filepath"
	"testing"
)

// many puts copies of a product beside it, as a shop of that many has.
func (h *house) many(n int) {
	h.Helper()
	data, err := os.ReadFile(filepath.Join(h.dir, "products", "pear-hazelnut-tartlet.yaml"))
	if err != nil {
		h.Fatal(err)
	}
	for i := range n {
		h.write(fmt.Sprintf("products/tartlet-%03d.yaml", i), string(data))
	}
}

// From the click to the picture: the page and its first picture, with the shop
// read before (warm), and after a file was saved (cold).
func BenchmarkPicture(b *testing.B) {
	for _, products := range []int{7, 200} {
		for _, cold := range []bool{false, true} {
			b.Run(fmt.Sprintf("products=%d/cold=%t", products, cold), func(b *testing.B) {
				h := newHouse(b)
				h.many(products - 7)
				path := tartlet
				h.get("/")
				b.ResetTimer()
				for i := range b.N {
					if cold {
						b.StopTimer()
						h.edit("shop.yaml", "name: ", fmt.Sprintf("# saved for the %dth time\nname: ", i))
						b.StartTimer()
					}
					page := h.get(path)
					h.get(html.UnescapeString(images.FindStringSubmatch(page.body)[1]))
				}
				b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N), "ms/click")
			})
		}
	}
}
