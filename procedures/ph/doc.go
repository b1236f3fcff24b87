// Package ph works out how acid a bath is from what is dissolved in it: the ions that its
// salts become, the constants of their acids, and the rule that all charges add up to none.
// It answers with the pH and its doubt, or with the reason why there is no honest number.
package ph
