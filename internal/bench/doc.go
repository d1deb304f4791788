// Package bench measures plait on synthetic courses, each thing in turn with the floor
// under it: the Markdown library alone over the same texts, and writing the same bytes.
// All that it measures goes through the command line, in this process or another.
//
//	go test -run xxx -bench . ./internal/bench                   # 100 and 1,000 lessons
//	go test -run xxx -bench . ./internal/bench -lessons 10000    # minutes
//
// Only ratios say something: the machine is never quiet. It prints them as a table in
// the end. Courses and sites lie on a memory disk where there is one.
package bench
