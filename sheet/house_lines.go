package sheet

import "github.com/pelletier/go-toml/v2/unstable"

// A tomlKey names a table of a house file, or a key in one.
type tomlKey struct{ table, key string }

// linesOf returns the line, from 1, on which each table and each of their keys
// first stands. The text has been parsed before and is known to be TOML.
func linesOf(text []byte) map[tomlKey]int {
	lines := map[tomlKey]int{}
	p := &unstable.Parser{}
	p.Reset(text)
	var table []string
	for p.NextExpression() {
		node := p.Expression()
		if node.Kind == unstable.KeyValue {
			noteKey(lines, p, table, node)
			continue
		}
		table = noteParts(lines, p, nil, node.Key())
	}
	return lines
}

// noteKey notes the line of a key, and of those of an inline table after it.
func noteKey(lines map[tomlKey]int, p *unstable.Parser, before []string, node *unstable.Node) {
	path := noteParts(lines, p, before, node.Key())
	if node.Value().Kind != unstable.InlineTable {
		return
	}
	for inside := node.Value().Children(); inside.Next(); {
		noteKey(lines, p, path, inside.Node())
	}
}

// noteParts follows the parts of a dotted key and returns the whole path.
func noteParts(lines map[tomlKey]int, p *unstable.Parser, before []string, parts unstable.Iterator) []string {
	path := append([]string{}, before...)
	for parts.Next() {
		path = append(path, string(parts.Node().Data))
		where := tomlKey{table: path[0]}
		if len(path) > 1 {
			where.key = path[1]
		}
		if _, known := lines[where]; !known {
			lines[where] = p.Shape(parts.Node().Raw).Start.Line
		}
	}
	return path
}
