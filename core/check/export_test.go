package check

// Severities is the table, for tests.
var Severities = severities
