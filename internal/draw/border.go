package draw

import (
	"plait/internal/path"
	"plait/internal/scalp"
)

// What a polygon is in a view: hidden, bare skin, or section k − 1.
const (
	hidden = -1
	skin   = 0
)

// sides are the keys of what lies on both hands of a border. The larger is on the
// left.
type sides struct{ left, right int32 }

// border is a line between two different things, from one node of the net of borders
// to the next, or a loop. It is fitted once and serves the areas on both its hands and
// the stroke over them, so that these never gap or overlap.
type border struct {
	sides
	from, to int32 // points of the mesh
	points   []path.Point
	chain    path.Chain
}

// step is a side of a polygon that is part of a border.
type step struct {
	sides
	from, to int32
}

// borders returns the borders of a view, given the key of each polygon. Borders of
// bare skin with what is hidden are left out: the outline shows those.
func (s *scene) borders(keys []int32) []border {
	steps := s.steps(keys)
	net := newNet(steps, len(s.mesh.Points))
	var list []border
	for point := range net.nodes {
		if !net.nodes[point] {
			continue
		}
		for _, i := range net.leaving(int32(point)) {
			list = append(list, s.border(net.chain(i)))
		}
	}
	for i := range steps {
		if !net.used[i] {
			list = append(list, s.border(net.chain(int32(i))))
		}
	}
	return list
}

// steps lists the sides of polygons where keys differ, each once.
func (s *scene) steps(keys []int32) []step {
	var steps []step
	for i, p := range s.mesh.Polygons {
		own := keys[i]
		if own <= skin {
			continue
		}
		for k, c := range p.Corners {
			other := s.neighbours[i][k]
			if other == scalp.None || keys[other] >= own {
				continue
			}
			to := p.Corners[(k+1)%len(p.Corners)]
			steps = append(steps, step{sides{own, keys[other]}, c, to})
		}
	}
	return steps
}

// net joins the steps at the points of the mesh.
type net struct {
	steps []step
	nodes []bool  // points where a border starts or ends
	first []int32 // of each point's leaving steps in order, and one more
	order []int32
	used  []bool
}

func newNet(steps []step, points int) *net {
	n := &net{
		steps: steps,
		nodes: make([]bool, points),
		first: make([]int32, points+1),
		order: make([]int32, len(steps)),
		used:  make([]bool, len(steps)),
	}
	meeting := make([]int32, points)
	pair := make([]sides, points)
	mixed := make([]bool, points)
	for _, s := range steps {
		for _, p := range []int32{s.from, s.to} {
			if meeting[p] == 0 {
				pair[p] = s.sides
			}
			meeting[p]++
			mixed[p] = mixed[p] || pair[p] != s.sides
		}
		n.first[s.from+1]++
	}
	for p := range points {
		n.nodes[p] = meeting[p] != 0 && (meeting[p] != 2 || mixed[p])
		n.first[p+1] += n.first[p]
	}
	next := append([]int32(nil), n.first...)
	for i, s := range steps {
		n.order[next[s.from]] = int32(i)
		next[s.from]++
	}
	return n
}

// leaving lists the steps that start at a point.
func (n *net) leaving(point int32) []int32 { return n.order[n.first[point]:n.first[point+1]] }

// chain follows steps from one of them to the next node or back to its start.
func (n *net) chain(i int32) []step {
	start := n.steps[i].from
	var chain []step
	for {
		n.used[i] = true
		chain = append(chain, n.steps[i])
		at := n.steps[i].to
		if at == start || n.nodes[at] {
			return chain
		}
		// A point that is no node has one step in and one step out.
		i = n.leaving(at)[0]
	}
}

func (s *scene) border(chain []step) border {
	points := []path.Point{s.points[chain[0].from]}
	for _, c := range chain {
		points = append(points, s.points[c.to])
	}
	return border{
		sides: chain[0].sides,
		from:  chain[0].from, to: chain[len(chain)-1].to,
		points: points,
		chain:  path.Fit(points, path.Fine),
	}
}

// outline returns the path data of the area of a section: its borders joined head to
// tail into loops.
func outline(borders []border, key int32) string {
	type oriented struct {
		from, to int32
		chain    path.Chain
	}
	var parts []oriented
	for _, b := range borders {
		switch key {
		case b.left:
			parts = append(parts, oriented{b.from, b.to, b.chain})
		case b.right:
			parts = append(parts, oriented{b.to, b.from, b.chain.Reversed()})
		}
	}
	var d path.Data
	used := make([]bool, len(parts))
	for i := range parts {
		if used[i] {
			continue
		}
		start, at := parts[i].from, i
		for at >= 0 {
			used[at] = true
			d.Add(parts[at].chain)
			end := parts[at].to
			at = -1
			for k := range parts {
				if end != start && !used[k] && parts[k].from == end {
					at = k
					break
				}
			}
		}
		d.Close()
	}
	return d.String()
}
