#!/usr/bin/python3
"""Validates JSON files against one of our schemas, under draft 2020-12 and under draft-07.

Both drafts, because editors that know only draft-07 must read the schemas alike. A schema may refer to the others of
its folder by their $id. A schema of others that says it is of draft-04 is taken under that.
Usage: validate.py SCHEMA FILE...        Needs python3-jsonschema (4.10.3 in Debian 12).
Exit status: 0 all passed, 1 a file or the schema itself failed, 2 wrong use.
"""

import json
import sys
from pathlib import Path
from urllib.parse import urljoin

from jsonschema import Draft4Validator, Draft7Validator, Draft202012Validator, RefResolver
from jsonschema.exceptions import SchemaError

DRAFTS = {"2020-12": Draft202012Validator, "draft-07": Draft7Validator}
OLD = {"draft-04": Draft4Validator}


def drafts_of(schema):
    return OLD if "draft-04" in schema.get("$schema", "") else DRAFTS


def no_duplicates(pairs):
    """json keeps the last of two equal keys and stays silent; the program calls them an error, so do we."""
    seen = {}
    for key, value in pairs:
        if key in seen:
            raise ValueError(f"duplicate key {key!r}")
        seen[key] = value
    return seen


def not_finite(word):
    raise ValueError(f"{word} is no JSON number")


def load(path):
    with open(path, encoding="utf-8-sig") as file:
        return json.load(file, object_pairs_hook=no_duplicates, parse_constant=not_finite)


def where(error):
    return "/" + "/".join(str(step) for step in error.absolute_path)


def join(base, reference):
    """urllib knows no urn: "#/$defs/box" within urn:boxproof:report:1 would lose whose it is."""
    return base.partition("#")[0] + reference if reference.startswith("#") else urljoin(base, reference)


def others(schema_path):
    """The schemas of the folder by their $id, and by the name of their file."""
    named = {path.name: load(path) for path in sorted(Path(schema_path).parent.glob("*.schema.json"))}
    return named | {schema["$id"]: schema for schema in named.values() if "$id" in schema}


def complaints(schema, store, document):
    """One line for each error, the draft in front."""
    for draft, validator in drafts_of(schema).items():
        resolver = RefResolver(schema.get("$id", schema.get("id", "")), schema, store=store, urljoin_cache=join)
        errors = validator(schema, resolver=resolver).iter_errors(document)
        for error in sorted(errors, key=where):
            yield f"{draft}: {where(error)}: {error.message[:300]}"


def main(arguments):
    if len(arguments) < 2:
        print(__doc__, file=sys.stderr)
        return 2
    schema_path, *paths = arguments
    try:
        schema, store = load(schema_path), others(schema_path)
        for validator in drafts_of(schema).values():
            validator.check_schema(schema)
    except (OSError, KeyError, ValueError, SchemaError) as error:
        print(f"{schema_path}: {getattr(error, 'message', error)}")
        print(f"0 passed, {len(paths)} failed")
        return 1
    failed = 0
    for path in paths:
        try:
            lines = list(complaints(schema, store, load(path)))
        except (OSError, ValueError) as error:
            lines = [str(error)]
        for line in lines:
            print(f"{path}: {line}")
        failed += bool(lines)
    print(f"{len(paths) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
