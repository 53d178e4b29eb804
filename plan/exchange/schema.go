package exchange

import _ "embed"

// Schema is the JSON Schema (draft 2020-12) of a file. It cannot say that keys are distinct, nor that an
// upgrade's axis is in the file: [Read] does.
//
//go:embed machine.schema.json
var Schema []byte
