package catalog

import (
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// bounds wants both ends readable in the unit's dimension and the low one lower.
func (k checker) bounds(pos source.Pos, owner, symbol string, s Bounds) {
	dim := dimension(symbol)
	low, err := unit.ParseAs(s.Low, dim)
	if s.Low != "" && err != nil {
		k.errorf(pos, "K116", "", "%s: possible.low: %s", owner, err)
	}
	high, err := unit.ParseAs(s.High, dim)
	if s.High != "" && err != nil {
		k.errorf(pos, "K116", "", "%s: possible.high: %s", owner, err)
	}
	if s.Low != "" && s.High != "" && low.SI >= high.SI {
		k.errorf(pos, "K116", "", "%s: possible.low is not below possible.high", owner)
	}
}

// derived checks what stands beside the expressions; the expressions themselves
// need the vocabulary and are checked with the rules.
func (k checker) derived() {
	var groups, ids []string
	for _, g := range k.cat.Groups {
		groups = append(groups, g.ID)
	}
	for _, d := range k.cat.Derived {
		ids = append(ids, d.ID)
		k.unit(d.Pos, d.ID, d.Unit)
		k.basis(d.Pos, d.ID, d.Basis)
		if d.Group != "" {
			k.refers(d.Pos, d.ID, "group", d.Group, groups)
		}
		for i, o := range d.Means {
			if last := i == len(d.Means)-1; last != (o.Below == "") {
				k.errorf(d.Pos, "K117", "the last outcome takes the rest; those before it say below what", "%s: outcome %d and its bound do not fit", d.ID, i+1)
			}
		}
	}
	for _, d := range k.cat.Derived {
		if d.Instead != "" {
			k.refers(d.Pos, d.ID, "instead", d.Instead, ids)
		}
	}
	for _, g := range k.cat.Groups {
		if g.Whole != "" {
			k.refers(g.Pos, g.ID, "whole", g.Whole, ids)
		}
	}
	k.fittings(ids)
}

func (k checker) fittings(derived []string) {
	measured := derived
	for _, r := range k.cat.Readings {
		measured = append(measured, r.ID)
	}
	var machine []string
	for _, f := range k.cat.Machine {
		machine = append(machine, f.ID)
	}
	for _, f := range k.cat.Fittings {
		for _, id := range []string{f.Height, f.Else, f.Fitted} {
			if id != "" {
				k.refers(f.Pos, f.ID, "height, else or fitted", id, measured)
			}
		}
		k.all(f.Pos, f.ID, "low, high, sizes, count or new", []string{f.Low, f.High, f.Sizes, f.Count, f.New}, machine)
	}
}

// listed wants a part of the stack and an attribute of it.
func (k checker) listed(r Reading) {
	if r.Listed == (Listed{}) {
		return
	}
	var parts, attributes []string
	for _, p := range k.cat.Parts {
		parts = append(parts, p.ID)
		if p.ID == r.Listed.Part {
			attributes = p.Has
		}
	}
	k.refers(r.Pos, r.ID, "listed.part", r.Listed.Part, parts)
	k.refers(r.Pos, r.ID, "listed.attribute", r.Listed.Attribute, attributes)
}
