"""Holds documents against a JSON Schema with the jsonschema package (Draft 2020-12).

In: JSON on standard input: {"schema": path, "documents": [{"form": "toml" or "json", "text": ...}]}.
Out: {"versions": ..., "faults": [[message, ...] for each document]}; paths count from the project.
"""

import importlib.metadata
import json
import pathlib
import sys
import tomllib

import jsonschema

ROOT = pathlib.Path(__file__).resolve().parents[2]


def document(entry):
    return tomllib.loads(entry["text"]) if entry["form"] == "toml" else json.loads(entry["text"])


question = json.load(sys.stdin)
schema = json.loads((ROOT / question["schema"]).read_text(encoding="utf-8"))
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)
faults = [
    [f"{'/'.join(map(str, fault.absolute_path))}: {fault.message}" for fault in validator.iter_errors(document(entry))]
    for entry in question["documents"]
]
json.dump({"versions": f"jsonschema {importlib.metadata.version('jsonschema')}", "faults": faults}, sys.stdout)
