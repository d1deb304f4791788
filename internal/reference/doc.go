// Package reference holds the program against figures that come from outside it:
// handbook problems, pharmacopoeias, the law, teaching texts and worked examples.
//
// It is one table in a test, a file for each part of it. Each entry names its source
// and is computed, or says why it is not. Bowls, cards, services and orders go the
// whole way from the text an author types, as on the site; figures that no text asks
// for are asked of the packages themselves.
// `go test -v -run TestTable ./internal/reference` prints the table.
package reference
