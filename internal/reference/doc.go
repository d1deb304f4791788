// Package reference holds the program against figures that come from outside it:
// handbook problems, pharmacopoeias, the law, teaching texts and worked examples.
//
// It is one table in a test, a file for each part of it. Each entry names its source
// and is computed through the code that the site and the commands use, or says why it
// is not; bowls go the whole way from the text an author types.
// `go test -v -run TestTable ./internal/reference` prints the table.
package reference
