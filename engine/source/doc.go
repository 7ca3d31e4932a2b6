// Package source reads the project's text files and says what is wrong with
// them, with file, line, column and a suggestion.
//
// The main type is [Problems]: every stage that reads a file adds to one list,
// and the list is shown once, sorted, with the offending line underlined.
// [Parse] turns YAML text into a tree of [Node] values; [Decode] fills Go structs
// from it strictly, so that a misspelt key is an error and not a silence.
//
//	file, problems := source.Load("cases/creep.yaml")
//	root, more := source.Parse(file.Name, file.Text)
//	problems = append(problems, more...)
//	var c Case
//	source.Decode(root, &c, &problems)
//	problems.Render(os.Stderr, map[string]*source.File{file.Name: file})
//
// The YAML accepted is a deliberate subset: one document, no anchors, aliases,
// merge keys, tags or directives, at most [MaxBytes] bytes and [MaxDepth] levels.
//
// The package does not know what the keys mean, does not expand environment
// variables or includes, and never writes files.
package source
