package online

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"sync"

	"chablon/labels/words"
)

// style is all that the page says of its looks: letters and colours are those
// of the reader's browser.
const style = `
:root { color-scheme: light dark; }
body { background: Canvas; color: CanvasText; font: 1.125rem/1.5 system-ui, sans-serif; margin: 1rem auto; max-width: 40rem; padding: 0 1rem; overflow-wrap: anywhere; }
.stop { border: 0.4rem solid; padding: 0 1rem; }
.contains { font-size: 1.25em; }
section { border-top: 0.1rem solid; margin-top: 2rem; }
nav ul { padding: 0; }
nav li { display: inline-block; margin-right: 1rem; }
nav a { color: CanvasText; display: inline-block; min-height: 1.5rem; min-width: 1.5rem; }
caption { text-align: start; font-weight: bold; }
table { border-collapse: collapse; }
th, td { border-bottom: 0.1rem solid; padding: 0.25rem 0.75rem 0.25rem 0; text-align: start; vertical-align: top; }
th { font-weight: normal; }
thead th { font-weight: bold; }
.part { padding-inline-start: 1rem; }
`

// document is the page. The policy in its head lets a browser load nothing and
// run nothing, whatever stands in it; an emblem that is a picture stands in the
// page itself, and only then does the policy allow pictures, of that kind alone.
const document = `<!DOCTYPE html>
<html lang="{{.Lang}}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src '{{.StyleSum}}';{{if .Picture}} img-src data:;{{end}} base-uri 'none'; form-action 'none'">
<meta name="referrer" content="no-referrer">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.Title}}</title>
<link rel="linkset" type="application/linkset+json" href="linkset.json">
<style>{{.Style}}</style>
</head>
<body>
{{- with .Brand}}
<header class="{{.Divider}}">
{{- with .Drawing}}
<svg viewBox="0 0 {{.W}} {{.H}}" {{if $.Brand.Written}}aria-hidden="true"{{else}}role="img" aria-label="{{$.Shop}}"{{end}}><path d="{{.Path}}"/></svg>
{{- end}}
{{- with $.Picture}}
<img src="{{.}}" alt="{{if not $.Brand.Written}}{{$.Shop}}{{end}}">
{{- end}}
{{- if or .Written .Under}}
<div>
{{- with .Written}}
<p class="name">{{range $i, $line := .}}{{if $i}}<br>{{end}}{{$line}}{{end}}</p>
{{- end}}
{{- with .Under}}
<p class="under">{{.}}</p>
{{- end}}
</div>
{{- end}}
</header>
{{- end}}
<main>
<h1>{{.Heading}}</h1>
{{- with .Mark}}
<p><strong>{{.}}</strong></p>
{{- end}}
{{- range .Stops}}
<div class="stop" lang="{{.Lang.Code}}">
<h2>{{.Head}}</h2>
{{- with .Why}}
<p>{{.}}</p>
{{- end}}
<p><strong>{{.Do}}</strong></p>
<p>{{.Contact}}</p>
</div>
{{- end}}
{{- if .Choose}}
<nav>
<ul>
{{- range .Labels}}
<li><a href="#{{.Lang.Code}}" lang="{{.Lang.Code}}" hreflang="{{.Lang.Code}}">{{.Lang.Name}}</a></li>
{{- end}}
</ul>
</nav>
{{- end}}
{{- range .Labels}}
<section lang="{{.Lang.Code}}" id="{{.Lang.Code}}" aria-labelledby="{{.Lang.Code}}-name">
<h2 id="{{.Lang.Code}}-name">{{.Label.Name.Text}}</h2>
{{- with .Contains.Runs}}
<p class="contains">{{template "runs" .}}</p>
{{- end}}
{{- with .Label.May.Runs}}
<p>{{template "runs" .}}</p>
{{- end}}
{{- range .Label.Lists}}
<p>{{template "runs" .Runs}}</p>
{{- end}}
{{- range .Label.Statements}}
<p>{{template "runs" .Runs}}</p>
{{- end}}
<p>{{.Lot}}: {{.Batch}}</p>
{{- range .Rest}}
<p>{{.}}</p>
{{- end}}
{{- with .Label.Table}}
<table>
<caption>{{.Heading}}{{with .Portions}}; {{.}}{{end}}</caption>
<thead>
<tr><td></td>{{range .Heads}}<th scope="col">{{.}}</th>{{end}}</tr>
</thead>
<tbody>
{{- range .Rows}}
<tr><th scope="row"{{if .Sub}} class="part"{{end}}>{{.Name}}</th>{{range .Cells}}<td>{{.}}</td>{{end}}</tr>
{{- end}}
</tbody>
</table>
{{- with .ReferenceOf}}
<p>{{.}}</p>
{{- end}}
{{- end}}
<p>{{.Label.Operator.Text}}</p>
</section>
{{- end}}
</main>
</body>
</html>
{{define "runs"}}{{range .}}{{if .Strong}}<strong>{{.Text}}</strong>{{else}}{{.Text}}{{end}}{{end}}{{end}}`

var parsed = sync.OnceValues(func() (*template.Template, error) { return template.New("page").Parse(document) })

// view is what the document shows.
type view struct {
	Lang, Title, Heading, Mark, Shop string
	Style                            template.CSS
	StyleSum                         string
	Brand                            *Brand
	Picture                          template.URL
	Stops                            []Stop
	Choose                           bool
	Labels                           []labelView
}

type labelView struct {
	Said
	Lot, Batch string
	Rest       []string // net quantity, date, storage: what stands without emphasis
}

// HTML writes the page. The error is that of a word that is missing, or of w.
func (p Page) HTML(w io.Writer) error {
	t, err := parsed()
	if err != nil {
		return err
	}
	v, err := p.view()
	if err != nil {
		return err
	}
	return t.Execute(w, v)
}

func (p Page) view() (view, error) {
	names := p.names()
	css := p.style()
	sum := sha256.Sum256([]byte(css))
	v := view{Lang: names[0].Lang.Code(), Heading: names[0].Name, Mark: p.Mark, Shop: p.Shop, Style: template.CSS(css), StyleSum: "sha256-" + base64.StdEncoding.EncodeToString(sum[:]),
		Brand: p.head(), Picture: p.picture(), Stops: p.Stop, Choose: len(p.Said) > 1}
	if len(p.Stop) > 0 { // the first words of the page, and of its tab
		v.Heading = p.Stop[0].Head + " – " + v.Heading
	}
	v.Title = fmt.Sprintf("%s – %s – %s", v.Heading, p.Batch, p.Shop)
	for _, s := range p.Said {
		lot, err := s.Lang.Word("lot.heading")
		if err != nil {
			return view{}, err
		}
		v.Labels = append(v.Labels, labelView{s, lot, p.Batch, rest(s.Label)})
	}
	return v, nil
}

// rest is what a label says besides names, lists and tables.
func rest(l *words.Label) (out []string) {
	for _, s := range []words.Said{l.Net.Said, l.Date, l.Keep, l.Use} {
		if s.Text != "" {
			out = append(out, s.Text)
		}
	}
	return out
}
