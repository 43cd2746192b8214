package cmd_test

import (
	"bytes"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
)

// source is one Go file of the tree, parsed.
type source struct {
	path  string // slashed, from the root
	room  string // its folder
	test  bool
	files *token.FileSet
	tree  *ast.File
}

// text is one file of the tree that holds no binary data.
type text struct {
	path, content string
}

// project is what the guards look at.
type project struct {
	topLevel []string
	sources  []source
	texts    []text
}

// readProject reads a tree as git keeps it, without what is in [notOurs].
func readProject(tree fs.FS) (project, error) {
	var all project
	entries, err := fs.ReadDir(tree, ".")
	if err != nil {
		return all, fmt.Errorf("root of the tree: %w", err)
	}
	for _, entry := range entries {
		if !matches(entry.Name(), notOurs) {
			all.topLevel = append(all.topLevel, entry.Name())
		}
	}
	err = fs.WalkDir(tree, ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case errors.Is(err, fs.ErrNotExist): // gone since its folder was read: an editor's own file
			return nil
		case err != nil:
			return err
		case matches(name, notOurs) && entry.IsDir():
			return fs.SkipDir
		case matches(name, notOurs) || !entry.Type().IsRegular():
			return nil
		}
		return all.read(tree, name)
	})
	return all, err
}

func (p *project) read(tree fs.FS, name string) error {
	content, err := fs.ReadFile(tree, name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if bytes.IndexByte(content, 0) >= 0 {
		return nil
	}
	p.texts = append(p.texts, text{path: name, content: string(content)})
	if path.Ext(name) != ".go" || slices.Contains(strings.Split(name, "/"), "testdata") {
		return nil
	}
	parsed, err := parse(name, string(content))
	p.sources = append(p.sources, parsed)
	return err
}

// parse reads one Go file.
func parse(name, content string) (source, error) {
	files := token.NewFileSet()
	tree, err := parser.ParseFile(files, name, content, parser.ParseComments|parser.SkipObjectResolution)
	return source{
		path: name, room: path.Dir(name), test: strings.HasSuffix(name, "_test.go"), files: files, tree: tree,
	}, err
}

// imports lists the import paths of the file.
func (s source) imports() []string {
	var paths []string
	for _, spec := range s.tree.Imports {
		if imported, err := strconv.Unquote(spec.Path.Value); err == nil {
			paths = append(paths, imported)
		}
	}
	return paths
}

// at says where in the tree a node stands.
func (s source) at(node ast.Node) string {
	return fmt.Sprintf("%s:%d", s.path, s.line(node.Pos()))
}

func (s source) line(pos token.Pos) int { return s.files.Position(pos).Line }

// matches reports whether the end of a path fits one of the patterns.
func matches(name string, patterns []string) bool {
	return slices.ContainsFunc(patterns, func(pattern string) bool {
		parts := strings.Split(name, "/")
		last := max(0, len(parts)-1-strings.Count(pattern, "/"))
		fits, _ := path.Match(pattern, strings.Join(parts[last:], "/"))
		return fits
	})
}
