package sheet

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"strconv"
	"strings"
	"sync"
)

// maxFormula bounds the length of a formula's text, and so the depth of its tree.
const maxFormula = 1000

// expr is one parsed piece of a formula.
type expr struct {
	op   op
	num  float64 // opConst
	name string  // opName: a key; opCall: a function
	args []*expr
	pos  int // where it begins in the text, from 1
}

// FormulaError says what is wrong with a formula, and where.
type FormulaError struct {
	Text string
	Pos  int // from 1
	Say  string
}

func (e *FormulaError) Error() string {
	return fmt.Sprintf("formula %q, column %d: %s", e.Text, e.Pos, e.Say)
}

// parsed remembers every text ever parsed: parsing is a pure function, and the
// texts are constants of the program, so there is an end to them.
var parsed sync.Map // text → *expr

// parse reads a formula: a Go expression of numbers, keys, + - * /, comparisons
// and calls of named functions. All else is a [*FormulaError] with its place.
func parse(text string) (*expr, error) {
	if e, ok := parsed.Load(text); ok {
		return e.(*expr), nil
	}
	if len(text) > maxFormula {
		return nil, &FormulaError{text[:40] + "…", 1, fmt.Sprintf("longer than %d characters", maxFormula)}
	}
	tree, err := parser.ParseExpr(text)
	if err != nil {
		return nil, &FormulaError{text, 1, err.Error()}
	}
	e, err := convert(text, tree)
	if err != nil {
		return nil, err
	}
	parsed.Store(text, e)
	return e, nil
}

var operators = map[token.Token]op{
	token.ADD: opAdd, token.SUB: opSub, token.MUL: opMul, token.QUO: opDiv,
	token.LSS: opLess, token.LEQ: opLessEq, token.GTR: opMore, token.GEQ: opMoreEq,
}

func convert(text string, n ast.Expr) (*expr, error) {
	pos := int(n.Pos())
	refuse := func(say string) (*expr, error) { return nil, &FormulaError{text, pos, say} }
	children := func(o op, name string, in ...ast.Expr) (*expr, error) {
		e := &expr{op: o, name: name, pos: pos}
		for _, a := range in {
			c, err := convert(text, a)
			if err != nil {
				return nil, err
			}
			e.args = append(e.args, c)
		}
		return e, nil
	}
	switch n := n.(type) {
	case *ast.ParenExpr:
		return convert(text, n.X)
	case *ast.BasicLit:
		x, err := strconv.ParseFloat(n.Value, 64)
		if n.Kind != token.INT && n.Kind != token.FLOAT || err != nil || strings.Trim(n.Value, "0123456789.eE+-") != "" {
			return refuse("not a decimal number: " + n.Value)
		}
		return &expr{op: opConst, num: x, pos: pos}, nil
	case *ast.Ident, *ast.SelectorExpr:
		name, ok := keyOf(n)
		if !ok {
			return refuse("a key is words joined by dots")
		}
		if err := checkKey(name); err != nil {
			return refuse(err.Error())
		}
		return &expr{op: opName, name: name, pos: pos}, nil
	case *ast.UnaryExpr:
		if n.Op != token.SUB {
			return refuse("unknown sign " + n.Op.String())
		}
		return children(opNeg, "", n.X)
	case *ast.BinaryExpr:
		o, ok := operators[n.Op]
		if !ok {
			pos = int(n.OpPos)
			hint := ""
			if n.Op == token.XOR {
				hint = ": write pow(a, b) for a power"
			}
			return refuse("unknown operator " + n.Op.String() + hint)
		}
		return children(o, "", n.X, n.Y)
	case *ast.CallExpr:
		f, ok := n.Fun.(*ast.Ident)
		if !ok || n.Ellipsis != token.NoPos {
			return refuse("only a function by its name can be called")
		}
		return children(opCall, f.Name, n.Args...)
	}
	return refuse("not allowed in a formula")
}

func keyOf(n ast.Expr) (string, bool) {
	switch n := n.(type) {
	case *ast.Ident:
		return n.Name, true
	case *ast.SelectorExpr:
		head, ok := keyOf(n.X)
		return head + "." + n.Sel.Name, ok
	}
	return "", false
}

// checkKey holds a key to lower-case words with underscores, joined by dots,
// none a Go keyword, none beginning with a digit.
func checkKey(key string) error {
	for seg := range strings.SplitSeq(key, ".") {
		if seg == "" || strings.Trim(seg, "abcdefghijklmnopqrstuvwxyz0123456789_") != "" || seg[0] >= '0' && seg[0] <= '9' || token.IsKeyword(seg) {
			return fmt.Errorf("%q is no key: a word is of a-z, 0-9 and _, and no Go keyword", seg)
		}
	}
	return nil
}

// names calls f for each name in e, in the order in which they are read.
func (e *expr) names(f func(name string)) {
	if e.op == opName {
		f(e.name)
	}
	for _, a := range e.args {
		a.names(f)
	}
}

var signs = map[op]string{
	opAdd: " + ", opSub: " − ", opMul: " × ", opDiv: " / ",
	opLess: " < ", opLessEq: " ≤ ", opMore: " > ", opMoreEq: " ≥ ",
}

func (e *expr) rank() int {
	switch e.op {
	case opLess, opLessEq, opMore, opMoreEq:
		return 1
	case opAdd, opSub, opNeg:
		return 2
	case opMul, opDiv:
		return 3
	}
	return 4
}

// write prints e in the way of handbooks, each name as show gives it.
func (e *expr) write(show func(name string) string) string {
	inner := func(a *expr, least int) string {
		s := a.write(show)
		if a.rank() < least {
			return "(" + s + ")"
		}
		return s
	}
	switch e.op {
	case opConst:
		return strconv.FormatFloat(e.num, 'g', -1, 64)
	case opName:
		return show(e.name)
	case opNeg:
		return "−" + inner(e.args[0], 3)
	case opCall:
		if u, ok := unitTags[e.name]; ok {
			return strings.TrimSpace(inner(e.args[0], 4) + " " + u.Symbol)
		}
		args := make([]string, len(e.args))
		for i, a := range e.args {
			args[i] = a.write(show)
		}
		return e.name + "(" + strings.Join(args, ", ") + ")"
	}
	right := e.rank()
	if e.op == opSub || e.op == opDiv {
		right++
	}
	return inner(e.args[0], e.rank()) + signs[e.op] + inner(e.args[1], right)
}
