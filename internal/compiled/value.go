package compiled

import (
	"html/template"
	"reflect"
	"text/template/parse"
)

var (
	stringType = reflect.TypeFor[string]()
	intType    = reflect.TypeFor[int]()
	boolType   = reflect.TypeFor[bool]()
	htmlType   = reflect.TypeFor[template.HTML]()
	jsType     = reflect.TypeFor[template.JS]()

	appenderType = reflect.TypeFor[Appender]()
)

// expression gives a value of one type.
type expression struct {
	of     reflect.Type
	value  func(f *frame, dot reflect.Value) reflect.Value
	append step // writes the value where it is shown raw; nil for most
}

// Appender is a value whose HTML is written where a template shows it with {{.Field.HTML}},
// and need not be held as a text first. Its two methods give the same.
type Appender interface {
	HTML() template.HTML
	AppendHTML(out []byte) []byte
}

// appended is the HTML of an Appender.
func appended(e expression) expression {
	html := expression{of: htmlType, value: func(f *frame, dot reflect.Value) reflect.Value {
		return reflect.ValueOf(e.value(f, dot).Interface().(Appender).HTML())
	}}
	html.append = func(f *frame, dot reflect.Value) {
		f.out = e.value(f, dot).Interface().(Appender).AppendHTML(f.out)
	}
	return html
}

// command compiles one command of a pipeline.
func (c *compiler) command(n *parse.CommandNode, dot reflect.Type) (expression, bool) {
	if id, ok := n.Args[0].(*parse.IdentifierNode); ok {
		return c.function(id.Ident, n.Args[1:], dot)
	}
	if len(n.Args) > 1 {
		return expression{}, false
	}
	return c.operand(n.Args[0], dot)
}

func (c *compiler) operand(n parse.Node, dot reflect.Type) (expression, bool) {
	switch n := n.(type) {
	case *parse.DotNode:
		return expression{of: dot, value: func(_ *frame, dot reflect.Value) reflect.Value { return dot }}, dot.Kind() != reflect.Interface
	case *parse.FieldNode:
		return fields(expression{of: dot, value: func(_ *frame, dot reflect.Value) reflect.Value { return dot }}, n.Ident)
	case *parse.VariableNode:
		for at := len(c.scope) - 1; at >= 0; at-- {
			if c.scope[at].name == n.Ident[0] {
				v := expression{of: c.scope[at].of, value: func(f *frame, _ reflect.Value) reflect.Value { return f.variables[at] }}
				return fields(v, n.Ident[1:])
			}
		}
	case *parse.StringNode:
		return constant(n.Text), true
	case *parse.PipeNode:
		if len(n.Cmds) == 1 && len(n.Decl) == 0 {
			return c.command(n.Cmds[0], dot)
		}
	}
	return expression{}, false
}

func constant(value any) expression {
	v := reflect.ValueOf(value)
	return expression{of: v.Type(), value: func(*frame, reflect.Value) reflect.Value { return v }}
}

// fields goes from a value to a field of it, of a field.
func fields(e expression, names []string) (expression, bool) {
	for _, name := range names {
		var ok bool
		if e, ok = field(e, name); !ok {
			return e, false
		}
	}
	return e, e.of.Kind() != reflect.Interface
}

// field goes from a structure, or a pointer to one, to a field. A method of the name
// would go before it.
func field(e expression, name string) (expression, bool) {
	of := e.of
	if name == "HTML" && of.Kind() == reflect.Func && of.Implements(appenderType) {
		return appended(e), true
	}
	pointer := of.Kind() == reflect.Pointer
	if pointer {
		of = of.Elem()
	}
	if of.Kind() != reflect.Struct {
		return e, false
	}
	if _, method := reflect.PointerTo(of).MethodByName(name); method {
		return e, false
	}
	f, ok := of.FieldByName(name)
	if !ok || !f.IsExported() || throughPointer(of, f.Index) {
		return e, false
	}
	from, first, rest := e.value, f.Index[0], f.Index[1:]
	return expression{of: f.Type, value: func(f *frame, dot reflect.Value) reflect.Value {
		v := from(f, dot)
		if pointer {
			if v.IsNil() {
				panic(declined{})
			}
			v = v.Elem()
		}
		v = v.Field(first)
		for _, i := range rest {
			v = v.Field(i)
		}
		return v
	}}, true
}

// throughPointer reports whether the way to a field of embedded structures leads through
// a pointer.
func throughPointer(of reflect.Type, index []int) bool {
	for _, i := range index[:len(index)-1] {
		if of = of.Field(i).Type; of.Kind() != reflect.Struct {
			return true
		}
	}
	return false
}

// function compiles the functions that give a value.
func (c *compiler) function(name string, args []parse.Node, dot reflect.Type) (expression, bool) {
	operands := make([]expression, len(args))
	for i, a := range args {
		var ok bool
		if operands[i], ok = c.operand(a, dot); !ok {
			return expression{}, false
		}
	}
	switch {
	case name == "len" && len(args) == 1 && operands[0].of.Kind() == reflect.Slice:
		e := operands[0]
		return expression{of: intType, value: func(f *frame, dot reflect.Value) reflect.Value { return reflect.ValueOf(e.value(f, dot).Len()) }}, true
	case (name == "or" || name == "and") && len(args) == 2 && operands[0].of == operands[1].of:
		a, b, stop := operands[0], operands[1], name == "or"
		truth, ok := truthOf(a.of)
		return expression{of: a.of, value: func(f *frame, dot reflect.Value) reflect.Value {
			v := a.value(f, dot)
			if truth(v) == stop {
				return v
			}
			return b.value(f, dot)
		}}, ok
	case name == "eq" && len(args) == 2 && operands[0].of == stringType && operands[1].of == stringType:
		a, b := operands[0], operands[1]
		return expression{of: boolType, value: func(f *frame, dot reflect.Value) reflect.Value {
			return reflect.ValueOf(a.value(f, dot).String() == b.value(f, dot).String())
		}}, true
	}
	return expression{}, false
}

// condition compiles what an if asks. The functions or, and and not give a truth here, of
// values of any types.
func (c *compiler) condition(p *parse.PipeNode, dot reflect.Type) (func(f *frame, dot reflect.Value) bool, bool) {
	if len(p.Cmds) > 1 || len(p.Decl) > 0 {
		return nil, false
	}
	args := p.Cmds[0].Args
	id, isFunction := args[0].(*parse.IdentifierNode)
	if !isFunction || id.Ident != "or" && id.Ident != "and" && id.Ident != "not" {
		e, ok := c.command(p.Cmds[0], dot)
		if !ok {
			return nil, false
		}
		truth, ok := truthOf(e.of)
		return func(f *frame, dot reflect.Value) bool { return truth(e.value(f, dot)) }, ok
	}
	var truths []func(f *frame, dot reflect.Value) bool
	for _, a := range args[1:] {
		e, ok := c.operand(a, dot)
		if !ok {
			return nil, false
		}
		truth, ok := truthOf(e.of)
		if !ok {
			return nil, false
		}
		truths = append(truths, func(f *frame, dot reflect.Value) bool { return truth(e.value(f, dot)) })
	}
	if id.Ident == "not" {
		if len(truths) != 1 {
			return nil, false
		}
		return func(f *frame, dot reflect.Value) bool { return !truths[0](f, dot) }, true
	}
	stop := id.Ident == "or"
	return func(f *frame, dot reflect.Value) bool {
		for _, truth := range truths {
			if truth(f, dot) == stop {
				return stop
			}
		}
		return !stop
	}, len(truths) > 0
}

// truthOf returns what tells whether a value of a type is true, as if and with see it.
func truthOf(of reflect.Type) (func(reflect.Value) bool, bool) {
	switch of.Kind() {
	case reflect.String, reflect.Slice:
		return func(v reflect.Value) bool { return v.Len() > 0 }, true
	case reflect.Bool:
		return reflect.Value.Bool, true
	case reflect.Int:
		return func(v reflect.Value) bool { return v.Int() != 0 }, true
	case reflect.Pointer, reflect.Func:
		return func(v reflect.Value) bool { return !v.IsNil() }, true
	case reflect.Struct:
		return func(reflect.Value) bool { return true }, true
	}
	return nil, false
}
