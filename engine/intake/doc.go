// Package intake reads what a person wrote down about one machine: a case file
// and the machine sheet it names, checked word by word against a catalog.
//
// The main type is [Case]: the known values as a fact.Set, and what was seen
// as a list of observations with their likelihoods, in the order written.
//
//	cat, _ := catalog.Load(os.DirFS("knowledge"))
//	c, problems := intake.Load("cases/creep.yaml", cat)
//	if !problems.HasErrors() {
//		fmt.Println(c.Title, c.Known.Len(), len(c.Observations))
//	}
//
// The package does not judge: whether a reading is past its limit, whether a
// sign makes sense on this machine and what a case means is for later stages.
// A stack comes out with its counts and groups written out, one entry for each part.
package intake
