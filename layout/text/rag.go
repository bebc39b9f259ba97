package text

import (
	"strings"
	"unicode"

	"chablon/labels/role"
)

// ending is the best way to end a line at a cut: how many lines there are up to
// it, how uneven they are, and the cut at which the line before ended (-1 for
// none).
type ending struct {
	lines int
	cost  int64
	from  int
}

func (e ending) better(than ending) bool {
	return than.lines == 0 || e.lines < than.lines || e.lines == than.lines && e.cost < than.cost
}

// rag finds where lines end between start and the cut last, k being the first
// cut behind start: on as few lines as filling each would take, and of these
// ways the one whose lines leave the least white, in squares, at their right.
// The last line is free, but for a short one; that of a name counts as the
// others do, so that a name stands in lines of about one length. It returns
// nothing where a word is wider than the line.
func (c *Copy) rag(start, k, last int, room int64) []int {
	best := make([]ending, last-k+1)
	for i := k; i <= last; i++ {
		for j := i - 1; j >= k-1; j-- {
			from, to := ending{from: -1}, c.cuts[i].at
			if j >= k {
				from = best[j-k]
			}
			begin := c.begin(start, k, j)
			w := c.width(begin, to)
			if w > room {
				break
			}
			if j >= k && from.lines == 0 {
				continue
			}
			e := ending{from.lines + 1, from.cost + c.unevenness(begin, i, room-w, i == last, j >= k), j}
			if e.better(best[i-k]) {
				best[i-k] = e
			}
		}
	}
	if best[last-k].lines == 0 {
		return nil
	}
	ends := make([]int, best[last-k].lines)
	for i, n := last, len(ends)-1; i >= k; i, n = best[i-k].from, n-1 {
		ends[n] = c.cuts[i].at
	}
	return ends
}

// begin is where a line begins whose line before ended at cut j.
func (c *Copy) begin(start, k, j int) int {
	if j < k {
		return start
	}
	return c.cuts[j].at
}

// unevenness is what a line adds that begins at a rune, ends at a cut, and
// leaves so much white at its right.
func (c *Copy) unevenness(begin, cut int, white int64, last, wrapped bool) int64 {
	end := c.cuts[cut].at
	room := white + c.width(begin, end)
	switch even := c.para.Role == role.Name; {
	case last && even:
		return white * white
	case last && wrapped && white > room*3/4 && c.count(begin, end) < 3:
		return room * room
	case last:
		return 0
	case c.cuts[cut].hangs:
		return white*white + room*room/16
	}
	return white * white
}

// count is how many words stand between begin and end.
func (c *Copy) count(begin, end int) int {
	return len(strings.Fields(string(c.runes[begin:end])))
}

// hangs tells that the word before a cut belongs to the word behind it: one
// letter alone ("a", "à", "w", "с"), or an article, also one that has a
// preposition in it ("aux", "zum"; common practice of typesetting, without a
// published source).
func hangs(t []rune, at int) bool {
	w := before(t, at)
	return len(w) == 1 && unicode.IsLower(w[0]) || article(string(w))
}

// articles of the languages of labels that have them.
const articles = " an the le la les un une au aux du des il lo gli uno una del della dei al alla el los las" +
	" os um uma do da dos der die das den dem ein eine einen zum zur het een "

func article(w string) bool { return strings.Contains(articles, " "+strings.ToLower(w)+" ") }
