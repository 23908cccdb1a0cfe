package job

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
	"loomleaf/templates"
)

func registry(t testing.TB) Keys {
	t.Helper()
	keys, found := LoadKeys(templates.Files)
	require.Empty(t, found)
	return keys
}

// trial reads tables of one name as a job holds them, and returns what is wrong with them.
func trial(t *testing.T, of tableReader, text string) problem.List {
	t.Helper()
	return trialReader(t, of, text).found
}

func trialReader(t *testing.T, of tableReader, text string) *reader {
	t.Helper()
	header := "[" + of.name + "]\n"
	if of.repeats {
		header = "[[" + of.name + "]]\n"
	}
	tree, found := load("trial.toml", []byte(header+text+"\n"), problem.Sources{})
	require.Empty(t, found, text)
	r := &reader{unread: map[string]bool{}, unit: "mm"}
	r.each(tree, of, func(one *table) { of.read(&harness.Harness{}, one) })
	return r
}

// everything is a table with every key of the registry, and in each table of it one that no reader can know.
func everything(t *testing.T, keys keyTable, name string) string {
	t.Helper()
	lines := []string{strange + " = 1"}
	for _, one := range keys.directly(name) {
		v := valueIn(one.example, one.name)
		require.NotNil(t, v, "%s: the example does not hold the key", one.name)
		inside := strings.ReplaceAll(everythingInside(t, keys, one), "\n", ", ")
		switch {
		case one.typ == typeTable:
			lines = append(lines, one.lastPart()+" = { "+inside+" }")
		case one.holdsKeys():
			lines = append(lines, one.lastPart()+" = [{ "+inside+" }]")
		default:
			lines = append(lines, one.lastPart()+" = "+writtenAgain(v))
		}
	}
	return strings.Join(lines, "\n")
}

func everythingInside(t *testing.T, keys keyTable, one key) string {
	if !one.holdsKeys() {
		return ""
	}
	return everything(t, keys, one.name)
}

const strange = "qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqq"

// writtenAgain writes a value as TOML.
func writtenAgain(v *value) string {
	var parts []string
	switch v.kind {
	case kindText:
		return quoted(v.text)
	case kindArray:
		for _, item := range v.items {
			parts = append(parts, writtenAgain(item))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case kindTable:
		for _, e := range v.keys {
			parts = append(parts, e.name+" = "+writtenAgain(e.value))
		}
		return "{ " + strings.Join(parts, ", ") + " }"
	}
	return v.text
}

// A reader names the keys that it asks for in the hint about one that it does not.
func TestTheRegistryHoldsExactlyTheKeysThatTheReadersAskFor(t *testing.T) {
	registered := registry(t)
	var names []string
	for _, of := range tables() {
		names = append(names, of.name)
		keys, found := registered.table(of.name)
		require.True(t, found, "the registry has no table %s", of.name)
		require.Equal(t, of.repeats, keys.repeats, of.name)
		asked := map[string][]string{}
		for _, p := range trial(t, of, everything(t, keys, "")) {
			if p.Check != unknownKey {
				continue
			}
			require.Contains(t, p.Text, strange, "%s: no reader asks for a key of the registry", of.name)
			prefix, _, _ := strings.Cut(p.Text[strings.Index(p.Text, `key "`)+5:], strange)
			list, found := strings.CutPrefix(p.Hint, "the keys here are ")
			require.True(t, found, p.Hint)
			asked[strings.TrimSuffix(prefix, ".")] = strings.Split(list, ", ")
		}
		for _, name := range append(holders(keys), "") {
			var inRegistry []string
			for _, one := range keys.directly(name) {
				inRegistry = append(inRegistry, one.lastPart())
			}
			slices.Sort(inRegistry)
			slices.Sort(asked[name])
			require.Equal(t, inRegistry, asked[name], "[%s] %s", of.name, name)
		}
	}
	for _, keys := range registered.tables {
		require.True(t, keys.name == "" || contains(names, keys.name), "no reader for the table %s", keys.name)
	}
	top, _ := registered.table("")
	require.Len(t, top.keys, 1)
	require.Equal(t, "include", top.keys[0].name)
}

func holders(t keyTable) []string {
	var names []string
	for _, one := range t.keys {
		if one.holdsKeys() {
			names = append(names, one.name)
		}
	}
	return names
}

// eachKey runs a test for every key of the tables.
func eachKey(t *testing.T, test func(t *testing.T, of tableReader, one key)) {
	registered := registry(t)
	for _, of := range tables() {
		keys, _ := registered.table(of.name)
		for _, one := range keys.keys {
			t.Run(of.name+"."+one.name, func(t *testing.T) { test(t, of, one) })
		}
	}
}

func TestEveryKeyIsDescribed(t *testing.T) {
	registered := registry(t)
	seen := map[string]bool{}
	for _, keys := range registered.tables {
		require.NotEmpty(t, keys.text)
		for _, one := range keys.keys {
			name := keys.name + "." + one.name
			require.False(t, seen[name], "%s stands twice", name)
			seen[name] = true
			require.NotEmpty(t, one.text, name)
			require.True(t, strings.HasSuffix(one.text, "."), name)
			require.NotEmpty(t, one.example, name)
			require.NotEmpty(t, one.fallback, name)
			require.NotNil(t, valueIn(one.example, one.name), "%s: the example does not hold the key", name)
			if parent := strings.LastIndex(one.name, "."); parent > 0 {
				holder, found := keys.key(one.name[:parent])
				require.True(t, found && holder.holdsKeys(), name)
			}
			if one.or != "" {
				other, found := keys.key(one.or)
				require.True(t, found && other.or == one.name, name)
			}
			if one.hasDefault() {
				require.NotNil(t, valueIn("x = "+one.fallback, "x"), name)
			}
			knownType(t, registered, one)
		}
	}
	for _, typ := range registered.types {
		require.NotEmpty(t, typ.json, typ.name)
	}
}

func knownType(t *testing.T, registered Keys, one key) {
	held := one.typ
	switch one.typ {
	case typeTable, typeTables:
		require.Empty(t, one.of, one.name)
		return
	case typeList, typeByCavity:
		held = one.of
	default:
		require.Equal(t, one.also == typeList, one.of != "", one.name)
	}
	require.NotEmpty(t, registered.kind(held).form, "%s has the type %q, which the registry does not hold", one.name, held)
	require.Equal(t, held == "choice", len(one.choices) > 0, one.name)
	require.Equal(t, held == "whole number", one.to > 0, one.name)
}

// What an example lacks stands in the header's line above it; what it gets wrong, in its own.
func TestReadersAcceptEveryExample(t *testing.T) {
	eachKey(t, func(t *testing.T, of tableReader, one key) {
		for _, p := range trial(t, of, strings.Join(one.lines(), "\n")) {
			require.Equal(t, 1, p.Place.Line, p.Text)
		}
	})
}

// A reader notes each key that it misses.
func TestReadersRequireWhatTheRegistrySaysIsRequired(t *testing.T) {
	registered := registry(t)
	for _, of := range tables() {
		keys, _ := registered.table(of.name)
		for _, name := range append(holders(keys), "") {
			text := ""
			if holder, inner := keys.key(name); inner {
				text = emptied(holder)
			}
			missed := trialReader(t, of, text).unread
			for _, one := range keys.directly(name) {
				either := missed[of.name+"."+one.name] || one.or != "" && missed[of.name+"."+one.or]
				switch {
				case one.fallback == isRequired:
					require.True(t, either, "%s.%s is not required", of.name, one.name)
				case either:
					fromShop := one.hasDefault() || one.fallback == isInside
					require.True(t, fromShop || one.absent == "error", "%s.%s is required", of.name, one.name)
				}
			}
			for other := range missed {
				_, known := keys.key(strings.TrimPrefix(other, of.name+"."))
				require.True(t, known, "%s is required, and not in the registry", other)
			}
		}
	}
}

// emptied writes a key with an empty table in it.
func emptied(holder key) string {
	parts := strings.Split(holder.name, ".")
	text := "{ }"
	if holder.typ != typeTable {
		text = "[{ }]"
	}
	return strings.Join(parts, ".") + " = " + text
}

func TestChoicesAreThoseThatTheReadersAccept(t *testing.T) {
	eachKey(t, func(t *testing.T, of tableReader, one key) {
		if len(one.choices) == 0 {
			return
		}
		for _, choice := range one.choices {
			for _, p := range trial(t, of, putIn(t, one, quoted(choice))) {
				require.NotEqual(t, badWord, p.Check, "%q: %s", choice, p.Text)
			}
		}
		for _, p := range trial(t, of, putIn(t, one, quoted(strange))) {
			if p.Check == badWord {
				require.Equal(t, "write "+alternatives(one.choices), p.Hint)
				return
			}
		}
		require.Fail(t, "any word is accepted")
	})
}

// putIn writes the example of a key with another value.
func putIn(t *testing.T, one key, written string) string {
	v := valueIn(one.example, one.name)
	require.NotNil(t, v)
	was := writtenAgain(v)
	if one.typ == typeList {
		was, written = "["+strings.TrimPrefix(was, "["), "["+written+"]"
	}
	last := strings.LastIndex(one.example, one.lastPart()+" = "+was)
	require.GreaterOrEqual(t, last, 0, "%s in %s", was, one.example)
	start := last + len(one.lastPart()+" = ")
	return one.example[:start] + written + one.example[start+len(was):]
}

func TestBoundsAreThoseThatTheReadersKeep(t *testing.T) {
	eachKey(t, func(t *testing.T, of tableReader, one key) {
		if one.to == 0 {
			return
		}
		for _, p := range trial(t, of, putIn(t, one, "-1")) {
			if p.Check == outOfRange {
				require.Equal(t, "write a number "+one.bounds(), p.Hint)
				return
			}
		}
		require.Fail(t, "any number is accepted")
	})
}

func shopText(t *testing.T) []byte {
	t.Helper()
	text, err := templates.Files.ReadFile("shop.toml")
	require.NoError(t, err)
	return text
}

func TestDefaultsAreThoseOfTheShopFile(t *testing.T) {
	registered := registry(t)
	shop, found := load("shop.toml", shopText(t), problem.Sources{})
	require.Empty(t, found)
	inShop := map[string]string{}
	var collect func(v *value, path string)
	collect = func(v *value, path string) {
		for _, e := range v.keys {
			if e.value.kind == kindTable {
				collect(e.value, path+e.name+".")
				continue
			}
			inShop[path+e.name] = e.written
		}
	}
	collect(shop, "")
	require.NotEmpty(t, inShop)
	for _, e := range shop.keys {
		keys, known := registered.table(e.name)
		require.True(t, known, e.name)
		for _, one := range keys.keys {
			path := e.name + "." + one.name
			written, set := inShop[path]
			delete(inShop, path)
			switch {
			case set:
				require.Equal(t, written, one.fallback, path)
			case one.fallback == isInside:
				require.NotEmpty(t, keys.directly(one.name), path)
			case one.hasDefault():
				require.Equal(t, "false", one.fallback, path) // what is not said is not there
			}
		}
	}
	require.Empty(t, inShop, "a default of the shop file is in no table of the registry")
}

func TestARegistryThatIsMissingOrWrongIsReported(t *testing.T) {
	_, found := LoadKeys(fstest.MapFS{})
	require.Equal(t, includeMissing, found[0].Check)
	_, found = LoadKeys(fstest.MapFS{"keys.toml": {Data: []byte("[[table]]\nname = \"x\"\n")}})
	require.Equal(t, missingKey, found[0].Check)
	_, found = LoadKeys(fstest.MapFS{"keys.toml": {Data: []byte("[[table")}})
	require.Equal(t, syntaxFault, found[0].Check)
}

// Units and words that a pattern of the registry takes are those that the readers take.
func TestPatternsTakeWhatTheReadersTake(t *testing.T) {
	registered := registry(t)
	samples := []string{"1 mm", "1mm", " 1.5 cm ", ".5 m", "-1 in", "+1 ft", "1 um", "1 µm", "1 μm", "1", "mm", "1 yd", "1,5 mm", "5. mm", "1 mm2", "1 mm²", "-1 mm2",
		"1 mg", "1 g", "1 kg", "1 lb", "1 t", "1 mg/m", "1 g/m", "1 kg/km", "1 lb/1000 ft", "1 lb/1000ft", "1 lb/ft", "1 ms", "1 s", "1 min", "1 h", "1 d",
		"1 mm/s", "1 m/s", "1 m/min", "1 km/h", "1 %", "1 ppm", "1 per mille", "1 deg", "-1 deg", "1 °", "1 rad", "1 W/m2", "1 W/m²", "1 mW/m2", "1 uW/cm2",
		"1 mW/cm2", "1 W/cm2", "1 W", "1 N", "1 mN", "1 kN", "1 lbf", "-1 N", "1 kgf", "", "0000", "0", "4/0", "5/0", "1/0", "40", "41", "22", "022", "?", "WH", "WH/BU", "WH/BU/RD", "WH/BU/RD/GN", "GNYE", "WHT", "wh"}
	taken := func(err error) bool { return err == nil }
	for name, reads := range map[string]func(string) bool{
		"length":          func(s string) bool { _, err := units.ParseLength(s); return taken(err) },
		"cross-section":   func(s string) bool { _, err := units.ParseArea(s); return taken(err) },
		"mass":            func(s string) bool { _, err := units.ParseMass(s); return taken(err) },
		"mass per length": func(s string) bool { _, err := units.ParseLinearMass(s); return taken(err) },
		"time":            func(s string) bool { _, err := units.ParseTime(s); return taken(err) },
		"speed":           func(s string) bool { _, err := units.ParseSpeed(s); return taken(err) },
		"share":           func(s string) bool { _, err := units.ParseShare(s); return taken(err) },
		"force":           func(s string) bool { _, err := units.ParseForce(s); return taken(err) },
		"angle":           func(s string) bool { _, err := units.ParseAngle(s); return taken(err) },
		"irradiance":      func(s string) bool { _, err := units.ParseIrradiance(s); return taken(err) },
		"gauge":           func(s string) bool { _, listed := handbook.WireSizeOf(s); return listed },
		"colour":          func(s string) bool { _, listed := handbook.ColourOf(s); return listed },
		"legend":          func(s string) bool { return legendIsFine(t, s) },
		"file name":       fitsFileName,
	} {
		pattern := compiled(t, registered.kind(name).pattern)
		for _, sample := range append(samples, "{wire}", "{wire", "x {serial} y", "{wires}", "}", "a.b", ".a", "a.", strings.Repeat("a", 41)) {
			if (name == "legend" || name == "file name") && sample == "" {
				continue // refused as empty
			}
			require.Equal(t, reads(sample), pattern.MatchString(sample), "%s: %q", name, sample)
		}
	}
}

func legendIsFine(t *testing.T, text string) bool {
	r := &reader{unread: map[string]bool{}}
	f, _ := newFile("x", nil)
	return r.open("marks", &value{file: f, kind: kindTable}).fineLegend("legend", text, problem.Place{}, legendWords())
}

// missedBy names the checks that report the key where it is missing.
func (k key) missedBy() []string {
	if len(k.checks) == 0 {
		return []string{missingKey}
	}
	return k.checks
}

// holdsKeys reports a key with other keys inside.
func (k key) holdsKeys() bool {
	return k.typ == typeTable || k.typ == typeTables || k.also == typeTables
}
