package lab

import "strings"

// Near returns a hint that names the nearest word, if one is near, else the
// hint given. A word with other digits is never near: an acid of another content
// is another acid.
func Near(word string, among []string, otherwise string) string {
	best, at := "", 3
	for _, w := range among {
		if digits(w) != digits(word) {
			continue
		}
		d := distance(word, w, at)
		if len(word) >= 4 && d > 1 && strings.HasPrefix(w, word+"-") { // the name without its salt or its form
			d = 1
		}
		if d < at {
			best, at = w, d
		}
	}
	if best == "" || at*2 >= len(word)+1 {
		return otherwise
	}
	return `did you mean "` + best + `"? otherwise ` + otherwise
}

func digits(s string) string {
	return strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, s)
}

// distance counts the edits between two words, giving up at limit.
func distance(a, b string, limit int) int {
	ra, rb := []rune(a), []rune(b)
	if len(ra)-len(rb) >= limit || len(rb)-len(ra) >= limit {
		return limit
	}
	row := make([]int, len(rb)+1)
	for j := range row {
		row[j] = j
	}
	for i := range ra {
		diagonal := row[0]
		row[0] = i + 1
		for j := range rb {
			cost := diagonal
			if ra[i] != rb[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j+1]+1, row[j]+1)
		}
	}
	return row[len(rb)]
}
