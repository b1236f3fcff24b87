package figure

import "strings"

// ID makes the id of a figure or a verdict, SUBJECT/WHAT@VARIANT,VARIANT. An id is there
// for people, to point at an answer from a page and to ask for it with why; nothing is
// ever worked out from one. Readers keep ids, so that a word, once there, stays.
//
//	id      = subject "/" what [ "@" variant { "," variant } ] { "," beside }
//	subject   whose answer it is: fixer.film, film-negative, 0301, order
//	what      which answer: draw, weigh.sulfite-rest, cost.water
//	variant   for which volume, vessel, film, temperature: 600ml, double, film-400, 20.0c
//	beside    what stands beside a figure: error, pour, wanted (see Beside)
//
// All are declared words, numbers and units in small letters, digits, '-', '.', '+' and
// '='. The first '/' ends the subject and the first '@' what is told of it, so neither
// stands in a part; ',' parts the variants. What has a family besides its name keeps
// both: the tank "five,120" is two variants, and a subject where a process runs in it.
// Parts go in as they are: a name that somebody declared is never changed. A declared name
// with '/', '@' or ',' is a fault (lab.Check), and two answers that get one id are a clash
// of the Ledger.
func ID(subject, what string, variants ...string) string {
	id := subject + "/" + what
	if len(variants) > 0 {
		id += "@" + strings.Join(variants, ",")
	}
	return id
}

// Beside makes the id of what stands beside a figure, such as the error of an amount, or
// what was wanted where it cannot be measured.
func Beside(id string, words ...string) string {
	return strings.Join(append([]string{id}, words...), ",")
}
