// Package html renders a page as one self-contained file for a browser: no
// script, nothing loaded from anywhere, readable on a phone and on paper, light
// or dark as the reader's system asks.
//
//	file, err := html.Render(page)              // from a document
//	file, err := html.Prose("Slip", markdown)   // from our own long explanations
//
// Every text goes through html/template, which escapes it for its place. A
// figure's SVG is put in as it is, once document.CheckSVG has found in it nothing but
// shapes and text; otherwise the drawing in characters is shown.
//
// It does not link to other pages, since the file may be mailed or printed.
package html
