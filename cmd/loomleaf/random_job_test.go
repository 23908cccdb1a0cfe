package main

import (
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

// randomJob writes the text of a job that is legal by construction: connectors with every kind of face, joints, cables, twists,
// a board with or without loops, reels, units, small trays, both papers and both languages.
type randomJob struct {
	t       *rapid.T
	b       strings.Builder
	nodes   int
	free    []string // cavities that no wire reaches yet
	wires   int
	units   int
	serials bool
	long    bool // connectors have longer names, and serials no letters: a tray label holds ten of both
	board   bool
}

func (r *randomJob) say(format string, values ...any) { fmt.Fprintf(&r.b, format+"\n", values...) }

func (r *randomJob) upTo(least, most int, what string) int {
	return rapid.IntRange(least, most).Draw(r.t, what)
}

func (r *randomJob) oneIn(n int, what string) bool { return r.upTo(1, n, what) == 1 }

func (r *randomJob) one(what string, of ...string) string {
	return rapid.SampledFrom(of).Draw(r.t, what)
}

// randomJobText draws a job.
func randomJobText(t *rapid.T) string {
	r := &randomJob{t: t, board: rapid.IntRange(0, 5).Draw(t, "board") > 0}
	r.head()
	r.stock()
	r.boardTables()
	for i := range r.connectors() {
		r.connector(i + 1)
	}
	r.joints()
	r.cables()
	r.twists()
	r.plainWires()
	return r.b.String()
}

// connectors draws how many there are: mostly few, one now and then, many seldom.
func (r *randomJob) connectors() int {
	switch r.upTo(0, 9, "many") {
	case 0:
		return 1
	case 1:
		return r.upTo(8, 14, "connectors")
	}
	return r.upTo(2, 7, "connectors")
}

func (r *randomJob) head() {
	r.units = r.upTo(1, 7, "units")
	r.say("[job]\nnumber = \"MOR-%d\"\ntitle = %q\npart = \"MOR-LM-%d\"\nrevision = %q\nissued = 2026-11-20\nlength_is = \"cut\"", r.upTo(1, 9999, "number"),
		r.one("title", "Ice-survey sled", "Ice-survey sled, instrument loom with the mast branch and its heaters"), r.upTo(1, 999, "part"), r.one("revision", "A", "B12"))
	if r.oneIn(2, "class is given") {
		r.say("class = %d", r.upTo(1, 3, "class"))
	}
	r.long = r.oneIn(3, "long names")
	if r.serials = r.oneIn(2, "serials"); r.serials {
		var serials []string
		prefix := r.one("serial", "", "S-")
		if r.long {
			prefix = ""
		}
		for i := range r.units {
			serials = append(serials, fmt.Sprintf("%q", fmt.Sprintf("%s%03d", prefix, 41+i)))
		}
		r.say("serials = [%s]", strings.Join(serials, ", "))
	} else {
		r.say("quantity = %d", r.units)
	}
	paper := r.one("paper", "a4", "letter")
	stocks := map[string][]string{"a4": {"a4-2x5", "a4-2x4", "roll-100x60"}, "letter": {"letter-2x5", "letter-2x3", "roll-100x60"}}
	r.say("[paper]\nsize = %q\nlabels = %q\nlanguage = [%s]", paper, r.one("labels", stocks[paper]...), r.one("language", `"en"`, `"en", "de"`, `"de"`, `"de", "en"`))
	r.say("[tray]\nwires = %d", r.upTo(8, 60, "tray"))
	r.say("[policy]\nhome = %q\norder = %q\nunits = %q\nbatch = %d", r.one("home", "end-a", "board-order", "fewest-changes"), r.one("order", "board", "free"),
		r.one("units together", "together", "one by one"), r.upTo(1, 5, "batch"))
	r.say("[inspection]\nsamples = %d", r.upTo(1, 4, "samples"))
	if r.oneIn(3, "sampling") {
		r.say("sampling = [{ what = \"mark\", lot = 108, level = \"II\", aql = \"1.0\" }]")
	}
}

// stock writes wire types of two gauges, their reels, a contact, a cable type and sleeves.
func (r *randomJob) stock() {
	for i, colour := range []string{"WH", "BK", "RD", "WH/BU", "YE", "BN/WH/RD"} {
		id := fmt.Sprintf("E%d%s", 22, strings.ReplaceAll(colour, "/", ""))
		how := `laser = "yes"`
		if i%2 == 1 {
			how = r.one("mark", `laser = "no"`, `laser = "test first"`)
		}
		if colour == "BK" {
			how = `laser = "no"`
		}
		r.say("[[wire_type]]\nid = %q\npart = \"MOR-CW-%d\"\nname = \"hook-up wire\"\nawg = 22\ncolour = %q\ndiameter = \"1.27 mm\"\ninsulation = \"ETFE\"\n%s\nmass = \"5.2 g/m\"", id, i, colour, how)
		for k := range r.upTo(0, 2, "reels") {
			r.say("[[reel]]\nid = \"R%d-%d\"\ntype = %q\nleft = \"%d m\"\nlot = \"A%d\"\nplace = \"rack %d\"", i, k, id, r.upTo(5, 300, "left"), 7000+i, k)
		}
	}
	r.say("[[contact]]\nid = \"S22\"\npart = \"MOR-CT-22S\"\nkind = \"crimp\"\nawg = [20, 28]\ninsulation = [\"0.76 mm\", \"1.9 mm\"]\nbarrel = \"5 mm\"\nstrip = \"4 mm\"\npull = \"machined\"\ninsert_tool = \"insertion tool 22\"\n" +
		"crimp = [{ awg = [20, 28], tool = \"crimp tool 4\", locator = \"blue\", setting = \"3\" }]")
	r.say("[[cable_type]]\nid = \"TSP22\"\npart = \"MOR-CA-22-2S\"\nname = \"twisted pair, shielded\"\ncolour = \"WH\"\ndiameter = \"3.4 mm\"\ninsulation = \"ETFE\"\nshield = \"braid\"\nlaser = \"yes\"\nmass = \"19 g/m\"\n" +
		"cores = [{ id = \"1\", awg = 22, colour = \"WH\", diameter = \"1.27 mm\" }, { id = \"2\", awg = 22, colour = \"WH/BU\", diameter = \"1.27 mm\" }]")
	r.say("[[cable_type]]\nid = \"TRI22\"\npart = \"MOR-CA-22-3\"\nname = \"three cores, no shield\"\ncolour = \"GY\"\ndiameter = \"4.1 mm\"\ninsulation = \"ETFE\"\nlaser = \"no\"\nmass = \"21 g/m\"\n" +
		"cores = [{ id = \"1\", awg = 22, colour = \"WH\", diameter = \"1.27 mm\" }, { id = \"2\", awg = 22, colour = \"BK\", diameter = \"1.27 mm\" }, { id = \"3\", awg = 22, colour = \"RD\", diameter = \"1.27 mm\" }]")
	r.say("[[sleeve]]\npart = \"MOR-SL-2\"\nfits = [\"1 mm\", \"4 mm\"]")
}

// boardTables writes a row of nodes; now and then a second way closes a loop.
func (r *randomJob) boardTables() {
	if !r.board {
		return
	}
	r.nodes = r.upTo(2, 9, "nodes")
	r.say("[board]\nid = \"FB-1\"\nsize = [\"3000 mm\", \"900 mm\"]")
	for i := range r.nodes {
		r.say("[[node]]\nid = \"N%d\"\nat = [\"%d mm\", \"%d mm\"]", i+1, 100+300*i, 300+100*r.upTo(0, 3, "y"))
	}
	for i := 1; i < r.nodes; i++ {
		cover := ""
		if r.oneIn(4, "cover") {
			cover = "\ncover = [{ part = \"MOR-BR-6\", from = \"0 mm\", to = \"200 mm\" }]"
		}
		r.say("[[segment]]\nbetween = [\"N%d\", \"N%d\"]%s", i, i+1, cover)
	}
	if r.nodes > 3 && r.oneIn(3, "loop") {
		r.say("[[segment]]\nbetween = [\"N1\", \"N%d\"]\nlength = \"%d mm\"", r.nodes, 300*r.nodes+500)
	}
}

func (r *randomJob) place() string {
	if !r.board {
		return ""
	}
	return fmt.Sprintf("\nnode = \"N%d\"\ntail = \"%d mm\"\nreference = \"rear face\"\nto_barrel = \"6 mm\"", r.upTo(1, r.nodes, "node"), r.upTo(40, 300, "tail"))
}

// connector writes a connector with a face of some kind and remembers its cavities.
func (r *randomJob) connector(number int) {
	id := fmt.Sprintf("%s%d", r.one("prefix", "J", "P"), number)
	if r.long {
		id = fmt.Sprintf("MAST-J%d", number)
	}
	count := r.one("cavities", "3", "9", "15", "25", "37", "50", "61", "128")
	var n int
	fmt.Sscan(count, &n)
	spare := r.one("spare", "seal", "open", "contact and seal")
	r.say("[[connector]]\nid = %q\npart = \"MOR-CN-%d\"\ntitle = %q\ncavities = [\"1-%d\"]\ncontact = \"S22\"\nseal = \"sealing plug, size 22\"\nspare = %q%s", id, n,
		r.one("name", "main data module", "heater", "mast electronics, upper deck, second bay"), n, spare, r.place())
	r.face(n)
	if r.oneIn(2, "slide on") {
		r.say("slide_on_first = [\"backshell BS-%d\", \"boot BT-3\"]\nafter = [{ step = \"tighten backshell\", value = \"per drawing\" }, { step = \"fit dust cap\" }]", n)
	}
	for i := range n {
		r.free = append(r.free, fmt.Sprintf("%s:%d", id, i+1))
	}
}

func (r *randomJob) face(n int) {
	kind, side := r.one("face", "schematic", "rows", "rings", "places"), r.one("side", "mating side", "wire side")
	if kind == "places" && n > 61 {
		kind = "rows"
	}
	if kind == "schematic" {
		r.say("face = \"schematic\"")
		return
	}
	r.say("face = \"drawing\"\ngender = \"socket\"\nkey = \"up\"\norder = %q", r.one("insertion", "centre out", "by row", "listed"))
	switch kind {
	case "rows":
		rows := 1 + n/13
		var texts []string
		for i, from := 0, 1; i < rows; i++ {
			to := n * (i + 1) / rows
			texts = append(texts, fmt.Sprintf("\"%d-%d\"", from, to))
			from = to + 1
		}
		r.say("rows = [%s]\nseen_from = %q", strings.Join(texts, ", "), side)
	case "rings":
		var counts []string
		for rest, ring := n, 0; rest > 0; ring++ {
			take := min(rest, ringOf(rest))
			counts, rest = append(counts, fmt.Sprint(take)), rest-take
		}
		r.say("rings = { counts = [%s], start = \"%d deg\", direction = %q, seen_from = %q }", strings.Join(counts, ", "), r.upTo(0, 40, "start"),
			r.one("direction", "clockwise", "anticlockwise"), side)
	case "places":
		var places []string
		for i := range n {
			places = append(places, fmt.Sprintf("%d = [\"%d mm\", \"%d mm\"]", i+1, 3*(i%9), 3*(i/9)))
		}
		r.say("places = { %s }\nseen_from = %q", strings.Join(places, ", "), side)
	}
}

// ringOf returns how many cavities the outer ring of an insert takes.
func ringOf(n int) int {
	most := 1
	for ring, sum := 0, 1; sum < n; {
		ring++
		sum += 6 * ring
		most = 6 * ring
	}
	return most
}

// take returns a free cavity, or "" where there is none.
func (r *randomJob) take() string {
	if len(r.free) == 0 {
		return ""
	}
	i := r.upTo(0, len(r.free)-1, "cavity")
	at := r.free[i]
	r.free = append(r.free[:i], r.free[i+1:]...)
	return at
}

// wire writes a wire between two ends and returns its id; more are further keys.
func (r *randomJob) wire(from, to, more string) string {
	r.wires++
	id := fmt.Sprintf("%s%03d", r.one("id", "W", "W", "SLED-W", "SLEDGE-W"), r.wires)
	switch {
	case !r.board:
		more += fmt.Sprintf("\nlength = \"%d mm\"", r.upTo(150, 4000, "length"))
	case !strings.Contains(more, "cable = ") && r.oneIn(10, "given all the same"): // longer than any way over the board
		more += fmt.Sprintf("\nlength = \"%d mm\"", r.upTo(9000, 12000, "length"))
	}
	r.say("[[wire]]\nid = %q\nfrom = %q\nto = %q%s", id, from, to, more)
	return id
}

func (r *randomJob) wireType() string {
	return "\ntype = \"" + r.one("type", "E22WH", "E22BK", "E22RD", "E22WHBU", "E22YE", "E22BNWHRD") + "\""
}

func (r *randomJob) joints() {
	for i := range r.upTo(0, 2, "splices") {
		a, b, c := r.take(), r.take(), r.take()
		if c == "" {
			return
		}
		id := fmt.Sprintf("SP%d", i+1)
		ids := []string{r.wire(a, id, r.wireType()), r.wire(b, id, r.wireType()), r.wire(id, c, r.wireType())}
		node := ""
		if r.board {
			node = fmt.Sprintf("\nnode = \"N%d\"", r.upTo(1, r.nodes, "node"))
		}
		r.say("[[splice]]\nid = %q\npart = \"MOR-SP-3\"%s\nsides = [[%q, %q], [%q]]\nstage = %q\nawg = [20, 28]\nstrip = \"7 mm\"\nbarrel = \"8 mm\"\nslide_on_first = [\"sleeve HS-6, 40 mm\"]",
			id, node, ids[0], ids[1], ids[2], r.one("stage", "bench", "board"))
	}
	for i := range r.upTo(0, 2, "terminals") {
		from := r.take()
		if from == "" {
			return
		}
		id := fmt.Sprintf("E%d", i+1)
		r.wire(from, id, r.wireType())
		r.say("[[terminal]]\nid = %q\npart = \"MOR-RG-M5\"\nkind = \"ring M5\"%s\nawg = [16, 28]\nbarrel = \"6 mm\"\nstrip = \"7 mm\"\npull = \"lug\"\ncrimp = [{ awg = [16, 28], tool = \"crimp tool 5\", setting = \"red\" }]",
			id, strings.Split(strings.ReplaceAll(r.place(), "\nreference = \"rear face\"\nto_barrel = \"6 mm\"", ""), "\nreference")[0])
	}
}

// three returns three free cavities of each of two connectors, or none.
func (r *randomJob) three() (from, to []string) {
	for _, at := range r.free {
		name, _, _ := strings.Cut(at, ":")
		first, _, _ := strings.Cut(append(from, at)[0], ":")
		switch {
		case name == first && len(from) < 3:
			from = append(from, at)
		case name != first && len(from) < 3:
			from = []string{at}
		case name != first:
			second, _, _ := strings.Cut(append(to, at)[0], ":")
			if name != second {
				to = nil
			}
			to = append(to, at)
		}
		if len(to) == 3 {
			r.free = slices.DeleteFunc(r.free, func(one string) bool { return slices.Contains(from, one) || slices.Contains(to, one) })
			return from, to
		}
	}
	return nil, nil
}

func (r *randomJob) cables() {
	for i := range r.upTo(0, 2, "cables") {
		from, to := r.three()
		if to == nil {
			return
		}
		id := fmt.Sprintf("C%d", i+1)
		length := ""
		if !r.board {
			length = "\nlength = \"1800 mm\""
		}
		board := r.board
		r.board = true // cores have no length of their own
		r.wire(from[0], to[0], fmt.Sprintf("\ncable = %q\ncore = \"1\"", id))
		r.wire(from[1], to[1], fmt.Sprintf("\ncable = %q\ncore = \"2\"", id))
		if r.oneIn(3, "no shield") {
			r.wire(from[2], to[2], fmt.Sprintf("\ncable = %q\ncore = \"3\"", id))
			r.board = board
			r.say("[[cable]]\nid = %q\ntype = \"TRI22\"%s\na = { jacket_off = \"60 mm\" }\nb = { jacket_off = \"40 mm\" }", id, length)
			continue
		}
		r.board = board
		r.say("[[cable]]\nid = %q\ntype = \"TSP22\"%s\na = { jacket_off = \"60 mm\", shield = \"pigtail\", pigtail = { type = \"E22WH\", length = \"90 mm\", to = %q, strip = \"6 mm\" } }\nb = { jacket_off = \"60 mm\", shield = \"cut back\" }", id, length, from[2])
	}
}

func (r *randomJob) twists() {
	if len(r.free) < 4 || !r.oneIn(2, "twist") {
		return
	}
	one := r.free[:4]
	r.free = r.free[4:]
	more := r.wireType()
	a, b := r.wire(one[0], one[2], more), r.wire(one[1], one[3], more)
	r.say("[[twist]]\nid = \"T1\"\nwires = [%q, %q]\nlay = \"25 mm\"\nuntwist = [\"40 mm\", \"40 mm\"]", a, b)
}

func (r *randomJob) plainWires() {
	for range r.upTo(1, 45, "wires") {
		from, to := r.take(), r.take()
		if to == "" {
			return
		}
		more := r.wireType()
		if r.oneIn(8, "note") {
			more += "\nnote = \"keep clear of the heater\""
		}
		if r.oneIn(8, "board end") {
			more += "\nb = { stage = \"board\", trim = \"20 mm\" }"
		}
		if r.oneIn(12, "supply") {
			more += "\nsupply = \"existing\""
		}
		r.wire(from, to, more)
	}
}
