module example.com/furrow

go 1.26

require (
	github.com/google/go-cmp v0.7.0
	github.com/hack-pad/safejs v0.1.0
	gonum.org/v1/gonum v0.17.0
)
