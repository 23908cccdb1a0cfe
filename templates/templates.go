// Package templates holds the default shop file, the label stocks, the wording of the safety page and the starter job.
package templates

import "embed"

// Files holds shop.toml, labels.toml, safety.en.toml and starter.toml.
//
//go:embed *.toml
var Files embed.FS
