// Package archtest holds tests of the repository as a whole: which package may
// import which, who may touch the machine, and what may lie in the tree. It
// has no code of its own to import.
package archtest
