package sheet

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/scanner"
	"go/token"
	"math"
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
	pos  int // in the text, from 1: of an operator its sign, of all else the beginning

	names []naming // of a whole formula: all in it, in the order in which they are read
}

// naming is a name in a formula, and the function that it is an argument of, if any.
type naming struct {
	name *expr
	of   string
}

// FormulaError says what is wrong with a formula, and where.
type FormulaError struct {
	Text string
	Pos  int // from 1, in bytes
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
		return nil, &FormulaError{text, maxFormula, fmt.Sprintf("longer than %d characters", maxFormula)}
	}
	tree, err := parser.ParseExpr(text)
	var list scanner.ErrorList
	switch {
	case errors.As(err, &list):
		return nil, &FormulaError{text, list[0].Pos.Offset + 1, list[0].Msg}
	case err != nil:
		return nil, &FormulaError{text, 1, err.Error()}
	}
	e, err := convert(text, tree)
	if err != nil {
		return nil, err
	}
	e.names = e.naming(nil, "")
	parsed.Store(text, e)
	return e, nil
}

var operators = map[token.Token]op{
	token.ADD: opAdd, token.SUB: opSub, token.MUL: opMul, token.QUO: opDiv,
	token.LSS: opLess, token.LEQ: opLessEq, token.GTR: opMore, token.GEQ: opMoreEq,
}

func convert(text string, n ast.Expr) (*expr, error) {
	e := &expr{pos: int(n.Pos())}
	refuse := func(say string) (*expr, error) { return nil, &FormulaError{text, e.pos, say} }
	var args []ast.Expr
	switch n := n.(type) {
	case *ast.ParenExpr:
		return convert(text, n.X)
	case *ast.BasicLit:
		x, err := strconv.ParseFloat(n.Value, 64)
		if err != nil || strings.Trim(n.Value, "0123456789.eE+-") != "" {
			return refuse("not a decimal number: " + n.Value)
		}
		e.op, e.num = opConst, x
	case *ast.Ident, *ast.SelectorExpr:
		name, ok := keyOf(n)
		if !ok {
			return refuse("a key is words joined by dots")
		}
		if err := checkKey(name); err != nil {
			return refuse(err.Error())
		}
		e.op, e.name = opName, name
	case *ast.UnaryExpr:
		if n.Op != token.SUB {
			return refuse("unknown sign " + n.Op.String())
		}
		e.op, args = opNeg, []ast.Expr{n.X}
	case *ast.BinaryExpr:
		e.pos = int(n.OpPos)
		o, ok := operators[n.Op]
		switch {
		case n.Op == token.XOR:
			return refuse("unknown operator ^: write pow(a, 2) for a power")
		case !ok:
			return refuse("unknown operator " + n.Op.String())
		}
		e.op, args = o, []ast.Expr{n.X, n.Y}
	case *ast.CallExpr:
		f, ok := n.Fun.(*ast.Ident)
		if !ok || n.Ellipsis != token.NoPos {
			return refuse("only a function by its name can be called")
		}
		e.op, e.name, args = opCall, f.Name, n.Args
	default:
		return refuse("not allowed in a formula")
	}
	for _, a := range args {
		c, err := convert(text, a)
		if err != nil {
			return nil, err
		}
		e.args = append(e.args, c)
	}
	return e, nil
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
	for rest, more := key, true; more; {
		var word string
		if word, rest, more = strings.Cut(rest, "."); !isWord(word) {
			return fmt.Errorf("%q is no key: a word is of a-z, 0-9 and _, and no Go keyword", word)
		}
	}
	return nil
}

func isWord(word string) bool {
	for i := range len(word) {
		if c := word[i]; (c < 'a' || c > 'z') && c != '_' && (i == 0 || c < '0' || c > '9') {
			return false
		}
	}
	return word != "" && !token.IsKeyword(word)
}

// naming adds the names in e to all.
func (e *expr) naming(all []naming, of string) []naming {
	if e.op == opName {
		return append(all, naming{e, of})
	}
	for _, a := range e.args {
		all = a.naming(all, e.name)
	}
	return all
}

// constant is the value of e where it is made of numbers alone.
func (e *expr) constant() (x float64, ok bool) {
	switch e.op {
	case opConst:
		return e.num, true
	case opNeg:
		x, ok = e.args[0].constant()
		return -x, ok
	case opDiv:
		x, ok = e.args[0].constant()
		y, too := e.args[1].constant()
		return x / y, ok && too
	}
	return 0, false
}

var signs = map[op]string{
	opAdd: " + ", opSub: " − ", opMul: " × ", opDiv: " / ",
	opLess: " < ", opLessEq: " ≤ ", opMore: " > ", opMoreEq: " ≥ ",
}

// rank is how tightly e holds together when written.
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
		if a.rank() < least || a.op == opName && strings.HasPrefix(s, "−") {
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
			u.Decimals = 9
			return u.With(u.Inside(e.args[0].num))
		}
		if e.name == "pow" && len(e.args) == 2 {
			return e.writePower(show)
		}
		args := make([]string, len(e.args))
		for i, a := range e.args {
			args[i] = a.write(show)
		}
		return e.name + "(" + strings.Join(args, ", ") + ")"
	}
	return inner(e.args[0], e.rank()) + signs[e.op] + inner(e.args[1], e.rank()+1)
}

// writePower prints a power as handbooks do: a³, (a + b)², a^(1/3).
func (e *expr) writePower(show func(name string) string) string {
	base, exponent := e.args[0], e.args[1]
	text := base.write(show)
	words := base.op != opCall || unitTags[base.name].Scale != 0 // a label, or a figure with its unit, is several
	if base.rank() < 4 || base.name == "pow" || strings.HasPrefix(text, "−") || words && strings.ContainsAny(text, " +-") {
		text = "(" + text + ")"
	}
	if n, ok := exponent.constant(); ok && n == math.Trunc(n) {
		return text + raised.Replace(strconv.FormatFloat(n, 'f', -1, 64))
	}
	return text + "^(" + exponent.write(show) + ")"
}

var raised = strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")
