package source

// Stated is a value an author typed, with its place. The zero value was not typed.
type Stated[T any] struct {
	Value T
	Span  Span
}

// Set reports whether the value was typed.
func (s Stated[T]) Set() bool { return s.Span.Valid() }
