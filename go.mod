module wetside

go 1.26.0

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/arran4/golang-ical v0.3.4
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	github.com/pelletier/go-toml/v2 v2.4.3
	github.com/rivo/uniseg v0.4.7
	github.com/stretchr/testify v1.12.1
	github.com/tdewolff/minify/v2 v2.24.25
	github.com/yuin/goldmark v1.8.7
	golang.org/x/tools v0.52.0
	rsc.io/qr v0.2.0
)

require (
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/tdewolff/parse/v2 v2.8.20 // indirect
	go.yaml.in/yaml/v3 v3.0.6 // indirect
)
