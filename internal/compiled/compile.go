package compiled

import (
	"reflect"
	"text/template/parse"
)

// compile makes a template ready. The caller holds the lock.
func (s *Set) compile(k key) *program {
	p := &program{open: true}
	s.programs[k] = p
	t := s.library.Lookup(k.name)
	if t == nil || t.Tree == nil {
		p.open = false
		return p
	}
	c := &compiler{set: s, scope: []variable{{"$", k.view}}}
	steps, ok := c.list(t.Tree.Root, k.view)
	p.open = false
	if ok {
		p.variables, p.steps = max(c.most, 1), append(steps, func(*frame, reflect.Value) {})
	}
	return p
}

// compiler goes through one template. Its methods return false for what they leave to
// the library.
type compiler struct {
	set   *Set
	scope []variable // those that can be seen, by their place in the frame
	most  int        // how many there were at once
}

type variable struct {
	name string
	of   reflect.Type
}

// declare makes a variable and returns its place. Places are used again by variables
// that are not seen at the same time.
func (c *compiler) declare(name string, of reflect.Type) int {
	c.scope = append(c.scope, variable{name, of})
	c.most = max(c.most, len(c.scope))
	return len(c.scope) - 1
}

// list compiles nodes one after the other. Variables that they declare end with them.
func (c *compiler) list(l *parse.ListNode, dot reflect.Type) (steps []step, ok bool) {
	if l == nil {
		return nil, true
	}
	defer func(before int) { c.scope = c.scope[:before] }(len(c.scope))
	return c.nodes(l, dot)
}

func (c *compiler) nodes(l *parse.ListNode, dot reflect.Type) (steps []step, ok bool) {
	for _, n := range l.Nodes {
		do, ok := c.node(n, dot)
		if !ok {
			return nil, false
		}
		steps = append(steps, do)
	}
	return steps, true
}

func (c *compiler) node(n parse.Node, dot reflect.Type) (step, bool) {
	switch n := n.(type) {
	case *parse.TextNode:
		text := n.Text
		return func(f *frame, _ reflect.Value) { f.out = append(f.out, text...) }, true
	case *parse.ActionNode:
		return c.action(n.Pipe, dot)
	case *parse.IfNode:
		return c.branch(&n.BranchNode, dot)
	case *parse.WithNode:
		return c.with(&n.BranchNode, dot)
	case *parse.RangeNode:
		return c.loop(&n.BranchNode, dot)
	case *parse.TemplateNode:
		return c.call(n, dot)
	}
	return nil, false
}

// action shows a value, or keeps it in a variable.
func (c *compiler) action(p *parse.PipeNode, dot reflect.Type) (step, bool) {
	if len(p.Decl) == 0 {
		e, ok := c.command(p.Cmds[0], dot)
		if !ok {
			return nil, false
		}
		return shown(e, p.Cmds[1:])
	}
	if len(p.Decl) > 1 || p.IsAssign || len(p.Cmds) > 1 {
		return nil, false
	}
	e, ok := c.command(p.Cmds[0], dot)
	if !ok {
		return nil, false
	}
	at := c.declare(p.Decl[0].Ident[0], e.of)
	return func(f *frame, dot reflect.Value) { f.variables[at] = e.value(f, dot) }, true
}

// branch is the action if.
func (c *compiler) branch(n *parse.BranchNode, dot reflect.Type) (step, bool) {
	holds, ok := c.condition(n.Pipe, dot)
	if !ok {
		return nil, false
	}
	then, ok := c.list(n.List, dot)
	if !ok {
		return nil, false
	}
	otherwise, ok := c.list(n.ElseList, dot)
	return func(f *frame, dot reflect.Value) {
		steps := otherwise
		if holds(f, dot) {
			steps = then
		}
		for _, do := range steps {
			do(f, dot)
		}
	}, ok
}

func (c *compiler) with(n *parse.BranchNode, dot reflect.Type) (step, bool) {
	if len(n.Pipe.Cmds) > 1 || len(n.Pipe.Decl) > 0 {
		return nil, false
	}
	e, ok := c.command(n.Pipe.Cmds[0], dot)
	if !ok {
		return nil, false
	}
	holds, ok := truthOf(e.of)
	if !ok {
		return nil, false
	}
	then, ok := c.list(n.List, e.of)
	if !ok {
		return nil, false
	}
	otherwise, ok := c.list(n.ElseList, dot)
	return func(f *frame, dot reflect.Value) {
		steps := otherwise
		if v := e.value(f, dot); holds(v) {
			steps, dot = then, v
		}
		for _, do := range steps {
			do(f, dot)
		}
	}, ok
}

// loop is the action range over a slice.
func (c *compiler) loop(n *parse.BranchNode, dot reflect.Type) (step, bool) {
	if len(n.Pipe.Cmds) > 1 || n.Pipe.IsAssign {
		return nil, false
	}
	e, ok := c.command(n.Pipe.Cmds[0], dot)
	if !ok || e.of.Kind() != reflect.Slice {
		return nil, false
	}
	otherwise, ok := c.list(n.ElseList, dot)
	if !ok {
		return nil, false
	}
	defer func(before int) { c.scope = c.scope[:before] }(len(c.scope))
	// One variable takes the element, the first of two its number.
	index, element := -1, -1
	switch decl := n.Pipe.Decl; len(decl) {
	case 1:
		element = c.declare(decl[0].Ident[0], e.of.Elem())
	case 2:
		index = c.declare(decl[0].Ident[0], intType)
		element = c.declare(decl[1].Ident[0], e.of.Elem())
	}
	each, ok := c.list(n.List, e.of.Elem())
	return func(f *frame, dot reflect.Value) {
		list := e.value(f, dot)
		if list.Len() == 0 {
			for _, do := range otherwise {
				do(f, dot)
			}
		}
		for i := range list.Len() {
			v := list.Index(i)
			if index >= 0 {
				f.variables[index] = reflect.ValueOf(i)
			}
			if element >= 0 {
				f.variables[element] = v
			}
			for _, do := range each {
				do(f, v)
			}
		}
	}, ok
}

// call runs another template; one that cannot be compiled is run by the library.
func (c *compiler) call(n *parse.TemplateNode, dot reflect.Type) (step, bool) {
	if n.Pipe == nil {
		return c.callLibrary(n.Name, expression{}) // it can only show its own text
	}
	if len(n.Pipe.Cmds) > 1 || len(n.Pipe.Decl) > 0 {
		return nil, false
	}
	e, ok := c.command(n.Pipe.Cmds[0], dot)
	if !ok {
		return nil, false
	}
	k := key{n.Name, e.of}
	p := c.set.programs[k]
	if p == nil {
		p = c.set.compile(k)
	}
	switch {
	case p.open: // it calls itself
		return nil, false
	case p.steps != nil:
		return func(f *frame, dot reflect.Value) { p.call(f, e.value(f, dot)) }, true
	}
	return c.callLibrary(n.Name, e)
}

func (c *compiler) callLibrary(name string, e expression) (step, bool) {
	if c.set.library.Lookup(name) == nil {
		return nil, false // a copy that the library made for where it is called
	}
	return func(f *frame, dot reflect.Value) {
		var view any
		if e.value != nil {
			view = e.value(f, dot).Interface()
		}
		out, err := c.set.byLibrary(f.out, name, view)
		if err != nil {
			panic(declined{}) // the library says it again, with the names of all templates
		}
		f.out = out
	}, true
}
