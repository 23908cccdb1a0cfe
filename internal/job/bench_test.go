package job

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/templates"
)

// largeJob returns a sound job of so many wires between connectors of fifty cavities on a board, without them, and the wires as
// tables and as the rows of a wire table.
func largeJob(wires int) (job, tables, table string) {
	var j, w, rows strings.Builder
	j.WriteString("[job]\nnumber = \"MOR-9\"\ntitle = \"Ice-survey sled, large loom\"\npart = \"MOR-LM-9\"\nrevision = \"A\"\nissued = 2026-11-20\nquantity = 2\nlength_unit = \"mm\"\n")
	j.WriteString(stockText)
	j.WriteString("[board]\nid = \"FB-9\"\nsize = [\"2400 mm\", \"900 mm\"]\n")
	const cavities = 50
	for i := range 2 * (1 + (wires-1)/cavities) {
		fmt.Fprintf(&j, "[[node]]\nid = \"N%d\"\nat = [\"%d mm\", \"%d mm\"]\n", i, 10+i%2300, 10+i/2300)
		if i > 0 {
			fmt.Fprintf(&j, "[[segment]]\nbetween = [\"N%d\", \"N%d\"]\n", i-1, i)
		}
		fmt.Fprintf(&j, "[[connector]]\nid = \"J%d\"\npart = \"MOR-CN-50\"\ntitle = \"bay %d\"\ncavities = [\"1-%d\"]\ncontact = \"S22\"\nnode = \"N%d\"\n"+
			"tail = \"90 mm\"\nreference = \"rear face\"\nspare = \"open\"\n", i, i, cavities, i)
	}
	rows.WriteString("id,type,from,to,b.stage,b.trim,note\n")
	for i := range wires {
		from, to, cavity := 2*(i/cavities), 2*(i/cavities)+1, 1+i%cavities
		fmt.Fprintf(&w, "[[wire]]\nid = \"W%d\"\ntype = \"E22W\"\nfrom = \"J%d:%d\"\nto = \"J%d:%d\"\nb = { stage = \"board\", trim = \"20 mm\" }\nnote = \"bay %d\"\n",
			i, from, cavity, to, cavity, i)
		fmt.Fprintf(&rows, "W%d,E22W,J%d:%d,J%d:%d,board,20 mm,bay %d\n", i, from, cavity, to, cavity, i)
	}
	return j.String(), w.String(), rows.String()
}

// BenchmarkRead reads sound jobs with their wires in tables, and in a wire table beside them.
func BenchmarkRead(b *testing.B) {
	for _, wires := range []int{100, 1000, 10_000} {
		job, tables, rows := largeJob(wires)
		beside := strings.Replace(job, "[job]\n", "[job]\nwires = \"wires.csv\"\n", 1)
		for _, files := range []fuzzedFiles{{job: []byte(job + tables)}, {job: []byte(beside), wires: []byte(rows)}} {
			form := "TOML"
			if files.wires != nil {
				form = "CSV"
			}
			b.Run(fmt.Sprintf("%s/%d wires", form, wires), func(b *testing.B) {
				b.SetBytes(int64(len(files.job) + len(files.wires)))
				b.ReportAllocs()
				for b.Loop() {
					h, found, _ := Read(files.input(), templates.Files)
					require.Zero(b, found.Errors(), found[:min(3, len(found))])
					require.Len(b, h.Wires, wires)
				}
			})
		}
	}
}
