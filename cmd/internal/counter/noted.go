package counter

import "sync"

// asked keeps the words of forms that were noted, and where their answer is, so
// that a form that comes twice is noted once.
type asked struct {
	mu   sync.Mutex
	done map[string]string
	keys []string
}

// mostNoted is how many are kept.
const mostNoted = 1000

// once runs do for the first form with a word, and gives the answer of the first
// to all others. What failed may be tried again.
func (n *asked) once(word string, do func() (string, error)) (string, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if to, ok := n.done[word]; ok {
		return to, nil
	}
	to, err := do()
	if err != nil {
		return "", err
	}
	if n.done == nil {
		n.done = map[string]string{}
	}
	n.done[word], n.keys = to, append(n.keys, word)
	if len(n.keys) > mostNoted {
		delete(n.done, n.keys[0])
		n.keys = n.keys[1:]
	}
	return to, nil
}
