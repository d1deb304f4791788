// Package lot draws lots: which questions of a pool a learner is asked, and in which
// order.
//
// Lots come from a published generator, so that a page in a browser and the program
// that marks its answers draw the same from the same seed; layouts/scripts/lot.js is
// the same arithmetic, held to the same vectors.
package lot

import (
	"crypto/sha256"
	"encoding/binary"
	"strings"
)

// Lots is a supply of lots. It is PCG32 (XSH-RR, 64 bits of state, 32 bits out) as
// M. E. O'Neill published it: PCG, a family of simple fast space-efficient
// statistically good algorithms for random number generation, 2014. It is fair, not
// secret: who knows the seed knows the draw.
type Lots struct{ state, increment uint64 }

// ours is the stream from which all draws are taken.
const ours = 0x706c616974 // "plait"

// New returns the lots of a seed.
func New(seed uint64) *Lots { return newStream(seed, ours) }

// newStream returns the generator of a seed and a stream as the published one is
// initialised.
func newStream(seed, stream uint64) *Lots {
	l := &Lots{increment: stream<<1 | 1}
	l.next()
	l.state += seed
	l.next()
	return l
}

// next returns the next 32 bits.
func (l *Lots) next() uint32 {
	old := l.state
	l.state = old*6364136223846793005 + l.increment
	word := uint32((old>>18 ^ old) >> 27)
	turn := uint32(old >> 59)
	return word>>turn | word<<(-turn&31)
}

// Below returns a whole number from 0 to n − 1, each as likely as the others. n is at
// least 1.
func (l *Lots) Below(n int) int {
	bound := uint32(n)
	// The numbers below the threshold are drawn again: without them what is left is a
	// whole multiple of n, and no remainder has a better chance.
	threshold := -bound % bound
	for {
		if r := l.next(); r >= threshold {
			return int(r % bound)
		}
	}
}

// Draw returns n different numbers from 0 to of − 1 in the order they were drawn: all of
// them, shuffled, where n is of. It is the shuffle of Fisher and Yates (R. Durstenfeld,
// Algorithm 235, 1964), stopped after n steps. n is at most of.
func (l *Lots) Draw(n, of int) []int {
	pool := make([]int, of)
	for i := range pool {
		pool[i] = i
	}
	for i := range n {
		j := i + l.Below(of-i)
		pool[i], pool[j] = pool[j], pool[i]
	}
	return pool[:n]
}

// Seed returns the seed that belongs to words, a learner's name and a paper's for
// example: the first 64 bits of the SHA-256 of the words, each followed by a line end.
func Seed(words ...string) uint64 {
	sum := sha256.Sum256([]byte(strings.Join(words, "\n") + "\n"))
	return binary.BigEndian.Uint64(sum[:])
}
