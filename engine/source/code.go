package source

// Codes of the problems this package reports. Letters tell the family: Y is for
// files and YAML; other packages own K, R, C, M and U. A code never changes its
// meaning.
const (
	CodeNoFile     = "Y001" // the file does not exist
	CodeFolder     = "Y002" // a folder where a file is expected
	CodeUnreadable = "Y003" // the file cannot be opened or read
	CodeTooLarge   = "Y004" // more than MaxBytes bytes
	CodeEmpty      = "Y005" // nothing but blanks and comments
	CodeEncoding   = "Y006" // not UTF-8
	CodeControl    = "Y007" // control character or unusual line break
	CodeMark       = "Y008" // byte order mark (warning)
	CodeCRLF       = "Y009" // Windows line ends (warning)
	CodeTooMany    = "Y010" // more than MaxProblems problems, the rest is not reported

	CodeSyntax  = "Y101" // not YAML, for a reason not listed below
	CodeTab     = "Y102" // tab used for indentation
	CodeIndent  = "Y103" // indentation fits no open block
	CodeQuote   = "Y104" // quote without end
	CodeAfter   = "Y105" // text after a closing quote or bracket
	CodeStart   = "Y106" // value starts with a reserved character
	CodeColon   = "Y107" // second colon in an unquoted value
	CodeBracket = "Y108" // bracket or brace without end
	CodeNoColon = "Y109" // line without "key: value"
	CodeEscape  = "Y110" // unknown escape in double quotes
	CodeMixed   = "Y111" // list items and keys side by side

	CodeDocument  = "Y121" // second document, or a directive
	CodeAnchor    = "Y122" // anchor, alias or merge key
	CodeTag       = "Y123" // tag, usually a stray "!"
	CodeDepth     = "Y124" // nested deeper than MaxDepth
	CodeKey       = "Y125" // key that is not plain text
	CodeDuplicate = "Y126" // key given twice

	CodeUnknownKey  = "Y201" // key that is not known here
	CodeMissingKey  = "Y202" // required key not given
	CodeKind        = "Y203" // list, text or keys where another kind is expected
	CodeNoValue     = "Y204" // key without value, or null
	CodeNumber      = "Y205" // text where a number is expected
	CodeLeadingZero = "Y206" // number such as 010
	CodeYesNo       = "Y207" // text where yes or no is expected
	CodeRange       = "Y208" // number too large for its type
)
