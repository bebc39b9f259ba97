package counter_test

import (
	"context"
	"fmt"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"chablon/labels/words"
)

// browser is a real Chromium in front of the counter of a house.
type browser struct {
	*house
	ctx context.Context
	url string
}

// open starts Chromium. Where there is none, nothing is checked, and that is said.
func openBrowser(t *testing.T, h *house) *browser {
	t.Helper()
	path := os.Getenv("CHROMIUM")
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); path == "" && err == nil {
			path = p
		}
	}
	if path == "" || testing.Short() {
		t.Skip("SKIPPED, and so not checked: the pages in a browser; there is no Chromium, or -short was said")
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.Flag("disable-gpu", true))
	if os.Geteuid() == 0 {
		opts = append(opts, chromedp.NoSandbox)
	}
	all, stop := chromedp.NewExecAllocator(t.Context(), opts...)
	ctx, cancel := chromedp.NewContext(all)
	srv := httptest.NewServer(h.at)
	t.Cleanup(func() { cancel(); stop(); h.at.Close(); srv.Close() })
	b := &browser{h, ctx, srv.URL}
	b.act(chromedp.Navigate("about:blank"))
	return b
}

func (b *browser) act(steps ...chromedp.Action[chromedp.Void]) {
	b.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, 30*time.Second)
	if chromedp.FromContext(b.ctx).Target == nil {
		ctx, cancel = b.ctx, func() {} // the first call starts the browser
	}
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		b.Fatal(err)
	}
}

func look[T any](b *browser, js string) T {
	b.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, 30*time.Second)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	if err != nil {
		b.Fatalf("%v: %.80s", err, js)
	}
	return v
}

func (b *browser) to(path string) {
	b.Helper()
	b.act(chromedp.Navigate(b.url + path))
}

// axe is the text of axe-core, where CHABLON_AXE names it (.ci/counter fetches
// it).
func axe(t *testing.T) string {
	t.Helper()
	path := os.Getenv("CHABLON_AXE")
	if path == "" {
		t.Skip("SKIPPED, and so not checked: the rules of axe-core; CHABLON_AXE does not name its file")
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// rules are those of Web Content Accessibility Guidelines 2.2, A and AA, and the
// good practice that axe-core knows of.
const rules = `axe.run({runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']}).then(r => ({
	faults: r.violations.map(v => v.id + ': ' + v.nodes.map(n => n.html).slice(0, 3).join(' | ')), held: r.passes.length}))`

// judged is what axe-core found.
type judged struct {
	Faults []string `json:"faults"`
	Held   int      `json:"held"`
}

// No rule of axe-core is broken on any page, in any language, light and dark; and
// faults that are planted are found.
func TestBrowserAxe(t *testing.T) {
	code := axe(t)
	b := openBrowser(t, lived(t))
	b.act(chromedp.EmulateViewport(360, 800))
	judge := func(what string) judged {
		look[bool](b, code+"; true")
		got := look[judged](b, rules)
		for _, f := range got.Faults {
			t.Errorf("%s: %s", what, f)
		}
		if got.Held < 15 {
			t.Errorf("%s: only %d rules were looked at", what, got.Held)
		}
		return got
	}
	held := 0
	for _, scheme := range []string{"light", "dark"} {
		b.act(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
			return err
		}))
		for _, path := range append(all, "/nothing", "/paper?kind=label&id=pear-hazelnut-tartlet&count=2001") {
			b.to(path)
			held += judge(scheme + " " + path).Held
		}
	}
	for _, lang := range words.Codes() {
		if l, _ := words.Get(lang); !l.Has("counter") || lang == "en" {
			continue
		}
		b.speak(lang)
		for _, path := range []string{"/", tartlet, "/day", "/food/lot", "/food/batch?id=sweet-pastry", "/allergens", "/wall"} {
			b.to(path)
			held += judge(lang + " " + path).Held
		}
	}
	b.to("/")
	look[bool](b, `document.documentElement.removeAttribute('lang'); document.querySelector('main').insertAdjacentHTML('beforeend', '<img src="x"><input>'); true`)
	look[bool](b, code+"; true")
	planted := strings.Join(look[judged](b, rules).Faults, " ")
	for _, rule := range []string{"html-has-lang", "image-alt", "label"} {
		if !strings.Contains(planted, rule+":") {
			t.Errorf("axe-core does not find %s: %s", rule, planted)
		}
	}
	t.Logf("%d checks held", held)
}

// speak chooses a language by its form.
func (b *browser) speak(lang string) {
	b.Helper()
	b.to("/")
	look[bool](b, `window.before = true; document.querySelector('#language').value = '`+lang+`'; document.querySelector('footer button').click(); true`)
	b.soon(`!window.before && document.documentElement.lang === '` + lang + `' && document.readyState === 'complete'`)
}

// soon waits until something holds.
func (b *browser) soon(js string) {
	b.Helper()
	for range 200 {
		ctx, cancel := context.WithTimeout(b.ctx, 5*time.Second)
		ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool](js))
		cancel()
		if err == nil && ok {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	b.Fatalf("it never came to: %s", js)
}

// At 320 px no page scrolls sideways (WCAG 2.2, 1.4.10), and no target of a
// button, field or link of its own line is lower than 24 px (2.5.8).
func TestBrowserNarrow(t *testing.T) {
	b := openBrowser(t, lived(t))
	b.act(chromedp.EmulateViewport(320, 640))
	for _, lang := range []string{"en", "de", "uk"} {
		b.speak(lang)
		for _, path := range all {
			b.to(path)
			if w := look[int](b, `document.documentElement.scrollWidth`); w > 320 {
				t.Errorf("%s in %s is %d px wide: %s", path, lang, w, look[string](b, `[...document.querySelectorAll('body *')].filter(e => e.getBoundingClientRect().right > 321 && !e.closest('.scroll')).map(e => e.outerHTML.slice(0, 90)).slice(0, 3).join('\n')`))
			}
			low := look[string](b, `[...document.querySelectorAll('button, input:not([type=hidden]), select, textarea, summary, nav a, .big')].filter(e => e.getBoundingClientRect().height > 0 && e.getBoundingClientRect().height < 24).map(e => e.outerHTML.slice(0, 90)).join('\n')`)
			if low != "" {
				t.Errorf("%s in %s: too low: %s", path, lang, low)
			}
		}
	}
}

// With the keyboard alone: choose, set how many, show, print. Every step can be
// seen to have the focus.
func TestBrowserKeyboard(t *testing.T) {
	for _, code := range words.Codes() {
		l, _ := words.Get(code)
		if !l.Has("counter") {
			continue
		}
		t.Run(code, func(t *testing.T) {
			b := openBrowser(t, newHouse(t))
			b.speak(code)
			tab := func(until string) {
				t.Helper()
				for range 60 {
					b.act(chromedp.KeyEvent(kb.Tab))
					if !look[bool](b, `getComputedStyle(document.activeElement).outlineStyle !== 'none' || document.activeElement === document.body || document.activeElement.matches('.scroll')`) {
						t.Fatalf("nobody sees the focus on %s", look[string](b, `document.activeElement.outerHTML`))
					}
					if look[bool](b, `document.activeElement.matches('`+until+`')`) {
						return
					}
				}
				t.Fatalf("the keyboard does not come to %s", until)
			}
			tab(`a[href*="pear-hazelnut-tartlet"]`)
			b.act(chromedp.KeyEvent(kb.Enter))
			b.soon(`location.pathname === '/paper' && document.readyState === 'complete'`)
			tab("#count")
			b.act(chromedp.KeyEvent(kb.Backspace), chromedp.KeyEvent("24"), chromedp.KeyEvent(kb.Enter))
			b.soon(`location.search.includes('count=24') && document.readyState === 'complete' && [...document.images].length === 2 && [...document.images].every(i => i.complete && i.naturalWidth > 0)`)
			tab(".go button")
			b.act(chromedp.KeyEvent(kb.Enter))
			b.soon(`location.pathname.startsWith('/printed/') && document.readyState === 'complete'`)
			if all := b.prints(); len(all) != 1 || all[0].Count != 24 {
				t.Errorf("the book has %+v", all)
			}
		})
	}
}

// With scripts off: the same, by mouse.
func TestBrowserWithoutScripts(t *testing.T) {
	b := openBrowser(t, newHouse(t))
	b.act(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	}))
	b.to("/paper?kind=label&id=pear-hazelnut-tartlet&count=12")
	b.act(chromedp.Click(chromedp.CSS(".go button")))
	for range 100 {
		if len(b.prints()) > 0 {
			break
		}
		time.Sleep(100 * time.Millisecond)
	}
	if all := b.prints(); len(all) != 1 || all[0].Count != 12 {
		t.Errorf("the book has %+v", all)
	}
}

// The workbench shows itself anew when a file is saved.
func TestBrowserBench(t *testing.T) {
	h := newHouse(t)
	b := openBrowser(t, h)
	b.to("/bench?id=pear-hazelnut-tartlet")
	b.soon(`document.images.length >= 2 && document.readyState === 'complete'`)
	h.edit("products/pear-hazelnut-tartlet.yaml", "use: sweet-pastry", "use: sweet-pasty")
	b.soon(`document.body.textContent.includes('did you mean') && document.querySelector('.wrong') !== null`)
	h.edit("products/pear-hazelnut-tartlet.yaml", "use: sweet-pasty", "use: sweet-pastry")
	b.soon(`document.images.length >= 2 && document.querySelector('.wrong') === null`)
}

// Pictures of pages for whoever wants to look: CHABLON_SHOTS names a folder.
func TestBrowserShots(t *testing.T) {
	dir := os.Getenv("CHABLON_SHOTS")
	if dir == "" {
		t.Skip("CHABLON_SHOTS names no folder")
	}
	b := openBrowser(t, lived(t))
	for _, width := range []int64{320, 1024} {
		b.act(chromedp.EmulateViewport(width, 800))
		for i, path := range all {
			b.to(path)
			ctx, cancel := context.WithTimeout(b.ctx, 30*time.Second)
			shot, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
			cancel()
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%02d-%d.png", i, width)), shot, 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
}
