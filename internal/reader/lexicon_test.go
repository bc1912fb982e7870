package reader

import (
	"go/ast"
	goparser "go/parser"
	gotoken "go/token"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// TestRulesAskForTokens: a rule that asks for a word in another spelling than the reader's, or
// for a figure, never takes anything; nor does a phrase behind its own beginning.
func TestRulesAskForTokens(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		set := gotoken.NewFileSet()
		f, err := goparser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		asked := func(words ast.Expr) {
			lit, ok := words.(*ast.BasicLit)
			if !ok || lit.Kind != gotoken.STRING {
				return
			}
			s, err := strconv.Unquote(lit.Value)
			if err != nil {
				t.Fatal(err)
			}
			for _, w := range strings.Fields(s) {
				if toks := lex(w, nil); len(toks) != 1 || toks[0].w != w {
					t.Errorf("%v: %q in %q is no token", set.Position(lit.Pos()), w, s)
				}
			}
		}
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				if sel, ok := n.Fun.(*ast.SelectorExpr); ok && asks[sel.Sel.Name] {
					for _, a := range n.Args {
						asked(a)
					}
					if sel.Sel.Name == "phrase" {
						longestFirst(t, set, n.Args)
					}
				}
			case *ast.BinaryExpr:
				if n.Op == gotoken.EQL && isSpelling(n.X) {
					asked(n.Y)
				}
			case *ast.SwitchStmt:
				if !isSpelling(n.Tag) {
					return true
				}
				for _, c := range n.Body.List {
					for _, e := range c.(*ast.CaseClause).List {
						asked(e)
					}
				}
			}
			return true
		})
	}
}

// longestFirst holds phrases to their order: the first one that fits is taken.
func longestFirst(t *testing.T, set *gotoken.FileSet, phrases []ast.Expr) {
	var before []string
	for _, p := range phrases {
		lit, ok := p.(*ast.BasicLit)
		if !ok {
			continue
		}
		phrase := strings.Trim(lit.Value, `"`)
		for _, b := range before {
			if strings.HasPrefix(phrase+" ", b+" ") {
				t.Errorf("%v: %q is never reached behind %q", set.Position(lit.Pos()), phrase, b)
			}
		}
		before = append(before, phrase)
	}
}

// asks are the parser's methods that compare the next words with those that they are given.
var asks = map[string]bool{"is": true, "eat": true, "any": true, "phrase": true, "skip": true, "sentenceHas": true}

// isSpelling tells whether an expression is the spelling of a token.
func isSpelling(x ast.Expr) bool {
	sel, ok := x.(*ast.SelectorExpr)
	return ok && sel.Sel.Name == "w"
}
