package params

// Choices are the switches where the text of a standard leaves room. The zero value is the default of each.
type Choices struct{}
