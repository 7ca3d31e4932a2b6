package rule

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/mechanics"
	"example.org/takeup/engine/unit"
)

// function is one function that conditions and derived quantities may call.
type function struct {
	name   string
	params []kind   // a nil-dimension number parameter takes the dimension of the first argument when same is set
	stack  []string // instead of params: the arguments of a function on stacks
	same   bool     // all numbers must share one dimension, which is the result's too
	result kind
	call   func(args []any) (any, error)
}

// unitFunctions give a bare number its unit: mm(2), km(500), days(90).
var unitFunctions = map[string]string{
	"mm": "mm", "um": "µm", "inch": "in", "cm": "cm", "metres": "m",
	"km": "km", "miles": "mi",
	"seconds": "s", "minutes": "min", "hours": "h", "days": "day", "weeks": "week", "months": "month", "years": "year",
	"celsius": "°C", "newtons": "N", "kilograms": "kg", "newton_metres": "N·m",
	"newtons_per_mm": "N/mm", "degrees": "°", "radians": "rad",
	"rpm": "rpm", "ml": "ml", "litres": "l", "percent": "%", "kilowatts": "kW", "kilopascals": "kPa", "megapascals": "MPa",
}

// functions builds the table of everything a condition may call.
func functions() map[string]*function {
	table := map[string]*function{}
	add := func(f *function) { table[f.name] = f }
	for name, symbol := range unitFunctions {
		u, ok := unit.Find(symbol)
		if !ok {
			panic("rule: unit " + symbol + " of function " + name + " is unknown")
		}
		add(&function{
			name: name, params: []kind{number(unit.Dimension{})}, result: number(u.Dim),
			call: func(args []any) (any, error) { return toFloat(args[0])*u.Factor + u.Offset, nil },
		})
	}
	addReadings(add)
	addArithmetic(add)
	addMechanics(add)
	addTables(add)
	addStacks(add)
	return table
}

// arity is how many values the function takes.
func (f *function) arity() int {
	if f.stack != nil {
		return len(f.stack)
	}
	return len(f.params)
}

// errSingle makes a condition on differences between readings unable to tell,
// where a single reading would otherwise count as an even set.
var errSingle = errors.New("one value has no spread")

// addReadings adds what looks at a set of measured values. The comparisons
// give the probability that the true value lies past the limit, which the
// uncertainty of the gauge leaves open when a reading is close.
func addReadings(add func(*function)) {
	any1 := number(unit.Dimension{})
	measured := kind{base: baseReading}
	add(&function{name: "below", params: []kind{measured, any1}, same: true, result: kind{base: baseChance}, call: func(args []any) (any, error) {
		v := args[0].(fact.Value)
		return chanceBelow(v.Lowest(), toFloat(args[1]), v.Sigma), nil
	}})
	add(&function{name: "above", params: []kind{measured, any1}, same: true, result: kind{base: baseChance}, call: func(args []any) (any, error) {
		v := args[0].(fact.Value)
		return 1 - chanceBelow(v.Highest(), toFloat(args[1]), v.Sigma), nil
	}})
	add(&function{name: "outside", params: []kind{measured, any1, any1}, same: true, result: kind{base: baseChance}, call: func(args []any) (any, error) {
		v := args[0].(fact.Value)
		under := chanceBelow(v.Lowest(), toFloat(args[1]), v.Sigma)
		over := 1 - chanceBelow(v.Highest(), toFloat(args[2]), v.Sigma)
		return math.Min(1, under+over), nil
	}})
	add(&function{name: "apart", params: []kind{measured, any1}, same: true, result: kind{base: baseChance}, call: func(args []any) (any, error) {
		v := args[0].(fact.Value)
		if len(v.Values) < 2 {
			return nil, errSingle
		}
		return 1 - chanceBelow(v.Spread(), toFloat(args[1]), v.Sigma*math.Sqrt2), nil // two readings, two errors
	}})
	for name, of := range map[string]func(fact.Value) float64{
		"lowest": fact.Value.Lowest, "highest": fact.Value.Highest, "mean": fact.Value.Mean, "spread": fact.Value.Spread,
	} {
		add(&function{name: name, params: []kind{measured}, same: true, result: any1, call: func(args []any) (any, error) {
			v := args[0].(fact.Value)
			if name == "spread" && len(v.Values) < 2 {
				return nil, errSingle
			}
			return of(v), nil
		}})
	}
}

// chanceBelow is P(true value < limit) for a normal error of the gauge. Without
// a stated uncertainty the reading counts as exact.
func chanceBelow(value, limit, sigma float64) float64 {
	if sigma <= 0 {
		if value < limit {
			return 1
		}
		return 0
	}
	return 0.5 * math.Erfc((value-limit)/(sigma*math.Sqrt2))
}

func addArithmetic(add func(*function)) {
	n := number(unit.Dimension{})
	add(&function{name: "min", params: []kind{n, n}, same: true, result: n, call: func(args []any) (any, error) {
		return math.Min(toFloat(args[0]), toFloat(args[1])), nil
	}})
	add(&function{name: "max", params: []kind{n, n}, same: true, result: n, call: func(args []any) (any, error) {
		return math.Max(toFloat(args[0]), toFloat(args[1])), nil
	}})
	add(&function{name: "abs", params: []kind{n}, same: true, result: n, call: func(args []any) (any, error) {
		return math.Abs(toFloat(args[0])), nil
	}})
}

// addMechanics adds the functions of package mechanics by their own names.
func addMechanics(add func(*function)) {
	for _, m := range mechanics.Functions() {
		f := &function{name: m.Name, result: number(dimensionOf(m.Result))}
		for _, p := range m.Params {
			f.params = append(f.params, number(dimensionOf(p.Unit)))
		}
		f.call = func(args []any) (any, error) {
			floats := make([]float64, len(args))
			for i, a := range args {
				floats[i] = toFloat(a)
			}
			return m.Call(floats)
		}
		add(f)
	}
}

// addTables adds what is looked up by a word of the machine sheet, such as m6 or
// sae_10w_40.
func addTables(add func(*function)) {
	word := kind{base: baseText}
	thread := func(of func(mechanics.Thread) float64) func([]any) (any, error) {
		return func(args []any) (any, error) {
			t, err := mechanics.CoarseThread(fmt.Sprint(args[0]))
			return of(t), err
		}
	}
	add(&function{name: "thread_diameter", params: []kind{word}, result: number(unit.Length),
		call: thread(func(t mechanics.Thread) float64 { return t.NominalM })})
	add(&function{name: "thread_pitch", params: []kind{word}, result: number(unit.Length),
		call: thread(func(t mechanics.Thread) float64 { return t.PitchM })})
	add(&function{name: "oil_viscosity", params: []kind{word, number(unit.Temperature), number(dimensionOf("kg/m³"))}, result: number(dimensionOf("Pa·s")),
		call: func(args []any) (any, error) {
			grade, err := mechanics.ParseOilGrade(strings.ReplaceAll(fmt.Sprint(args[0]), "_", " "))
			if err != nil {
				return nil, err
			}
			return grade.ThickestAt(toFloat(args[1]), toFloat(args[2]))
		}})
}

// dimensionOf reads an SI unit of package mechanics, such as "kg·m/s²".
func dimensionOf(symbol string) unit.Dimension {
	d := unit.Dimension{}
	over, under, _ := strings.Cut(symbol, "/")
	for _, s := range strings.Split(over, "·") {
		d = d.Mul(siPower(s))
	}
	if under != "" {
		d = d.Div(siPower(under))
	}
	return d
}

func siPower(symbol string) unit.Dimension {
	times := 1
	switch {
	case strings.HasSuffix(symbol, "²"):
		times = 2
	case strings.HasSuffix(symbol, "³"):
		times = 3
	}
	base, ok := siUnits[strings.TrimRight(symbol, "²³")]
	if !ok {
		panic("rule: mechanics uses the unknown unit " + symbol)
	}
	d := unit.Dimension{}
	for range times {
		d = d.Mul(base)
	}
	return d
}

var siUnits = map[string]unit.Dimension{
	"1": {}, "m": unit.Length, "kg": unit.Mass, "s": unit.Time, "K": unit.Temperature, "rad": unit.Angle,
	"N": unit.Force, "Pa": unit.Pressure, "W": unit.Power,
}

func toFloat(x any) float64 {
	switch x := x.(type) {
	case float64:
		return x
	case int:
		return float64(x)
	case fact.Value:
		return x.Mean()
	}
	return math.NaN()
}
