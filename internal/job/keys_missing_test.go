package job

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// readWithout reads a job after every value of a key was taken out of it and out of what it includes, and, where put is not nil,
// written into the first of its tables. It says how many were taken out; a job that has none is not read.
func readWithout(t *testing.T, in Input, table, key string, put *value) (h *harness.Harness, found problem.List, taken int) {
	t.Helper()
	sources := problem.Sources{}
	root, found := load(in.Name, in.Text, sources)
	require.Empty(t, found)
	included, found := loadIncluded(in, root, sources)
	require.Empty(t, found)
	for _, tree := range append([]*value{root}, included...) {
		if e := tree.find(table); e != nil {
			taken += takeOut(e.value, strings.Split(key, "."))
		}
	}
	if put != nil {
		e := root.find(table)
		require.NotNil(t, e, table)
		putInto(e.value, strings.Split(key, "."), put)
	}
	if taken == 0 && put == nil && key != "" {
		return nil, nil, 0
	}
	built, found := loadTemplates(templates.Files, sources)
	require.Empty(t, found)
	merged, found := merge(root, included, built.shop)
	require.Empty(t, found)
	h, found = read(merged, built, nil)
	return h, found, taken
}

func takeOut(v *value, path []string) int {
	taken := 0
	for _, item := range v.items {
		taken += takeOut(item, path)
	}
	e := v.find(path[0])
	switch {
	case e == nil:
	case len(path) > 1:
		taken += takeOut(e.value, path[1:])
	default:
		keys := slices.DeleteFunc(slices.Clone(v.keys), func(e entry) bool { return e.name == path[0] })
		v.keys, v.index = nil, nil
		for _, left := range keys {
			v.add(left)
		}
		taken++
	}
	return taken
}

func putInto(v *value, path []string, put *value) {
	if v.kind == kindArray {
		v = v.items[0]
	}
	if len(path) > 1 {
		if v.find(path[0]) == nil {
			v.add(entry{name: path[0], value: &value{file: v.file, kind: kindTable}})
		}
		putInto(v.find(path[0]).value, path[1:], put)
		return
	}
	v.add(entry{name: path[0], value: put})
}

const moreKeys = `
[[terminal]]
id = "E2"
kind = "ferrule"
part = "MOR-FE-1"
node = "N2"
tail = "10 mm"
strip = "8 mm"

[[wire]]
id = "W16"
type = "E22W"
from = "capped@N1"
to = "leaves@N2"
a = { free = 30 }
b = { free = 30 }

[line]
mounted = "R1"

[policy]
chains = [["J1", "P1"]]
order = "free"

[inspection]
exclude = [{ at = ["J1"], why = "heater inside" }]
sampling = [{ what = "mark", lot = 500, level = "II", aql = "1.0" }]

[paper]
labels = "a4-2x5"

[[label_stock]]
id = "own"
paper = "a4"
width = "90 mm"
height = "50 mm"
columns = 2
rows = 5
left = "10 mm"
top = "10 mm"
pitch = ["95 mm", "52 mm"]

[[label_stock]]
id = "own-roll"
paper = "roll"
width = "100 mm"
height = "60 mm"
gap = "3 mm"

[safety]
deference = ["Ask the shift leader before any cover is opened."]
lamp = { ozone = true, mercury = true }
quote = [{ what = "laser class", value = "1", source = "manual of the laser, page 4" }]
measured = [{ what = "curing lamp", nm = 365, irradiance = "10 W/m2", by = "UV lead", on = 2026-11-02, at = "operator" }]
measured_ozone = [{ what = "air", ppm = 0.05, by = "UV lead", on = 2026-11-02, at = "operator" }]
`

// elsewhere lists keys that stand in no full job: those that name other files, and a contact that no terminal takes.
func elsewhere() []string {
	return []string{"job.wires", "policy.keep", "paper.leave_out", "paper.sides", "safety.wording", "cable.a.pigtail.contact", "cable.b.pigtail.contact"}
}

// fullJobs are jobs without errors in which, together, every key stands that can do without.
func fullJobs(t *testing.T) []Input {
	t.Helper()
	full := goodText + constructsText + moreKeys
	for behind, put := range map[string]string{
		`supply = "existing"`: `length = "2 m"
a = { jacket_off = "10 mm", shield = "through" }
b = { jacket_off = "10 mm", shield = "pigtail", pigtail = { type = "E24B", length = "80 mm", to = "E2", strip = "7 mm" } }`,
		`cavities = ["centre"]`:     `face = "drawing"` + "\n" + `places = { centre = ["0 mm", "0 mm"] }` + "\n" + `seen_from = "wire side"`,
		`length = 1432.5`:           `a = { covered = 9, tail_extra = 10, note = "double crimp" }` + "\n" + "b = { tail_extra = 10, retermination = 1 }",
		`length = "510 mm"`:         `cover = [{ part = "MOR-BR-6", from = 0, to = "300 mm", wall = "0.5 mm" }]`,
		`at = ["100 mm", "100 mm"]`: "fixing = true", `fits = ["0.9 mm", "1.9 mm"]`: `length = "12 mm"`, `mass = "5.24 g/m"`: `strip_by = "thermal"` + "\n" + `substitutes = [{ type = "E22X", approved = "deviation MOR-DV-7" }]`,
		`mass = "19 g/m"`: `strip_by = "blade"`, `part = "MOR-CN-5P"`: `arrangement = "5 in a row"`, `slide_on_first = ["sleeve HS-6"]`: `pull = "machined"
crimp = [{ awg = [20, 26], tool = "crimp tool 6", locator = "green", setting = "2", pull = "40 N" }]`,
		`lay = "25 mm"`:          `pitch = "1.4 mm"`,
		`length_is = "finished"`: `tolerance = { longer = 10, shorter = 0 }`,
	} {
		require.Contains(t, full, behind)
		full = strings.Replace(full, behind, behind+"\n"+put, 1)
	}
	full = strings.Replace(full, "[[reel]]", `[[wire_type]]
id = "E22X"
part = "MOR-CW-22-9X"
awg = 22
colour = "WH/BU"
diameter = 1.2
laser = "no"

[[reel]]`, 1)
	for was, is := range map[string]string{`tool = "crimp tool 5"`: `tool = "crimp tool 5", pull = "40 N", locator = "yellow"`, `tool = "crimp tool 4"`: `tool = "crimp tool 4", pull = "40 N"`,
		`to = "E1" } }`: `to = "E1", strip = "7 mm" } }`} {
		require.Contains(t, full, was)
		full = strings.Replace(full, was, is, 1)
	}
	jobs := []Input{input(full)}
	for _, folder := range []string{"sled", "sled-small"} {
		text, err := os.ReadFile(filepath.Join("../../testdata/jobs", folder, "job.toml"))
		require.NoError(t, err)
		jobs = append(jobs, Input{Name: folder + "/job.toml", Text: text, Open: func(path string) ([]byte, error) {
			return os.ReadFile(filepath.Join("../../testdata/jobs", folder, path))
		}})
	}
	return jobs
}

// outcome names what a list of problems says, without the places.
func outcome(found problem.List) map[string]bool {
	said := map[string]bool{}
	for _, p := range found {
		said[p.Severity.String()+" "+p.Check] = true
	}
	return said
}

// consequences names what a missing key may lead to by the registry: of a table that of the keys inside as well.
func consequences(keys keyTable, one key) []string {
	var said []string
	for _, k := range append(keys.within(one.name), one) {
		if k.absent != "" {
			for _, check := range k.missedBy() {
				said = append(said, k.absent+" "+check)
			}
		}
	}
	return said
}

// What nobody must write can be left out of every job, and leads to what the registry says and to nothing else.
func TestAMissingKeyLeadsToWhatTheRegistrySays(t *testing.T) {
	jobs := fullJobs(t)
	registered := registry(t)
	before := make([]map[string]bool, len(jobs))
	for i, in := range jobs {
		_, found, _ := readWithout(t, in, "job", "", nil)
		require.Zero(t, found.Errors(), "%v", outcome(found))
		before[i] = outcome(found)
	}
	eachKey(t, func(t *testing.T, of tableReader, one key) {
		if one.fallback == isRequired || one.fallback == isInside || one.hasDefault() { // what a default leads to depends on the rest of the job
			return
		}
		keys, _ := registered.table(of.name)
		seen, stands := map[string]bool{}, false
		for i, in := range jobs {
			_, found, taken := readWithout(t, in, of.name, one.name, nil)
			stands = stands || taken > 0
			for said := range outcome(found) {
				mild := strings.HasPrefix(said, "warning ") && one.absent == "error" // what else an error brings along
				if seen[said] = true; !before[i][said] && !mild {
					require.Contains(t, consequences(keys, one), said, in.Name)
				}
			}
		}
		require.True(t, stands || contains(elsewhere(), of.name+"."+one.name), "no job has the key")
		if one.absent == "" {
			return
		}
		require.NotEmpty(t, one.where)
		for _, check := range one.missedBy() {
			said := one.absent + " " + check
			require.True(t, seen[said] || saidByFaultyJob(t, one, check, said), "nothing says %q", said)
		}
	})
}

// saidByFaultyJob looks for a faulty job that is faulty for want of the key.
func saidByFaultyJob(t *testing.T, one key, check, said string) bool {
	for _, bad := range badJobs(t) {
		if bad.check != check {
			continue
		}
		_, found, _ := Read(bad.input(t), templates.Files)
		if outcome(found)[said] && slices.ContainsFunc(found, func(p problem.Problem) bool { return strings.Contains(p.Text+p.Hint, one.lastPart()) }) {
			return true
		}
	}
	return false
}

// contents is a harness without places.
func contents(t *testing.T, h *harness.Harness) string {
	t.Helper()
	text, err := json.Marshal(h)
	require.NoError(t, err)
	var v any
	require.NoError(t, json.Unmarshal(text, &v))
	var strip func(v any)
	strip = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			delete(v, "At")
			delete(v, "Keys")
			for _, member := range v {
				strip(member)
			}
		case []any:
			for _, item := range v {
				strip(item)
			}
		}
	}
	strip(v)
	text, err = json.Marshal(v)
	require.NoError(t, err)
	return string(text)
}

// Other defaults than those of the shop file: a job with the key and one without it say the same.
func TestDefaultsOfTheReadersAreThoseOfTheRegistry(t *testing.T) {
	in := fullJobs(t)[0]
	shop, found := load("shop.toml", shopText(t), problem.Sources{})
	require.Empty(t, found)
	asWritten, _, _ := readWithout(t, in, "job", "", nil)
	compared := 0
	eachKey(t, func(t *testing.T, of tableReader, one key) {
		if e := shop.find(of.name); !one.hasDefault() || e != nil && e.value.find(one.name) != nil {
			return
		}
		if holder, inner, nested := strings.Cut(one.name, "."); nested && shop.find(of.name) != nil && shop.find(of.name).value.find(holder) != nil {
			require.NotNil(t, shop.find(of.name).value.find(holder).value.find(inner))
			return
		}
		compared++
		left, found, taken := readWithout(t, in, of.name, one.name, nil)
		require.Zero(t, found.Errors(), "%v", outcome(found))
		if taken == 0 {
			left = asWritten
		}
		put, found, _ := readWithout(t, in, of.name, one.name, valueIn("x = "+one.fallback, "x"))
		require.Zero(t, found.Errors(), "%v", outcome(found))
		require.Equal(t, contents(t, left), contents(t, put))
	})
	require.Equal(t, 13, compared)
}
