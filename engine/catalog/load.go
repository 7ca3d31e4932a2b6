package catalog

import (
	"cmp"
	"io/fs"
	"path"
	"reflect"
	"slices"
	"strings"

	"example.org/takeup/engine/source"
)

// apart are folders that hold knowledge of another shape, read on demand.
var apart = []string{"phrases", "pages", "figures", "schema", "machines"}

// Load reads every YAML file of a knowledge folder and checks it. Problems of
// all files come back together, sorted by place; the catalog is usable only
// when none of them is an error.
func Load(fsys fs.FS) (*Catalog, source.Problems) {
	cat, ps := Read(fsys)
	cat.Index()
	cat.check(&ps)
	ps.Sort()
	return cat, ps
}

// Reads reports whether Load reads the file with this path, as against the
// folders of another shape.
func Reads(name string) bool {
	first, _, _ := strings.Cut(path.Clean(name), "/")
	return !slices.Contains(apart, first)
}

// Read decodes the files without checking references between them.
func Read(fsys fs.FS) (*Catalog, source.Problems) {
	parts, ps := source.DecodeFolder[Catalog](fsys, Reads)
	cat := &Catalog{}
	for _, part := range parts {
		cat.merge(part)
	}
	return cat, ps
}

// merge appends every list of other to the list of the same name, and takes over
// the subject from the file that names it.
func (c *Catalog) merge(other Catalog) {
	c.Subject = cmp.Or(c.Subject, other.Subject)
	to, from := reflect.ValueOf(c).Elem(), reflect.ValueOf(other)
	for i := range to.NumField() {
		if f := to.Field(i); f.CanSet() && f.Kind() == reflect.Slice {
			f.Set(reflect.AppendSlice(f, from.Field(i)))
		}
	}
}
