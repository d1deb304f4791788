// Package talks measures how well facts and steps are found in talk: eighteen invented
// talks with labels by hand, in testdata. It has tests only;
//
//	go test -v ./internal/talks
//
// prints precision and recall of the facts that package heard finds, and the errors
// Pk and WindowDiff of the steps that package draft makes.
package talks
