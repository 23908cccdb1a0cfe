package main

import (
	"fmt"
	"sync"
	"time"
)

// progress shows what is being done, on a terminal and only once the work has taken a second.
type progress struct {
	mutex sync.Mutex
	s     streams
	stage string
	shown bool
	timer *time.Timer
}

func startProgress(s streams) *progress {
	p := &progress{s: s}
	if s.terminal {
		p.timer = time.AfterFunc(time.Second, func() {
			p.mutex.Lock()
			defer p.mutex.Unlock()
			p.shown = true
			p.draw()
		})
	}
	return p
}

// say names the stage that begins.
func (p *progress) say(stage string) {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	p.stage = stage
	if p.shown {
		p.draw()
	}
}

// stop clears the line.
func (p *progress) stop() {
	if p.timer == nil {
		return
	}
	p.timer.Stop()
	p.mutex.Lock()
	defer p.mutex.Unlock()
	if p.shown {
		fmt.Fprint(p.s.err, "\r\x1b[K")
		p.shown = false
	}
}

func (p *progress) draw() { fmt.Fprintf(p.s.err, "\r\x1b[K%s ...", p.stage) }
