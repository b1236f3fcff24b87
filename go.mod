module wetside

go 1.26.0

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/stretchr/testify v1.12.1
	github.com/tdewolff/minify/v2 v2.24.25
)

require (
	github.com/pelletier/go-toml/v2 v2.4.3 // indirect
	github.com/rivo/uniseg v0.4.7 // indirect
	github.com/tdewolff/parse/v2 v2.8.20 // indirect
	go.yaml.in/yaml/v3 v3.0.6 // indirect
)
