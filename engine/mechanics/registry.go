package mechanics

import (
	"fmt"
	"slices"
)

// Function is a formula of this package that data files may call by name. All
// arguments and the result are single numbers in SI units.
type Function struct {
	Name    string  `json:"name"` // snake_case, unique
	Params  []Param `json:"params"`
	Result  string  `json:"result"` // unit, see Units
	Doc     string  `json:"doc"`    // one line
	Formula string  `json:"formula"`
	Source  string  `json:"source"`

	compute func(args []float64) (float64, error)
}

// Param is one argument of a Function, in the order of the call.
type Param struct {
	Name string `json:"name"` // snake_case
	Unit string `json:"unit"` // see Units; a count has unit "1"
	// Whole says that only whole numbers are accepted, as for plates or springs.
	Whole bool `json:"whole,omitempty"`
}

// ArgumentError says that a Function was called with the wrong number of arguments.
type ArgumentError struct {
	Function string
	Got      int
	Want     int
}

// Error names the function and both counts.
func (e *ArgumentError) Error() string {
	return fmt.Sprintf("%s takes %d numbers, got %d", e.Function, e.Want, e.Got)
}

// Call computes the function. The error is an *ArgumentError or a *DomainError, and
// then the result is 0. It never panics on a Function that came from Functions.
func (f Function) Call(args []float64) (float64, error) {
	if len(args) != len(f.Params) {
		return 0, &ArgumentError{f.Name, len(args), len(f.Params)}
	}
	for i, p := range f.Params {
		// A count beyond any machine would also overflow an int.
		if p.Whole && !(args[i] >= 0 && args[i] <= 1e6 && args[i] == float64(int(args[i]))) {
			return 0, &DomainError{p.Name, args[i], "a whole number"}
		}
	}
	v, err := f.compute(args)
	if err != nil {
		return 0, err
	}
	return result(f.Name, v)
}

// Units lists every unit that a Param or a Result may have.
func Units() []string {
	return []string{"1", "m", "m²", "m²/s", "m/s", "kg", "kg·m", "kg/m³", "K", "rad", "rad/s",
		"N", "N·m", "N/m", "Pa", "Pa·s", "W"}
}

// Functions returns all functions in a fixed order, by topic. Each call returns a
// fresh slice.
func Functions() []Function {
	return slices.Concat(capacityFunctions(), springFunctions(), releaseFunctions(), driveFunctions(),
		screwFunctions(), gaugeFunctions())
}

// FindFunction looks a function up by name.
func FindFunction(name string) (Function, bool) {
	functions := Functions()
	i := slices.IndexFunc(functions, func(f Function) bool { return f.Name == name })
	if i < 0 {
		return Function{}, false
	}
	return functions[i], true
}

// in and count build the parameter lists of the tables.
func in(name, unit string) Param { return Param{Name: name, Unit: unit} }
func count(name string) Param    { return Param{Name: name, Unit: "1", Whole: true} }

// of2 to of4 adapt plain functions of numbers; a function with a count in it is
// written out in its table.
func of2(f func(a, b float64) (float64, error)) func([]float64) (float64, error) {
	return func(v []float64) (float64, error) { return f(v[0], v[1]) }
}

func of3(f func(a, b, c float64) (float64, error)) func([]float64) (float64, error) {
	return func(v []float64) (float64, error) { return f(v[0], v[1], v[2]) }
}

func of4(f func(a, b, c, d float64) (float64, error)) func([]float64) (float64, error) {
	return func(v []float64) (float64, error) { return f(v[0], v[1], v[2], v[3]) }
}
