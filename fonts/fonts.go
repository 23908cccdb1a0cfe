// Package fonts holds the faces every page is set in: the Go and Go Mono families, with their licence.
package fonts

import "embed"

// Files holds the TrueType files under the names that page.Face gives.
//
//go:embed *.ttf LICENSE
var Files embed.FS
