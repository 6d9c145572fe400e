#!/usr/bin/python3
"""Checks that our schemas tell an editor what a key is: whoever writes a file sees it while writing.

Of every key: a description where an editor looks for it (on the key's own schema, or on the one definition that it
refers to: draft-07 ignores what stands beside a $ref; and not twice, for an editor shows that of a part), the unit in words where the name of the key ends in one, and an
example, unless the key takes words of a list, true or false, or is an object or a list of objects, whose own keys have
them. Every example, everywhere, is valid against its own schema under draft 2020-12 and draft-07.

Usage: editors.py SCHEMA...        Needs python3-jsonschema (4.10.3 in Debian 12).
Exit status: 0 all passed, 1 a schema failed, 2 wrong use.
"""

import re
import sys

from jsonschema.exceptions import SchemaError

from jsonschema import RefResolver
from validate import DRAFTS, join, load, others

# The endings of keys and their units in words; a longer ending comes first.
UNITS = [
    ("_pct_per_c", "percent per degree Celsius"), ("_v_per_c", "volts per degree Celsius"),
    ("_w_m2", "watts per square metre"), ("_kcmil", "thousands of circular mils"), ("_mohm", "megohms"),
    ("_pct", "percent"), ("_ka", "kiloamperes"), ("_kw", "kilowatts"), ("_mm", "millimetres"), ("_v", "volts"),
    ("_a", "amperes"), ("_w", "watts"), ("_c", "degrees Celsius"), ("_m", "metres"),
]
WHOLE_KEYS = {"a": "amperes", "v": "volts"}


STORE = {}  # all our schemas by their $id


def unit_of(key):
    if key in WHOLE_KEYS:
        return WHOLE_KEYS[key]
    return next((words for ending, words in UNITS if key.endswith(ending)), None)


def target(root, schema):
    """The schema itself, or the definition that it is a reference to."""
    while isinstance(schema, dict) and "$ref" in schema:
        name, _, path = schema["$ref"].partition("#")
        node = STORE[name] if name else root
        for step in path.strip("/").split("/") if path.strip("/") else []:
            node = node[step.replace("~1", "/").replace("~0", "~")]
        schema = node
    return schema


def parts(schema):
    """The schemas that a schema is made of, with their place below it."""
    for word in ("properties", "$defs", "patternProperties"):
        for key, below in schema.get(word, {}).items():
            yield f"/{word}/{key}", below
    for word in ("allOf", "anyOf", "oneOf"):
        for index, below in enumerate(schema.get(word, [])):
            yield f"/{word}/{index}", below
    for word in ("items", "additionalProperties", "not", "propertyNames"):
        if isinstance(schema.get(word), dict):
            yield f"/{word}", schema[word]


def needs_no_example(root, schema):
    """Whether what the key takes is told without one."""
    schema = target(root, schema)
    kinds = schema.get("type", [])
    kinds = {kinds} if isinstance(kinds, str) else set(kinds)
    if "const" in schema or "enum" in schema or kinds - {"null"} in ({"boolean"}, {"object"}):
        return True
    if "array" in kinds:
        return isinstance(schema.get("items"), dict) and needs_no_example(root, schema["items"])
    alternatives = schema.get("anyOf", []) + schema.get("allOf", [])
    return bool(alternatives) and all(
        target(root, one).get("type") == "null" or needs_no_example(root, one) for one in alternatives)


def complaints_of_key(root, key, schema):
    told = target(root, schema)
    description = told.get("description", "")
    if not isinstance(description, str) or not description.strip():
        yield "no description"
        return
    unit = unit_of(key)
    if unit and not re.search(rf"\b{re.escape(unit)}\b", description):
        yield f'the description does not name the unit, "{unit}"'
    if not told.get("examples") and not needs_no_example(root, schema):
        yield "no examples"


def complaints(root, schema, place):
    if not isinstance(schema, dict):
        return
    if "$ref" in schema and len(schema) > 1:
        yield f"{place}: draft-07 ignores what stands beside $ref: {', '.join(set(schema) - {'$ref'})}"
    for word in ("properties", "patternProperties"):
        for key, below in schema.get(word, {}).items():
            for line in complaints_of_key(root, key, below):
                yield f"{place}/{word}/{key}: {line}"
    for word in ("allOf", "anyOf", "oneOf"):
        for alternative in schema.get(word, []):
            if "description" in schema and "description" in target(root, alternative):
                yield f"{place}/{word}: has a description, which an editor shows in place of the one above it"
    if isinstance(schema.get("additionalProperties"), dict):  # keys of the writer's own choice
        for line in complaints_of_key(root, "", schema["additionalProperties"]):
            yield f"{place}/additionalProperties: {line}"
    for draft, validator in DRAFTS.items():
        for example in schema.get("examples", []):
            # The reference is resolved in the whole schema, of which this is a part.
            whole = {"$defs": root.get("$defs", {}), "allOf": [{k: v for k, v in schema.items() if k != "$id"}]}
            resolver = RefResolver("", whole, store=STORE, urljoin_cache=join)
            for error in validator(whole, resolver=resolver).iter_errors(example):
                yield f"{place}: {draft}: the example {example!r} is not valid: {error.message[:200]}"
    for below_place, below in parts(schema):
        yield from complaints(root, below, place + below_place)


def main(paths):
    if not paths:
        print(__doc__, file=sys.stderr)
        return 2
    failed = 0
    STORE.update(others(paths[0]))
    for path in paths:
        try:
            schema = load(path)
            for validator in DRAFTS.values():
                validator.check_schema(schema)
            lines = list(complaints(schema, schema, "#"))
            if "description" not in schema or "title" not in schema:
                lines.append("#: no title or no description")
        except (OSError, ValueError, KeyError, SchemaError) as error:
            lines = [getattr(error, "message", str(error))]
        for line in lines:
            print(f"{path}: {line}")
        failed += bool(lines)
    print(f"{len(paths) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
