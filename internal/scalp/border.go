package scalp

// None is the neighbour of a side at the end of the net.
const None = -1

// Neighbours returns, for each polygon and each of its sides, the polygon on the
// other hand or None. Side k runs from corner k to the next.
func (m *Mesh) Neighbours() [][]int32 {
	sides := m.sides()
	neighbours := make([][]int32, len(m.Polygons))
	for i, p := range m.Polygons {
		neighbours[i] = make([]int32, len(p.Corners))
		for k, c := range p.Corners {
			neighbours[i][k] = sides.polygon(p.Corners[(k+1)%len(p.Corners)], c)
		}
	}
	return neighbours
}

// sides lists the directed sides of all polygons by the point that they start at.
type sides struct {
	start []int32 // of each point's sides in the list, and one more
	list  []side
}

type side struct{ to, polygon int32 }

func (m *Mesh) sides() sides {
	s := sides{start: make([]int32, len(m.Points)+1)}
	count := 0
	for _, p := range m.Polygons {
		count += len(p.Corners)
		for _, c := range p.Corners {
			s.start[c+1]++
		}
	}
	for i := range m.Points {
		s.start[i+1] += s.start[i]
	}
	s.list = make([]side, count)
	next := append([]int32(nil), s.start...)
	for i, p := range m.Polygons {
		for k, c := range p.Corners {
			s.list[next[c]] = side{to: p.Corners[(k+1)%len(p.Corners)], polygon: int32(i)}
			next[c]++
		}
	}
	return s
}

// polygon returns the polygon on the left of the way from one point to the next.
func (s sides) polygon(from, to int32) int32 {
	for _, side := range s.list[s.start[from]:s.start[from+1]] {
		if side.to == to {
			return side.polygon
		}
	}
	return None
}

// borders works out the length of each section's border and how many pieces it is
// in. Pieces that touch in a point only are two.
func (m *Mesh) borders(sections []Section) {
	sides := m.sides()
	group := newGroups(len(m.Polygons))
	for i, p := range m.Polygons {
		if p.Section == Skin {
			continue
		}
		for k, c := range p.Corners {
			next := p.Corners[(k+1)%len(p.Corners)]
			other := sides.polygon(next, c)
			if other != None && m.Polygons[other].Section == p.Section {
				group.join(i, int(other))
				continue
			}
			sections[p.Section].Border += m.Points[c].P.Dist(m.Points[next].P)
		}
	}
	// A polygon without area, cut off where lines meet, makes no piece of its own.
	size := make([]float64, len(m.Polygons))
	for i, p := range m.Polygons {
		if p.Section != Skin {
			size[group.of(i)] += p.area
		}
	}
	for i, p := range m.Polygons {
		if p.Section != Skin && group.of(i) == i && size[i] > dust {
			sections[p.Section].Pieces++
		}
	}
}

// dust is an area in cm² that nobody would see.
const dust = 1e-4

// groups puts things together that are joined, directly or through others.
type groups []int32

func newGroups(n int) groups {
	g := make(groups, n)
	for i := range g {
		g[i] = int32(i)
	}
	return g
}

// of returns the thing that stands for the group of i.
func (g groups) of(i int) int {
	for g[i] != int32(i) {
		g[i] = g[g[i]]
		i = int(g[i])
	}
	return i
}

func (g groups) join(a, b int) {
	a, b = g.of(a), g.of(b)
	g[max(a, b)] = int32(min(a, b))
}
