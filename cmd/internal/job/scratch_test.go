package job

import (
	"fmt"
	"os"
	"testing"
	"time"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

func TestScratch(t *testing.T) {
	d, _ := unit.ParseDate("2026-03-17")
	p, err := Open("", d, d.Time())
	fmt.Println(err)
	os.MkdirAll("/tmp/look", 0o755)
	for _, id := range p.ProductIDs() {
		for _, k := range p.Shop.Products[id].PackIDs() {
			start := time.Now()
			paper, err := p.Labels(LabelRequest{ID: id, Pack: k, Count: 3})
			fmt.Println(id, k, err, time.Since(start))
			for _, d := range p.Found.All() {
				fmt.Println(d)
			}
			p.Found = &diag.List{}
			if paper.write == nil {
				continue
			}
			f, _ := os.Create("/tmp/look/" + paper.Name)
			fmt.Println(paper.Write(f, nil))
			f.Close()
		}
	}
}
