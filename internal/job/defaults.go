package job

import (
	"slices"

	"loomleaf/internal/harness"
)

// defaultsInForce lists the keys of the default shop file that nobody has set, in its order, without the safety
// table, which shapes no figure.
func defaultsInForce(shop, merged *value) []harness.Default {
	shaping := []string{"marks", "line", "policy", "allowance", "tray", "bundle", "paper", "inspection"}
	var inForce []harness.Default
	for _, e := range shop.keys {
		if slices.Contains(shaping, e.name) {
			inForce = appendInForce(inForce, e.value, merged.find(e.name).value, e.name)
		}
	}
	return inForce
}

func appendInForce(list []harness.Default, shop, merged *value, path string) []harness.Default {
	for _, e := range shop.keys {
		now := merged.find(e.name)
		name := path + "." + e.name
		switch {
		case e.value.kind == kindTable:
			list = appendInForce(list, e.value, now.value, name)
		case now.value.file == e.value.file:
			list = append(list, harness.Default{Key: name, Value: e.written})
		}
	}
	return list
}
