package archtest

import (
	"go/ast"
	"go/token"
	"slices"
	"testing"
)

// exactBits names the packages whose results must have the same bits on every
// machine, since drawings are made from them.
var exactBits = []string{"internal/geom", "internal/head", "internal/scalp", "internal/strand", "internal/silhouette", "internal/path", "internal/draw"}

// TestNoProductCanBeFused holds those packages to float64(x*y): a product that is
// not converted may be fused with a sum anywhere after it, in another statement
// or in a function that the compiler folds in, and then rounds differently.
func TestNoProductCanBeFused(t *testing.T) {
	all := packages(t)
	for _, name := range exactBits {
		pkg := all[module+"/"+name]
		if pkg == nil {
			continue
		}
		for _, f := range pkg.files {
			for _, at := range bareProducts(f) {
				t.Errorf("%s: write float64(x*y), or int(x*y) for whole numbers", at)
			}
		}
	}
}

// bareProducts lists the places of products that stand neither in a conversion
// nor under a division, which rounds too.
func bareProducts(f goFile) []string {
	var places []string
	var outer []ast.Node
	ast.Inspect(f.tree, func(n ast.Node) bool {
		if n == nil {
			outer = outer[:len(outer)-1]
			return true
		}
		if isProduct(n) && !rounded(outer) {
			places = append(places, f.at(n))
		}
		outer = append(outer, n)
		return true
	})
	return places
}

func isProduct(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		return n.Op == token.MUL
	case *ast.AssignStmt:
		return n.Tok == token.MUL_ASSIGN
	}
	return false
}

// rounded tells whether an expression inside the given nodes, innermost last, is
// rounded before anything can be added to it.
func rounded(outer []ast.Node) bool {
	if constant(outer) {
		return true
	}
	for _, n := range slices.Backward(outer) {
		switch n := n.(type) {
		case *ast.ParenExpr:
			continue
		case *ast.BinaryExpr:
			if n.Op == token.MUL {
				continue
			}
			return n.Op == token.QUO
		case *ast.CallExpr:
			fn, ok := n.Fun.(*ast.Ident)
			return ok && slices.Contains([]string{"float64", "int", "int32"}, fn.Name)
		default:
			return false
		}
	}
	return false
}

// constant tells whether the innermost declaration is one of constants, which are
// exact and rounded by the compiler once.
func constant(outer []ast.Node) bool {
	for _, n := range slices.Backward(outer) {
		if d, ok := n.(*ast.GenDecl); ok {
			return d.Tok == token.CONST
		}
	}
	return false
}
