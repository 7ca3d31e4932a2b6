// Package engine is the door to everything: open a pack of knowledge and rules,
// read a case, get a diagnosis.
//
//	eng, problems := engine.Open(os.DirFS("knowledge"), os.DirFS("rules"))
//	c, problems := intake.Load("testdata/cases/creeps-since-the-cable.yaml", eng.Catalog)
//	d, err := eng.Diagnose(c, engine.Bench{})
//	fmt.Println(d.Explanation.Causes[0].ID)
//
// It adds no reasoning of its own: it hands plain structs from one package to
// the next. It knows no clutch; another folder of knowledge is another trade.
package engine
