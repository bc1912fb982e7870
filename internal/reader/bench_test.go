package reader

import (
	"bufio"
	goparser "go/parser"
	gotoken "go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sockwright/internal/source"
)

// patternTexts are the written patterns among the tests' data, in all their layouts.
func patternTexts(tb testing.TB) (texts []string) {
	tb.Helper()
	for _, in := range []string{"cases", "fresh", "long"} {
		names, err := filepath.Glob("../check/testdata/" + in + "/*.pattern.txt")
		if err != nil || len(names) == 0 {
			tb.Fatalf("no patterns in %s: %v", in, err)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				tb.Fatal(err)
			}
			texts = append(texts, string(text))
		}
	}
	return texts
}

// BenchmarkRead reads written patterns: "patterns" each of the tests' data by itself, "long"
// one of them over and over to 100 KB. The others are measures of the machine: "lexed" cuts the same words into tokens only, "words" into
// words at white space, and "go" parses the reader's own source.
func BenchmarkRead(b *testing.B) {
	var files []*source.File
	size := 0
	for _, text := range patternTexts(b) {
		files = append(files, source.NewFile("pattern.txt", text))
		size += len(text)
	}
	text, err := os.ReadFile("../check/testdata/long/harbour-today.pattern.txt")
	if err != nil {
		b.Fatal(err)
	}
	long := strings.Repeat(string(text)+"\n", 1+100_000/len(text))
	b.Run("patterns", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(size))
		for b.Loop() {
			for _, f := range files {
				Read(f)
			}
		}
	})
	b.Run("long", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(len(long)))
		f := source.NewFile("long.txt", long)
		for b.Loop() {
			Read(f)
		}
	})
	b.Run("lexed", func(b *testing.B) {
		b.SetBytes(int64(len(long)))
		var tokens []token
		for b.Loop() {
			tokens = lex(long, tokens[:0])
		}
	})
	b.Run("words", func(b *testing.B) {
		b.SetBytes(int64(len(long)))
		for b.Loop() {
			s := bufio.NewScanner(strings.NewReader(long))
			s.Split(bufio.ScanWords)
			for s.Scan() {
			}
		}
	})
	b.Run("go", func(b *testing.B) {
		var sources [][]byte
		size := 0
		names, _ := filepath.Glob("*.go")
		for _, name := range names {
			src, err := os.ReadFile(name)
			if err != nil {
				b.Fatal(err)
			}
			sources = append(sources, src)
			size += len(src)
		}
		b.SetBytes(int64(size))
		for b.Loop() {
			for _, src := range sources {
				if _, err := goparser.ParseFile(gotoken.NewFileSet(), "", src, goparser.SkipObjectResolution); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
}
