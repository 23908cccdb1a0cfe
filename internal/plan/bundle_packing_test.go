package plan

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/units"
)

// packing is circles being pushed into a tighter circle around the origin.
type packing struct {
	x, y, r []float64
}

// certified returns the radius of a circle that surely holds the circles without overlap: they are moved apart until no two overlap.
func (p *packing) certified() float64 {
	apart := 0.0
	for i := range p.r {
		for j := range i {
			apart = max(apart, (p.r[i]+p.r[j])/math.Hypot(p.x[i]-p.x[j], p.y[i]-p.y[j]))
		}
	}
	radius := 0.0
	for i := range p.r {
		radius = max(radius, math.Hypot(p.x[i], p.y[i])*apart+p.r[i])
	}
	return radius
}

// push moves every circle out of the others and into the circle around them, and returns the largest move.
func (p *packing) push(radius float64) float64 {
	most := 0.0
	for i := range p.r {
		for j := range i {
			dx, dy := p.x[i]-p.x[j], p.y[i]-p.y[j]
			d := math.Hypot(dx, dy)
			if over := p.r[i] + p.r[j] - d; over > 0 {
				share := over / 2 / max(d, 1e-12)
				p.x[i], p.y[i], p.x[j], p.y[j] = p.x[i]+dx*share, p.y[i]+dy*share, p.x[j]-dx*share, p.y[j]-dy*share
				most = max(most, over)
			}
		}
	}
	for i := range p.r {
		d := math.Hypot(p.x[i], p.y[i])
		if over := d + p.r[i] - radius; over > 0 && d > 0 {
			p.x[i], p.y[i] = p.x[i]*(1-over/d), p.y[i]*(1-over/d)
			most = max(most, over)
		}
	}
	return most
}

// tighten lowers the radius as long as pushing finds room, and returns the smallest certified one.
func (p *packing) tighten(least float64) float64 {
	best := p.certified()
	radius := least * 1.35
	for step := 0.06; step > 0.0015; {
		kept := packing{slices.Clone(p.x), slices.Clone(p.y), p.r}
		for range 250 {
			if p.push(radius) < 1e-4*least {
				break
			}
		}
		if found := p.certified(); found < best-1e-9 {
			best = found
			radius = min(radius, found) * (1 - step)
			continue
		}
		p.x, p.y = kept.x, kept.y
		step /= 2
		radius = best * (1 - step)
	}
	return best
}

// tightest searches packings from a fixed number of starts, and returns the smallest diameter found. It is no proof that there is none smaller.
func tightest(diameters []units.Length, starts int) float64 {
	source := rand.New(rand.NewPCG(7, uint64(len(diameters))))
	sum := 0.0
	for _, d := range diameters {
		sum += float64(d*d) / 4
	}
	least, best := math.Sqrt(sum), math.Inf(1)
	for range starts {
		p := packing{}
		for _, d := range diameters {
			p.x, p.y = append(p.x, least*(2*source.Float64()-1)), append(p.y, least*(2*source.Float64()-1))
			p.r = append(p.r, float64(d)/2)
		}
		best = min(best, p.tighten(least))
	}
	return 2 * best
}

// mixedBundles returns twenty bundles of 4 to 23 wires with diameters from 0.9 to 5 mm, always the same.
func mixedBundles() [][]units.Length {
	source := rand.New(rand.NewPCG(2026, 4))
	var bundles [][]units.Length
	for n := 4; n < 24; n++ {
		var wires []units.Length
		for range n {
			wires = append(wires, units.Length(900+source.IntN(4100)))
		}
		bundles = append(bundles, wires)
	}
	return bundles
}

// TestNominalIsNearTheTightestPackingFound packs twenty mixed bundles. The search finds the best circles known within a percent, so that
// its packings are fit to judge by.
func TestNominalIsNearTheTightestPackingFound(t *testing.T) {
	for n, best := range map[int]float64{4: 2.414213562, 7: 3, 12: 4.029601930} { // Birgin and Gentil, report of 2009, table 1
		require.InEpsilon(t, best*1000, tightest(equalWires(n, 1000), 12), 0.01, n)
	}
	for _, wires := range mixedBundles() {
		found := tightest(wires, 12)
		size := sizeOfBundle(wires)
		share := float64(size.nominal) / found
		t.Logf("%2d wires: nominal %.2f mm, tightest found %.2f mm, %+.1f %%", len(wires), float64(size.nominal)/1000, found/1000, 100*(share-1))
		require.GreaterOrEqual(t, share, leastNominal)
		require.LessOrEqual(t, share, mostNominal)
		require.GreaterOrEqual(t, float64(size.room), found*0.998)
	}
}
