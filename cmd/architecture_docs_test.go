package cmd_test

import (
	"fmt"
	"go/ast"
	"go/token"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// docFaults names the packages without a package comment and the exported names
// without a comment of their own. A comment over a group of constants or
// variables, or over a run of lines without a blank one, stands for all of them.
// A field of an exported struct is covered by its struct's comment, but one that
// holds a measure, a bare float, has to tell its unit: in words of its own, in its
// name or JSON key, or in the struct's comment, which names the field or a unit.
func docFaults(sources []source) []string {
	var faults []string
	told := map[string]bool{}
	for _, s := range sources {
		told[s.room] = told[s.room] || s.tree.Doc != nil && (!s.test || isTestOnly(sources, s.room))
	}
	rooms := map[string]bool{}
	for _, s := range sources {
		if !told[s.room] && !rooms[s.room] {
			faults = append(faults, s.room+": no file says what the package is for")
		}
		rooms[s.room] = true
		if s.test {
			continue
		}
		for _, declared := range s.tree.Decls {
			faults = append(faults, s.declFaults(declared)...)
		}
	}
	return faults
}

func isTestOnly(sources []source, room string) bool {
	return !slices.ContainsFunc(sources, func(s source) bool { return s.room == room && !s.test })
}

func (s source) declFaults(declared ast.Decl) []string {
	switch d := declared.(type) {
	case *ast.FuncDecl:
		if d.Doc == nil && d.Name.IsExported() && onExported(d.Recv) {
			return []string{fmt.Sprintf("%s: func %s has no comment", s.at(d), d.Name.Name)}
		}
	case *ast.GenDecl:
		if d.Tok == token.TYPE {
			return s.typeFaults(d)
		}
		if d.Tok != token.IMPORT && d.Doc == nil {
			return s.valueFaults(d)
		}
	}
	return nil
}

// onExported reports whether a method hangs on an exported type; a function does.
func onExported(receiver *ast.FieldList) bool {
	if receiver == nil {
		return true
	}
	expr := receiver.List[0].Type
	for {
		switch e := expr.(type) {
		case *ast.StarExpr:
			expr = e.X
		case *ast.IndexExpr:
			expr = e.X
		case *ast.IndexListExpr:
			expr = e.X
		case *ast.Ident:
			return e.IsExported()
		default:
			return false
		}
	}
}

func (s source) valueFaults(d *ast.GenDecl) []string {
	var faults []string
	run := paragraph{source: s}
	for _, spec := range d.Specs {
		value := spec.(*ast.ValueSpec)
		if run.covers(value, value.Doc, value.Comment) {
			continue
		}
		for _, name := range value.Names {
			if name.IsExported() {
				faults = append(faults, fmt.Sprintf("%s: %s has no comment", s.at(name), name.Name))
			}
		}
	}
	return faults
}

func (s source) typeFaults(d *ast.GenDecl) []string {
	var faults []string
	for _, spec := range d.Specs {
		named := spec.(*ast.TypeSpec)
		if !named.Name.IsExported() {
			continue
		}
		doc := named.Doc
		if doc == nil && len(d.Specs) == 1 {
			doc = d.Doc
		}
		if doc == nil && named.Comment == nil {
			faults = append(faults, fmt.Sprintf("%s: type %s has no comment", s.at(named), named.Name.Name))
		}
		switch body := named.Type.(type) {
		case *ast.StructType:
			faults = append(faults, s.memberFaults(named.Name.Name, doc.Text(), body.Fields, needsUnit)...)
		case *ast.InterfaceType:
			faults = append(faults, s.memberFaults(named.Name.Name, doc.Text(), body.Methods, isMethod)...)
		}
	}
	return faults
}

// memberFaults names the exported members of a type that need words and have
// none.
func (s source) memberFaults(owner, doc string, members *ast.FieldList, needsWords func(ast.Field, string) bool) []string {
	var faults []string
	run := paragraph{source: s}
	for _, member := range members.List {
		if run.covers(member, member.Doc, member.Comment) || !needsWords(*member, doc) {
			continue
		}
		for _, name := range member.Names {
			named := regexp.MustCompile(`\b` + name.Name + `\b`).MatchString(doc)
			if name.IsExported() && !named && !unitInName.MatchString(name.Name) {
				faults = append(faults, fmt.Sprintf("%s: %s.%s has no comment", s.at(name), owner, name.Name))
			}
		}
	}
	return faults
}

// needsUnit reports whether a field is a measure, or a list of them, whose unit
// neither its JSON key nor the comment of its struct tells.
func needsUnit(field ast.Field, doc string) bool {
	return isMeasure(field.Type) && !unitInKey.MatchString(jsonKey(field)) && !unitInWords.MatchString(doc)
}

func isMeasure(expr ast.Expr) bool {
	switch e := expr.(type) {
	case *ast.Ident:
		return e.Name == "float64" || e.Name == "float32"
	case *ast.ArrayType:
		return isMeasure(e.Elt)
	}
	return false
}

func isMethod(field ast.Field, _ string) bool {
	_, is := field.Type.(*ast.FuncType)
	return is
}

// paragraph remembers whether the lines above, up to the last blank one, began
// with a comment.
type paragraph struct {
	source
	lastLine int
	told     bool
}

func (p *paragraph) covers(node ast.Node, doc, comment *ast.CommentGroup) bool {
	follows := p.lastLine > 0 && p.line(node.Pos()) == p.lastLine+1
	p.lastLine = p.line(node.End())
	p.told = doc != nil || p.told && follows
	return p.told || comment != nil
}

// How a measure tells its unit: at the end of a name, at the end of a JSON key,
// in words.
var (
	unitInName  = regexp.MustCompile(`(DB|MHz|MM|MS|NS|C|K|W|V|A|Ohm|Percent|Share|Factor)$`)
	unitInKey   = regexp.MustCompile(`_(m|mm|px|C|K|dB|dB_per_100m|MHz|ms|ns|ohm|W|V|A|percent|degrees|factor|share)$`)
	unitInWords = regexp.MustCompile(`\b(metres?|millimetres?|points?|pixels?|units?|dB|MHz|ns|ohms?|percent|degrees?|radians|shares?|factors?)\b|°C|Ω`)
	measureKey  = regexp.MustCompile(`^(x|y|z|length|height|width|depth|radius|distance|reach|rise|temperature|loss|margin|limit|delay|skew|resistance|power|voltage|current)($|_)`)
)

// jsonKeyFaults names the JSON keys of bare floats that tell a measure and not
// its unit.
func jsonKeyFaults(sources []source) []string {
	var faults []string
	for _, s := range sources {
		ast.Inspect(s.tree, func(node ast.Node) bool {
			field, is := node.(*ast.Field)
			if !is || !isMeasure(field.Type) {
				return true
			}
			if key := jsonKey(*field); measureKey.MatchString(key) && !unitInKey.MatchString(key) {
				faults = append(faults, fmt.Sprintf("%s: the key %q does not tell its unit", s.at(field), key))
			}
			return true
		})
	}
	return faults
}

func jsonKey(field ast.Field) string {
	if field.Tag == nil {
		return ""
	}
	tag, _ := strconv.Unquote(field.Tag.Value)
	key, _, _ := strings.Cut(reflect.StructTag(tag).Get("json"), ",")
	return key
}
