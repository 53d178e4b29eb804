package exchange_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"fettle/plan/exchange"
)

func compiled(t testing.TB) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	require.NoError(t, c.AddResource("machine.schema.json", parsed(t, exchange.Schema)))
	schema, err := c.Compile("machine.schema.json")
	require.NoError(t, err)
	return schema
}

func parsed(t testing.TB, file []byte) any {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(file))
	require.NoError(t, err)
	return v
}

// One change after another at every place of a whole file, and what Read says of it the schema says too.
func TestSchemaAgreesWithRead(t *testing.T) {
	schema := compiled(t)
	require.NoError(t, schema.Validate(parsed(t, whole(t))))
	tried, refused := 0, 0
	agree := func(root any, what string) {
		file, err := json.Marshal(root)
		require.NoError(t, err)
		_, err = exchange.Read(bytes.NewReader(file))
		require.Equal(t, err == nil, schema.Validate(parsed(t, file)) == nil, "%s: %v", what, err)
		tried++
		if err != nil {
			refused++
		}
	}
	root := parsed(t, whole(t))
	// That an upgrade's axis is in the file is more than a schema can say.
	first := root.(map[string]any)["machine"].(map[string]any)["upgrades"].([]any)[0].(map[string]any)
	for _, other := range []any{json.Number("7"), nil, []any{}} {
		first["axis"] = other
		agree(root, "an axis that is no text")
	}
	delete(first, "axis")
	logged := root.(map[string]any)["machine"].(map[string]any)["log"].([]any)[0].(map[string]any)
	for _, other := range []any{json.Number("7"), nil, []any{}} {
		logged["axis"], logged["upgrade"] = other, "2"
		agree(root, "an entry of an axis that is no text")
		logged["axis"], logged["upgrade"] = "cross", other
		agree(root, "an entry of an upgrade that is no text")
	}
	delete(logged, "axis")
	delete(logged, "upgrade")
	var visit func(v any, path string)
	visit = func(v any, path string) {
		switch v := v.(type) {
		case map[string]any:
			for _, name := range slices.Sorted(maps.Keys(v)) { // the map is changed on the way
				was := v[name]
				delete(v, name)
				agree(root, path+" without "+name)
				for _, other := range []any{json.Number("7"), json.Number("1.5"), true, nil, "Not one of them", []any{},
					[]any{json.Number("1")}, map[string]any{"typed": json.Number("1")}, "2026-02-30",
					"another", "3", "", map[string]any{}, map[string]any{"another": "3"}, map[string]any{"typed": "3"}} {
					v[name] = other
					agree(root, fmt.Sprintf("%s with %s %v", path, name, other))
				}
				v[name] = was
				visit(was, path+"."+name)
			}
			for _, extra := range []string{"of_tomorrow", "Not a key", "type", "a.b", "a.if", "", "a..b", "9a"} {
				v[extra] = "x"
				agree(root, path+" and "+extra)
				delete(v, extra)
			}
		case []any:
			for i, was := range v {
				v[i] = json.Number("7")
				agree(root, fmt.Sprintf("%s[%d] is 7", path, i))
				v[i] = was
				visit(was, fmt.Sprintf("%s[%d]", path, i))
			}
		}
	}
	visit(root, "")
	require.Greater(t, refused, 500)
	require.Greater(t, tried-refused, 200)
}
