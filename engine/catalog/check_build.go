package catalog

import (
	"example.org/takeup/engine/unit"
)

func (k checker) steps() {
	var phases, tightenings []string
	for _, p := range k.cat.Phases {
		phases = append(phases, p.ID)
	}
	for _, t := range k.cat.Tightenings {
		tightenings = append(tightenings, t.ID)
	}
	preventable := k.signIDs()
	for _, c := range k.cat.Causes {
		preventable = append(preventable, c.ID)
	}
	for _, s := range k.cat.Steps {
		k.refers(s.Pos, s.ID, "phase", s.Phase, phases)
		k.refers(s.Pos, s.ID, "stage", s.Stage, k.stageIDs())
		k.all(s.Pos, s.ID, "prevents", s.Prevents, preventable)
		k.cautions(s.Pos, s.ID, s.Cautions)
		k.basis(s.Pos, s.ID, s.Basis)
		if s.Tighten != "" {
			k.refers(s.Pos, s.ID, "tighten", s.Tighten, tightenings)
		}
		if (s.When == "") != (s.Where == "") {
			k.errorf(s.Pos, "K121", "", "%s: when and where say the same, once for the program and once for the reader; one is missing", s.ID)
		}
	}
}

func (k checker) tightenings() {
	for _, t := range k.cat.Tightenings {
		k.sheetWord(t, "torque", t.Torque, "quantity")
		if t.Screws != "" {
			k.sheetWord(t, "screws", t.Screws, "count")
		}
		if t.General != (Torques{}) {
			k.basis(t.Pos, t.ID, t.General.Basis)
			k.torque(t, "low", t.General.Low)
			k.torque(t, "high", t.General.High)
		}
		for _, p := range t.Passes {
			if !(p.Share >= 0 && p.Share <= 1) {
				k.errorf(t.Pos, "K123", "", "%s: share is %v, expected a part of the full torque from 0 to 1", t.ID, p.Share)
			}
		}
	}
}

// sheetWord wants a word of the machine sheet of one kind.
func (k checker) sheetWord(t Tightening, field, id, kind string) {
	var known []string
	for _, f := range k.cat.Machine {
		if f.Kind == kind {
			known = append(known, f.ID)
		}
	}
	k.refers(t.Pos, t.ID, field, id, known)
}

func (k checker) torque(t Tightening, field, text string) {
	if _, err := unit.ParseAs(text, unit.Torque); err != nil {
		k.errorf(t.Pos, "K122", "", "%s: %s is %q, expected a torque such as 9 N·m", t.ID, field, text)
	}
}
