// Package figure draws: a stack of parts as lines of text and as SVG, and a drawing
// of a whole machine with marks at some of its parts.
//
//	block := figure.Stack(figure.Section{Inner: "hub", Outer: "basket", Layers: layers})
//	drawing, err := figure.Read(svg)          // a file of the pack
//	picture := drawing.Point(marks, known)    // numbers at the suspected parts
//
// Every word from a file goes through document.SVGText, and what comes out passes
// document.CheckSVG: shapes and text, nothing that runs, loads or links.
//
// The package knows no clutch. Shapes and sides come from the pack's list of parts,
// names of groups from the drawing itself.
package figure
