//go:build race

package main

// underRace: the race detector slows the readers of pages tenfold, and they share nothing that it could find.
const underRace = true
