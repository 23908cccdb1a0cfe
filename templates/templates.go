// Package templates holds the default shop file, the label stocks, the registry of keys, the wording of the safety page and the starter job.
package templates

import "embed"

// Files holds shop.toml, labels.toml, keys.toml, starter.toml and the wording of the safety page in each language.
//
//go:embed *.toml
var Files embed.FS
