package rule

import (
	"fmt"
	"slices"
	"strings"

	"github.com/expr-lang/expr/ast"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// The arguments of functions on stacks. Kinds of part, attributes and values are
// written as words in quotes, several kinds as a list.
const (
	argStack     = "a stack"
	argKinds     = "a kind of part"
	argAttribute = "something said of a part"
	argMeasured  = "something measured on a part"
	argValue     = "a value"
)

// stackArgs is what one call was made with.
type stackArgs struct {
	stacks           []*fact.Stack
	kinds            [][]string
	attribute, value string
}

// addStacks adds what looks at a stack of parts. All but the last three are yes, no or
// cannot tell.
func addStacks(add func(*function)) {
	look := func(name string, do func(stackArgs) finding, args ...string) {
		add(&function{name: name, stack: args, result: kind{base: baseFinding}, call: func(raw []any) (any, error) {
			return do(readArgs(args, raw)), nil
		}})
	}
	look("missing", func(a stackArgs) finding { return missing(a.stacks[0], a.kinds[0]) }, argStack, argKinds)
	look("some", func(a stackArgs) finding { return some(a.stacks[0], a.kinds[0], a.attribute, a.value) }, argStack, argKinds, argAttribute, argValue)
	look("mixed", func(a stackArgs) finding { return mixed(a.stacks[0], a.kinds[0], a.attribute) }, argStack, argKinds, argAttribute)
	look("together", func(a stackArgs) finding { return together(a.stacks[0], a.kinds[0]) }, argStack, argKinds)
	look("outermost", func(a stackArgs) finding { return outermost(a.stacks[0], a.kinds[0], a.attribute, a.value) }, argStack, argKinds, argAttribute, argValue)
	look("before", func(a stackArgs) finding { return before(a.stacks[0], a.kinds[0], a.kinds[1]) }, argStack, argKinds, argKinds)
	look("beside", func(a stackArgs) finding {
		return beside(a.stacks[0], a.kinds[0], a.kinds[1], a.attribute, a.value)
	}, argStack, argKinds, argKinds, argAttribute, argValue)
	look("unlike", func(a stackArgs) finding { return unlike(a.stacks[0], a.stacks[1], a.kinds[0], a.attribute) }, argStack, argStack, argKinds, argAttribute)
	look("out_of_order", func(a stackArgs) finding { return outOfOrder(a.stacks[0], a.stacks[1], a.kinds[0]) }, argStack, argStack, argKinds)

	number := func(name string, result kind, do func(stackArgs) (any, error), args ...string) {
		add(&function{name: name, stack: args, result: result, call: func(raw []any) (any, error) { return do(readArgs(args, raw)) }})
	}
	number("count", kind{base: baseNumber}, func(a stackArgs) (any, error) { return count(a.stacks[0], a.kinds[0]) }, argStack, argKinds)
	number("measured", kind{base: baseReading}, func(a stackArgs) (any, error) { return measured(a.stacks[0], a.kinds[0], a.attribute) }, argStack, argKinds, argMeasured)
	number("total", kind{base: baseReading}, func(a stackArgs) (any, error) { return total(a.stacks[0], a.kinds[0], a.attribute) }, argStack, argKinds, argMeasured)
}

// usage says what a function on stacks is called with.
func (f *function) usage() string {
	if f.stack == nil {
		return ""
	}
	return f.name + "(" + strings.Join(f.stack, ", ") + ")"
}

// readArgs sorts values that the typer has checked.
func readArgs(args []string, raw []any) (a stackArgs) {
	for i, arg := range args {
		switch arg {
		case argStack:
			a.stacks = append(a.stacks, raw[i].(*fact.Stack))
		case argKinds:
			a.kinds = append(a.kinds, textsOf(raw[i]))
		case argAttribute, argMeasured:
			a.attribute = raw[i].(string)
		case argValue:
			a.value = strings.ToLower(raw[i].(string))
		}
	}
	return a
}

func textsOf(x any) []string {
	switch x := x.(type) {
	case string:
		return []string{x}
	case []string:
		return x
	case []any:
		out := make([]string, len(x))
		for i := range x {
			out[i], _ = x[i].(string)
		}
		return out
	}
	return nil
}

// stackCall checks a call against the kinds of part and attributes of the pack.
func (t typer) stackCall(f *function, n *ast.CallNode) (kind, *problem) {
	result := f.result
	var kinds []string
	var attribute fact.Word
	for i, arg := range f.stack {
		a := n.Arguments[i]
		var p *problem
		switch arg {
		case argStack:
			p = t.stackArg(f, a)
		case argKinds:
			kinds, p = t.kindsArg(f, a)
		case argAttribute, argMeasured:
			attribute, p = t.attributeArg(f, arg, a, kinds)
			result.dim = attribute.Dim
		case argValue:
			p = t.valueArg(f, a, attribute)
		}
		if p != nil {
			return kind{}, p
		}
	}
	if result.base != baseReading {
		result.dim = unit.Dimension{}
	}
	return result, nil
}

func (t typer) stackArg(f *function, n ast.Node) *problem {
	k, p := t.of(n)
	if p == nil && k.base != baseStack {
		p = at(n, "R132", "write "+f.name+"(stack, ...) or "+f.name+"(machine.stack, ...)", fmt.Sprintf("%s wants a stack here, found %s", f.name, k))
	}
	return p
}

// literals reads a word in quotes, or a list of them with their nodes.
func literals(n ast.Node) (words []string, nodes []ast.Node) {
	nodes = []ast.Node{n}
	if list, ok := n.(*ast.ArrayNode); ok {
		nodes = list.Nodes
	}
	for _, x := range nodes {
		s, ok := x.(*ast.StringNode)
		if !ok {
			return nil, nil
		}
		words = append(words, s.Value)
	}
	return words, nodes
}

func (t typer) kindsArg(f *function, n ast.Node) ([]string, *problem) {
	words, nodes := literals(n)
	if len(words) == 0 {
		return nil, at(n, "R132", `write "friction", or several as ["friction", "steel"]`, f.name+" wants a kind of part in quotes here")
	}
	for i, w := range words {
		if !t.words.Has("part:"+w, fact.RolePart) {
			return nil, at(nodes[i], "R133", source.DidYouMean(w, t.bare(fact.RolePart)), fmt.Sprintf("unknown kind of part %q", w))
		}
	}
	return words, nil
}

// bare lists ids of a role without their prefix.
func (t typer) bare(role fact.Role) []string {
	var out []string
	for _, id := range t.words.IDs(role) {
		_, id, _ = strings.Cut(id, ":")
		out = append(out, id)
	}
	return out
}

func (t typer) attributeArg(f *function, arg string, n ast.Node, kinds []string) (fact.Word, *problem) {
	s, ok := n.(*ast.StringNode)
	if !ok {
		return fact.Word{}, at(n, "R132", `write it in quotes, such as "thickness"`, fmt.Sprintf("%s wants %s here", f.name, arg))
	}
	for _, k := range kinds {
		part, _ := t.words.Lookup("part:" + k)
		if !slices.Contains(part.Choices, s.Value) {
			hint := source.DidYouMean(s.Value, part.Choices)
			if hint == "" && len(part.Choices) > 0 {
				hint = "it has " + strings.Join(part.Choices, ", ")
			}
			return fact.Word{}, at(n, "R134", hint, fmt.Sprintf("a %s has no %q", k, s.Value))
		}
	}
	w, _ := t.words.Lookup("attribute:" + s.Value)
	switch isReading := w.Kind == fact.Reading; {
	case isReading && arg == argAttribute:
		return w, at(n, "R135", `compare with below, above or outside: below(measured(stack, "friction", "thickness"), limit)`, fmt.Sprintf("%s is measured, so no two values are the same", s.Value))
	case !isReading && arg == argMeasured:
		return w, at(n, "R135", "", fmt.Sprintf("%s is not measured", s.Value))
	}
	return w, nil
}

func (t typer) valueArg(f *function, n ast.Node, attribute fact.Word) *problem {
	s, ok := n.(*ast.StringNode)
	if !ok {
		return at(n, "R132", `write it in quotes, such as "no"`, f.name+" wants a value here")
	}
	if len(attribute.Choices) == 0 || slices.Contains(attribute.Choices, s.Value) {
		return nil
	}
	hint := source.DidYouMean(s.Value, attribute.Choices)
	if hint == "" {
		hint = "it is one of " + strings.Join(attribute.Choices, ", ")
	}
	return at(n, "R127", hint, fmt.Sprintf("%s is never %q", strings.TrimPrefix(attribute.ID, "attribute:"), s.Value))
}
