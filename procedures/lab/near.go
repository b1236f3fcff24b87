package lab

import "wetside/procedures/near"

// Near returns a hint that names the nearest word, if one is near, else the hint given.
func Near(word string, among []string, otherwise string) string {
	best := near.Word(word, among)
	if best == "" {
		return otherwise
	}
	return `did you mean "` + best + `"? otherwise ` + otherwise
}
