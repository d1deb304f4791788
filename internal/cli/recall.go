package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"plait/internal/disk"
	"plait/internal/page"
	"plait/internal/recall"
)

// memory is what is known of the last build of a course into a folder. Where it
// cannot be kept, for want of a cache folder say, every build is a full one and
// nothing else is different: so its failures are not reported.
type memory struct {
	on      bool
	store   recall.Store
	course  string // absolute, as is the next
	out     string
	program string           // with what else decides what is said
	drawer  string           // the program alone
	inputs  *recall.Snapshot // from before the build
	work    page.Kept        // what the last build left to this, then what this leaves
}

// recallBuild looks for what is known of the last build.
func recallBuild(course, out string, c console) *memory {
	m := &memory{}
	cache, err := os.UserCacheDir()
	if err != nil {
		return m
	}
	if m.drawer, err = program(); err != nil {
		return m
	}
	// What was said in colour is said again in colour only.
	m.program = fmt.Sprint(m.drawer, " colour ", c.colour)
	if m.course, err = filepath.Abs(course); err != nil {
		return m
	}
	if m.out, err = filepath.Abs(out); err != nil {
		return m
	}
	m.on, m.store = true, recall.StoreFor(cache, m.course, m.out)
	return m
}

// program tells this build of plait from all others.
func program() (string, error) {
	path, err := os.Executable()
	if err != nil {
		return "", err
	}
	info, err := os.Stat(path)
	if err != nil {
		return "", err
	}
	return fmt.Sprint(version, " ", path, " ", info.Size(), " ", info.ModTime().UnixNano()), nil
}

// known returns the last build where this program made it and nothing that it read
// or wrote has changed since.
func (m *memory) known() (last recall.Build, ok bool) {
	if !m.on {
		return last, false
	}
	last, ok = m.store.Load()
	return last, ok && last.Program == m.program && last.Inputs.Holds() && last.Site.Holds()
}

// left returns what the last build has left to this.
func (m *memory) left() *page.Kept {
	m.work.Once = true
	if !m.on {
		return &m.work
	}
	if data, ok := m.store.LoadWork(m.drawer); ok {
		m.work.LoadWork(data)
	}
	return &m.work
}

// look takes the state of what a build is about to read.
func (m *memory) look() {
	if !m.on {
		return
	}
	var err error
	m.inputs, err = recall.Look(disk.InputFolders(m.course)...)
	m.on = err == nil
}

// keep remembers a build that began at a moment, made that many files and has own
// layouts, with what was said of it.
func (m *memory) keep(began time.Time, files int, layouts, found, summary string) {
	if !m.on {
		return
	}
	if data, ok := m.work.Work(); ok {
		_ = m.store.SaveWork(m.drawer, data)
	}
	if layouts != "" {
		own, err := recall.Look(filepath.Join(m.course, filepath.FromSlash(layouts)))
		if err != nil {
			return
		}
		m.inputs = m.inputs.With(own)
	}
	site, err := recall.Look(m.out)
	if err != nil || !m.inputs.Settled(began) {
		return
	}
	_ = m.store.Save(recall.Build{
		Program: m.program, Inputs: m.inputs, Site: site,
		Files: files, Found: found, Summary: summary,
	})
}
