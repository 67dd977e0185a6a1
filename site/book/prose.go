package book

// Prose is Markdown in which {{verb argument}} names something to be put
// there: an item of the sheet, a formula, shown code, the form, another page.
// A directive alone in a paragraph stands on its own; within a sentence it
// stands inline. Directives inside code are left alone.

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// directive is one {{verb argument}} of the prose.
type directive struct {
	verb, argument string
	block          bool // alone in its paragraph
	line           int  // counted from 1
}

// resolver returns the HTML that stands for a directive.
type resolver func(directive) (string, error)

// sourceError is something wrong in a source file, at a line.
type sourceError struct {
	file string
	line int
	err  error
}

func (e sourceError) Error() string { return fmt.Sprintf("%s:%d: %v", e.file, e.line, e.err) }
func (e sourceError) Unwrap() error { return e.err }

// prose returns the HTML of a Markdown text and everything wrong with it. What
// is given beside may change the tree before it is written.
func prose(source []byte, file string, resolve resolver, beside ...parser.ASTTransformer) (string, []error) {
	run := &proseRun{source: source, file: file, resolve: resolve}
	transformers := []util.PrioritizedValue{util.Prioritized(blockTransformer{}, 50)}
	for _, t := range beside {
		transformers = append(transformers, util.Prioritized(t, 60))
	}
	md := goldmark.New(
		goldmark.WithExtensions(extension.Table, extension.Typographer),
		goldmark.WithParserOptions(
			parser.WithAutoHeadingID(),
			parser.WithInlineParsers(util.Prioritized(directiveParser{run}, 50)),
			parser.WithASTTransformers(transformers...)),
		goldmark.WithRendererOptions(html.WithUnsafe(),
			renderer.WithNodeRenderers(util.Prioritized(directiveRenderer{run}, 50))))
	var out bytes.Buffer
	if err := md.Convert(source, &out); err != nil {
		run.problems = append(run.problems, sourceError{file, 1, err})
	}
	return out.String(), run.problems
}

// proseRun is one conversion: its source, and what went wrong.
type proseRun struct {
	source   []byte
	file     string
	resolve  resolver
	problems []error
}

// lineAt returns the line, from 1, of an offset in the source.
func (r *proseRun) lineAt(offset int) int {
	return bytes.Count(r.source[:min(offset, len(r.source))], []byte("\n")) + 1
}

var directiveKind = ast.NewNodeKind("Directive")

// directiveNode is a directive in the tree. A block directive replaces its
// paragraph.
type directiveNode struct {
	ast.BaseInline
	directive
}

func (n *directiveNode) Kind() ast.NodeKind { return directiveKind }

func (n *directiveNode) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"verb": n.verb, "argument": n.argument}, nil)
}

// directiveParser reads {{...}} on one line.
type directiveParser struct{ run *proseRun }

func (directiveParser) Trigger() []byte { return []byte{'{'} }

func (p directiveParser) Parse(_ ast.Node, block text.Reader, _ parser.Context) ast.Node {
	line, segment := block.PeekLine()
	if !bytes.HasPrefix(line, []byte("{{")) {
		return nil
	}
	end := bytes.Index(line, []byte("}}"))
	if end < 0 {
		p.run.problems = append(p.run.problems, sourceError{p.run.file, p.run.lineAt(segment.Start),
			fmt.Errorf("{{ is not closed by }} on its line")})
		return nil
	}
	verb, argument, _ := strings.Cut(strings.TrimSpace(string(line[2:end])), " ")
	block.Advance(end + 2)
	return &directiveNode{directive: directive{verb: verb, argument: strings.TrimSpace(argument),
		line: p.run.lineAt(segment.Start)}}
}

// blockTransformer lifts a directive that is alone in its paragraph out of it.
type blockTransformer struct{}

func (blockTransformer) Transform(doc *ast.Document, _ text.Reader, _ parser.Context) {
	var alone []*ast.Paragraph
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if p, ok := n.(*ast.Paragraph); ok && entering && p.ChildCount() == 1 && p.FirstChild().Kind() == directiveKind {
			alone = append(alone, p)
		}
		return ast.WalkContinue, nil
	})
	for _, p := range alone {
		node := p.FirstChild().(*directiveNode)
		node.block = true
		text := ast.NewTextBlock()
		p.Parent().ReplaceChild(p.Parent(), p, text)
		text.AppendChild(text, node)
	}
}

// directiveRenderer writes what the resolver gives.
type directiveRenderer struct{ run *proseRun }

func (r directiveRenderer) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(directiveKind, func(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		node := n.(*directiveNode)
		out, err := r.run.resolve(node.directive)
		if err != nil {
			r.run.problems = append(r.run.problems, sourceError{r.run.file, node.line, err})
		}
		_, _ = w.WriteString(out)
		return ast.WalkContinue, nil
	})
}
