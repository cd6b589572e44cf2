package page

import (
	_ "embed"
	"html/template"
	"strings"
)

//go:embed parts/head.html
var headHTML string

// parsed is a template of a whole page. It begins with the head that all pages have,
// which shows .Policy and .CSS and the template "title".
func parsed(name, html string) *template.Template {
	return template.Must(template.Must(template.New("head").Parse(headHTML)).New(name).Parse(html))
}

// policy is a content policy that lets in what is allowed and nothing else.
func policy(allowed ...string) string {
	return "default-src 'none'; " + strings.Join(allowed, "; ") + "; base-uri 'none'; form-action 'none'"
}
