// Package near finds the word that was meant by one that nobody knows.
package near

import (
	"strings"
	"unicode/utf8"
)

// Word returns the word of among that was most likely meant by word, or "" if none is
// near: at most two slips of a finger, and fewer than half the letters. A word with
// other digits is never near: an acid of another content is another acid. A name
// without its last part, such as that of a salt, is as near as one slip.
func Word(word string, among []string) string { return within(2, word, among) }

// Same is Word for what stands where word is not looked for: one slip at most, since a word
// of elsewhere is seldom meant.
func Same(word string, among []string) string { return within(1, word, among) }

func within(most int, word string, among []string) string {
	best, bestSlips := "", most+1
	first, _ := utf8.DecodeRuneInString(word)
	length := utf8.RuneCountInString(word)
	for _, candidate := range among {
		if digits(candidate) != digits(word) {
			continue
		}
		n := 1
		if length < 4 || !strings.HasPrefix(candidate, word+"-") {
			if d := utf8.RuneCountInString(candidate) - length; d > 2 || d < -2 {
				continue
			}
			n = slips(word, candidate)
		}
		if 2*n >= length || n > bestSlips || n == bestSlips && !likelier(word, candidate, best) {
			continue
		}
		// Two slips in a short word, the first letter among them, is another word.
		if begins, _ := utf8.DecodeRuneInString(candidate); n == 2 && length < 6 && begins != first {
			continue
		}
		best, bestSlips = candidate, n
	}
	return best
}

// likelier tells which of two words as near was meant: one that was broken off, else
// the first by name.
func likelier(word, a, b string) bool {
	if x, y := strings.HasPrefix(a, word), strings.HasPrefix(b, word); x != y {
		return x
	}
	return a < b
}

// slips counts the letters added, left out, changed or swapped with their
// neighbour between two words.
func slips(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := range x {
		row[0] = i + 1
		for j := range y {
			change := last[j]
			if x[i] != y[j] {
				change++
			}
			row[j+1] = min(change, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

func digits(s string) string {
	return strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, s)
}
