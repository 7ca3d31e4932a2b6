package document

import "strings"

var xmlText = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

// SVGText returns s cleaned and escaped for a text node or a quoted attribute of
// an SVG drawing.
func SVGText(s string) string { return xmlText.Replace(Clean(s)) }
