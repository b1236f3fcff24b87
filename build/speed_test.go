package build_test

import (
	"testing"

	"wetside/build"
)

func BenchmarkWork(b *testing.B) {
	src := folder(demoFiles(b))
	for b.Loop() {
		if _, err := build.Work(options(src)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBind(b *testing.B) {
	src := folder(demoFiles(b))
	for b.Loop() {
		if _, err := build.Bind(options(src)); err != nil {
			b.Fatal(err)
		}
	}
}
