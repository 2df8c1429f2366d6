module example.com/furrow/wasm/e2e

go 1.26

require (
	example.com/furrow v0.0.0-00010101000000-000000000000
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
)

require (
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
)

replace example.com/furrow => ../..
