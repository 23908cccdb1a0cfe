// Package templates holds the default shop file, the label stocks, the registry of keys, the wording of the safety page, the words of
// the paper and the starter job.
package templates

import "embed"

// Files holds shop.toml, labels.toml, keys.toml, starter.toml, the wording of the safety page and the words of the paper in each language.
//
//go:embed *.toml words/*.toml
var Files embed.FS
