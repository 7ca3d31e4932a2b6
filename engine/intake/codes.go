package intake

// Codes of the problems this package reports. Problems of YAML itself and of
// the kind of a node (a list where text belongs) carry the Y codes of package
// source. A code never changes its meaning.
const (
	CodeUnknownKey = "C101" // key that a case does not have
	CodeMissing    = "C102" // required key not given
	CodeElsewhere  = "C103" // known word in the wrong place
	CodeFact       = "C104" // unknown word of the history
	CodeMachine    = "C105" // unknown word of the machine sheet
	CodeSign       = "C106" // unknown sign
	CodeReading    = "C107" // unknown reading
	CodeCheck      = "C108" // unknown check
	CodeCause      = "C109" // unknown cause
	CodeGauge      = "C110" // unknown gauge
	CodeSheet      = "C111" // machine file that cannot be read
	CodeTwice      = "C112" // machine word given both nested and dotted
	CodeStage      = "C113" // unknown stage
	CodePrice      = "C114" // price of something that nothing needs

	CodeYesNo    = "C121" // something else than yes, no or unknown
	CodeChoice   = "C122" // value that is not in the word's list
	CodeQuantity = "C123" // unreadable quantity, or one of another dimension
	CodeCount    = "C124" // something else than a bare number
	CodeRange    = "C125" // number that cannot be: negative, below absolute zero, past all bounds
	CodeNone     = "C126" // list without a value in it

	CodeAnswer        = "C131" // answer that a sign does not have
	CodeContradiction = "C132" // two signs that exclude each other, both yes

	CodePart      = "C151" // line of a stack that is no part
	CodeAgree     = "C153" // sheet whose stack and words say different things
	CodeAttribute = "C152" // something said of a part that it does not have

	CodeSeveral  = "C141" // several values where one is taken
	CodeValue    = "C142" // reading without value, or with both value and values
	CodeMeasures = "C143" // gauge that does not measure this kind of quantity
	CodeUnusual  = "C144" // reading ten times off its limit or what is usual (warning)
)
