package lab

// CommonNames lets a test walk the table.
var CommonNames = commonNames
