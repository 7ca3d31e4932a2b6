package unit

import (
	"errors"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

func near(a, b, relative float64) bool {
	return math.Abs(a-b) <= relative*math.Max(math.Abs(a), math.Abs(b))
}

// published holds conversion factors as printed. Unless a line says otherwise
// the source is NIST SP 811 (2008), appendix B.8; "exact" there means by
// definition, the rest is rounded to seven digits.
var published = []struct {
	unit     string
	si       float64
	relative float64
}{
	{"in", 2.54e-2, 1e-15},                   // exact
	{"ft", 3.048e-1, 1e-15},                  // exact
	{"thou", 2.54e-5, 1e-15},                 // exact, "mil"
	{"mi", 1.609344e3, 1e-15},                // exact
	{"lb", 4.535924e-1, 1e-7},                //
	{"lbf", 4.448222, 1e-7},                  //
	{"lbf", 4.4482216152605, 1e-15},          // exact: 0.45359237 kg x 9.80665 m/s2
	{"kgf", 9.80665, 1e-15},                  // exact
	{"lbf·ft", 1.355818, 1e-6},               //
	{"lbf·ft", 1.3558179483314004, 1e-15},    // exact, from the definitions
	{"lbf·in", 1.129848e-1, 1e-6},            //
	{"lbf·in", 0.1129848290276167, 1e-15},    // exact, from the definitions
	{"kgf·m", 9.80665, 1e-15},                // exact
	{"kgf·cm", 9.80665e-2, 1e-15},            // exact, from the definitions
	{"lbf/in", 1.751268e2, 1e-6},             //
	{"psi", 6.894757e3, 1e-6},                //
	{"psi", 6894.75729317, 1e-11},            // from the definitions
	{"kgf/cm²", 9.80665e4, 1e-15},            // exact
	{"bar", 1e5, 1e-15},                      // exact
	{"mechanical hp", 7.456999e2, 1e-6},      // "horsepower (550 ft lbf/s)"
	{"metric hp", 7.354988e2, 1e-6},          // "horsepower (metric)"
	{"US qt", 9.463529e-4, 1e-6},             // "quart (US liquid)"
	{"imp qt", 4.54609e-3 / 4, 1e-15},        // a quarter of the imperial gallon, exact
	{"mph", 4.4704e-1, 1e-15},                // exact
	{"km/h", 2.777778e-1, 1e-6},              //
	{"rpm", 1.047198e-1, 1e-6},               //
	{"°", 1.745329e-2, 1e-6},                 //
	{"cSt", 1e-6, 1e-15},                     // exact
	{"h", 3600, 1e-15},                       // exact
	{"days", 86400, 1e-15},                   // exact
	{"years", 365.25 * 86400, 1e-15},         // Julian year of the IAU (from memory)
	{"turns", 6.283185307179586476, 1e-15},   // 2 pi
	{"km", 1000, 1e-15}, {"µm", 1e-6, 1e-15}, // SI prefixes
}

func TestPublishedFactors(t *testing.T) {
	for _, p := range published {
		u, ok := Find(p.unit)
		if !ok {
			t.Errorf("%s: not found", p.unit)
			continue
		}
		if got := u.ToSI(1); !near(got, p.si, p.relative) {
			t.Errorf("1 %s = %.16g, published %.16g", p.unit, got, p.si)
		}
	}
}

// The project's reference table, when it is there: section 4 of the mechanics
// reference lists exact factors with their derivation.
func TestReferenceTable(t *testing.T) {
	text, err := os.ReadFile("../../../shared/reference/mechanics.md")
	if err != nil {
		t.Skip("no reference folder here")
	}
	_, section, ok := strings.Cut(string(text), "**Conversions")
	if !ok {
		t.Fatal("no conversion table in the reference")
	}
	rows := regexp.MustCompile(`(?m)^\| ([a-z/ ]+) \| ([A-Za-z/ ]+) \| (\d\.[\d ]+|\d+\.\d+)`).FindAllStringSubmatch(section, -1)
	if len(rows) < 8 {
		t.Fatalf("%d rows, expected 8", len(rows))
	}
	for _, r := range rows {
		from, okFrom := Find(r[1])
		to, okTo := Find(r[2])
		want, err := strconv.ParseFloat(strings.ReplaceAll(r[3], " ", ""), 64)
		if !okFrom || !okTo || err != nil {
			t.Errorf("cannot read row %q: %v", r[0], err)
			continue
		}
		if got := to.FromSI(from.ToSI(1)); !near(got, want, 1e-11) {
			t.Errorf("1 %s = %.15g %s, reference %.15g", r[1], got, r[2], want)
		}
	}
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		si   float64
		dim  Dimension
		unit string
	}{
		{"0,3 mm", 0.0003, Length, "mm"},
		{"0.3mm", 0.0003, Length, "mm"},
		{" 12 thou ", 0.0003048, Length, "thou"},
		{"0,125 in", 0.003175, Length, "in"},
		{"1/4 in", 0.00635, Length, "in"},
		{"2 1/2 in", 0.0635, Length, "in"},
		{"-1/4\"", -0.00635, Length, "in"},
		{"5″", 0.127, Length, "in"},
		{"3 in.", 0.0762, Length, "in"},
		{"40 μm", 4e-5, Length, "µm"}, // Greek mu
		{"40 um", 4e-5, Length, "µm"},
		{"−5 °C", 268.15, Temperature, "°C"}, // minus sign U+2212
		{"90\u00a0°C", 363.15, Temperature, "°C"},
		{"90ºC", 363.15, Temperature, "°C"}, // ordinal indicator
		{"90 deg C", 363.15, Temperature, "°C"},
		{"32 °F", 273.15, Temperature, "°F"},
		{"212F", 373.15, Temperature, "°F"},
		{"10 Nm", 10, Torque, "N·m"},
		{"10 N m", 10, Torque, "N·m"},
		{"10 N-m", 10, Torque, "N·m"},
		{"10 N⋅m", 10, Torque, "N·m"},
		{"10 NM", 10, Torque, "N·m"},
		// 10 lbf ft = 13.558 N m, 88 lbf in = 9.943 N m: test pairs of the
		// mechanics reference, section 4.
		{"10 ft-lb", 13.558179483314004, Torque, "lbf·ft"},
		{"10 ft. lbs.", 13.558179483314004, Torque, "lbf·ft"},
		{"10 lb-ft", 13.558179483314004, Torque, "lbf·ft"},
		{"10 foot-pounds", 13.558179483314004, Torque, "lbf·ft"},
		{"88 in-lb", 9.94266495443027, Torque, "lbf·in"},
		{"1.0 kgf·m", 9.80665, Torque, "kgf·m"},
		{"1 kgm", 9.80665, Torque, "kgf·m"},
		{"1 kg-m", 9.80665, Torque, "kgf·m"},
		{"100 kgf·cm", 9.80665, Torque, "kgf·cm"},
		{"12 kgf", 117.6798, Force, "kgf"},
		{"25 N/mm", 25000, SpringRate, "N/mm"},
		{"12 000 km", 1.2e7, Length, "km"},
		{"1 234 567 km", 1.234567e9, Length, "km"},
		{"1234,5 km", 1.2345e6, Length, "km"},
		{"1234,567 km", 1.234567e6, Length, "km"}, // thousands would have a group of three before the comma
		{"3000 1/min", 100 * math.Pi, Rotation, "rpm"},
		{"3000 RPM", 100 * math.Pi, Rotation, "rpm"},
		{"1/2 turn", math.Pi, Angle, "turns"},
		{"12°", 12 * math.Pi / 180, Angle, "°"},
		{"900 cc", 9e-4, Volume, "ml"},
		{"1 US qt", 9.46352946e-4, Volume, "US qt"},
		{"1 imp. qt", 1.1365225e-3, Volume, "imp qt"},
		{"2 months", 2 * 365.25 * 86400 / 12, Time, "months"},
		{"50 PS", 50 * 735.49875, Power, "metric hp"},
		{"5 %", 0.05, Dimensionless, "%"},
		{"12", 12, Dimensionless, ""},
		{".5 mm", 0.0005, Length, "mm"},
		{"5. mm", 0.005, Length, "mm"},
		{"1e-3 m", 0.001, Length, "m"},
		{"+2 bar", 2e5, Pressure, "bar"},
	} {
		q, err := Parse(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if !near(q.SI, c.si, 1e-14) || q.Dim != c.dim || q.Unit != c.unit || q.Text != strings.TrimSpace(c.text) {
			t.Errorf("%q: got %+v", c.text, q)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		text           string
		offset, length int
		message, hint  string
	}{
		{"", 0, 1, "expected a number and a unit, found nothing", ""},
		{"mm", 0, 2, `expected a number before "mm"`, ""},
		{"thick", 0, 5, `expected a number, found "thick"`, `write for example "2.5 mm"`},
		{"1,234 mm", 0, 5, `"1,234" can mean two numbers`, "write 1.234 or 1234"},
		{"1,234.5 mm", 0, 7, "more than one decimal sign or separator", "write thousands without separator and one decimal point"},
		{"1.234.567 km", 0, 9, "more than one decimal sign or separator", "write thousands without separator and one decimal point"},
		{"5 furlong", 2, 7, `unknown unit "furlong"`, "units are for example mm, N, N·m, °C, km, min, ml, rpm"},
		{"5 m m", 2, 3, `unknown unit "m m"`, "units are for example mm, N, N·m, °C, km, min, ml, rpm"},
		{"12 thuo", 3, 4, `unknown unit "thuo"`, "units are for example mm, N, N·m, °C, km, min, ml, rpm"},
		{"12 thouu", 3, 5, `unknown unit "thouu"`, `did you mean "thou"?`},
		{"12 milimetres", 3, 10, `unknown unit "milimetres"`, `did you mean "mm"?`},
		{"2 qt", 2, 2, `"qt" can mean two units`, `write "US qt" or "imp qt"`},
		{"9 hp", 2, 2, `"hp" can mean two units`, `write "metric hp" (735.5 W) or "mechanical hp" (745.7 W)`},
		{"10 nm", 3, 2, `"nm" can mean two units`, `write "N·m" for a torque; nanometres are not used here`},
		{"2-3 mm", 1, 5, "expected one value, found a range", "write one quantity"},
		{"1/0 in", 0, 3, "not a fraction: 1/0", `write for example "1/4"`},
		{"0x10 mm", 0, 7, "hexadecimal numbers are not used here", ""},
		{"NaN mm", 0, 3, `expected a number, found "NaN"`, `write for example "2.5 mm"`},
		{"Inf", 0, 3, `expected a number, found "Inf"`, `write for example "2.5 mm"`},
		{"1e99 mm", 0, 4, "exponent too large", ""},
		{"99999999999999999999 mm", 0, 20, "number too large", ""},
		{strings.Repeat("1", 500), 0, 500, "too long for a quantity", ""},
	} {
		_, err := Parse(c.text)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%q: error %v", c.text, err)
			continue
		}
		if want := (Error{c.offset, c.length, c.message, c.hint}); *e != want {
			t.Errorf("%q:\n got %+v\nwant %+v", c.text, *e, want)
		}
	}
}

func TestParseAs(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dimension
		want string
	}{
		{"10 Nm", Length, `expected a length such as "2.5 mm", found a torque`},
		{"5", Length, `expected a length such as "2.5 mm", found a number without unit (units that fit: mm, cm, m, µm, in, thou, ft, km, mi)`},
		{"5 kg", Force, `expected a force such as "120 N", found a mass (for a force write kgf)`},
		{"5 mm", Angle, `expected an angle such as "12°", found a length`},
		{"5 mm", Dimension{L: 4, M: 1}, `expected a quantity in m^4 kg, found a length`},
		{"5 mm", Dimensionless, `expected a plain number such as "12", found a length`},
	} {
		if _, err := ParseAs(c.text, c.dim); err == nil || err.Error() != c.want {
			t.Errorf("%q:\n got %v\nwant %s", c.text, err, c.want)
		}
	}
	if q, err := ParseAs("2.5 mm", Length); err != nil || q.SI != 0.0025 {
		t.Errorf("got %+v, %v", q, err)
	}
}

func TestDimensions(t *testing.T) {
	if got := Force.Mul(Length); got != Torque {
		t.Errorf("force times length: %v", got)
	}
	if got := Force.Div(Length); got != SpringRate {
		t.Errorf("force per length: %v", got)
	}
	if got := Torque.Mul(Rotation).Div(Angle); got != Power {
		t.Errorf("torque times speed: %v", got)
	}
	if got := (Dimension{L: 4, T: -1}).String(); got != "m^4 s^-1" {
		t.Errorf("got %q", got)
	}
	for _, d := range dimensions {
		if q, err := ParseAs(d.example, d.dim); err != nil {
			t.Errorf("example %q of %s: %v", d.example, d.name, err)
		} else if d.dim != Dimensionless && Units(d.dim)[0].Dim != d.dim || q.Dim != d.dim {
			t.Errorf("%s: wrong dimension", d.name)
		}
	}
}

// No spelling may lead to two units, also when case is ignored; otherwise the
// order of the table would decide what a user meant.
func TestNamesAreUnique(t *testing.T) {
	for i, u := range units {
		for _, name := range append([]string{u.Symbol}, u.Names...) {
			if got, ok := Find(name); !ok || got.Symbol != u.Symbol {
				t.Errorf("%q of %s finds %q", name, u.Symbol, got.Symbol)
			}
			for j, other := range units {
				for _, o := range append([]string{other.Symbol}, other.Names...) {
					if i != j && len([]rune(name)) > 1 && matches(o, []rune(normal(name)), true) {
						t.Errorf("%q of %s also matches %s", name, u.Symbol, other.Symbol)
					}
				}
			}
		}
	}
}

// Parse never panics; an error points inside the text, a result is finite.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"0,3 mm", "2 1/2 in", "1,234", "−5 °C", "12 000 km", "1e-3 m", "9 ft. lbs.", "5 µµ", "\xff", "1/", "+", ". mm", "1e", "0x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		q, err := Parse(s)
		if err == nil {
			if math.IsNaN(q.SI) || math.IsInf(q.SI, 0) {
				t.Fatalf("%q gave %v", s, q.SI)
			}
			FormatLike(q.SI, q)
			return
		}
		var e *Error
		if !errors.As(err, &e) {
			t.Fatalf("%q: %T", s, err)
		}
		if n := len([]rune(s)); e.Offset < 0 || e.Length < 1 || e.Offset+e.Length > max(n, e.Offset+1) || e.Offset > n {
			t.Fatalf("%q (%d runes): error at %d+%d", s, n, e.Offset, e.Length)
		}
		if e.Message == "" || strings.HasSuffix(e.Message, ".") {
			t.Fatalf("%q: message %q", s, e.Message)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for range b.N {
		if _, err := Parse("12,5 kgf·cm"); err != nil {
			b.Fatal(err)
		}
	}
}
