#!/usr/bin/python3
"""Holds a schema against the program that reads such files: what one refuses the other refuses, and they know the
same keys.

The file has every key of the format and is sound. Into each of its objects goes a key that nobody knows: the program
then lists those it knows. Each key is left out, and is given values of every kind and numbers at and beyond each bound.

What a schema cannot say, or says no more about than we want, is left out here: references to ids, values that must agree
with each other, days that the calendar has not, two equal ids; and the ends 1e9 of counts and 1e15 of quantities, which
only keep a slip of the keyboard out.

Usage: reader.py PROGRAM SCHEMA FILE [-- WORD...]
    WORD...: what to call the program with; FILE stands for the file to read, "check FILE" if not given.
Needs python3-jsonschema (4.10.3 in Debian 12).
Exit status: 0 all passed, 1 something failed, 2 wrong use.
"""

import copy
import json
import re
import subprocess
import sys
import tempfile

from editors import target
from validate import DRAFTS, load

UNKNOWN = "nobody-knows-this"
AT_ONCE = 40  # the program says 50 problems of a file in full
NUMBERS = [-4000, -100, -71, -1.5, -0.5, 0, 0.5, 1, 1.5, 2, 21, 31, 65, 75, 101, 151, 251, 401, 2001, 3001, 1000000]
OTHERS = [None, True, "", " ", "no such word", [], {}]
# Ids of other parts, and the path of another file.
REFERENCES = ("inverter", "type", "module", "conductor", "rule", "amendments")


def is_reference(path):
    return path[-1] in REFERENCES and "enclosure" not in path


def alone(path, entry, value):
    """Makes the value the only thing that can be wrong: takes away, or widens, what it must agree with."""
    key = path[-1]
    if path[0] == "modules":
        keep = {"voc_v": 400, "isc_a": 100}
        if key == "isc_rear_a":
            keep["isc_a"] = 0.0001
        if key in entry and key not in keep:
            keep[key] = entry[key]
        entry.clear()
        entry.update(keep)
    if key in ("strings", "strings_per_fuse") and "circuits" in path:
        circuit = entry["circuits"][0]
        circuit.pop("strings_per_fuse", None)
        if key == "strings_per_fuse" and type(value) is int and value > 0:
            circuit["strings"] = value


def members(root, schema, path=()):
    """Every key below a schema: its path (* for an element of a list or a member of a map), its schema, its owner's."""
    schema = target(root, schema)
    for alternative in schema.get("allOf", []) + schema.get("anyOf", []):
        yield from members(root, alternative, path)
    for key, below in schema.get("properties", {}).items():
        if key != "note":
            yield path + (key,), below
            yield from members(root, below, path + (key,))
    for word in ("items", "additionalProperties"):
        if isinstance(schema.get(word), dict):
            yield path + ("*",), schema[word]
            yield from members(root, schema[word], path + ("*",))


def objects(root, schema, path=()):
    """Every object below a schema with keys of its own: its path and the keys."""
    schema = target(root, schema)
    for alternative in schema.get("allOf", []) + schema.get("anyOf", []):
        yield from objects(root, alternative, path)
    if schema.get("additionalProperties") is False:
        yield path, set(schema.get("properties", {})) - {"note"}
    for key, below in schema.get("properties", {}).items():
        yield from objects(root, below, path + (key,))
    for word in ("items", "additionalProperties"):
        if isinstance(schema.get(word), dict):
            yield from objects(root, schema[word], path + ("*",))


def places(document, path):
    """The places of the document that fit a path."""
    if not path:
        yield ()
        return
    first, rest = path[0], path[1:]
    if isinstance(document, dict):
        keys = [first] if first in document else [k for k in document if k != "note"] if first == "*" else []
    else:
        keys = range(len(document)) if isinstance(document, list) and first == "*" else []
    for key in keys:
        for below in places(document[key], rest):
            yield (key,) + below


def at(document, place):
    for step in place:
        document = document[step]
    return document


def pointer(place):
    return "".join("/" + str(step) for step in place)


def numbers_of(root, schema):
    """The numbers that a schema names as bounds or values."""
    schema = target(root, schema)
    for word in ("minimum", "maximum", "exclusiveMinimum"):
        if word in schema:
            yield schema[word]
    for value in schema.get("enum", []):
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            yield value
    for alternative in schema.get("anyOf", []) + schema.get("allOf", []):
        yield from numbers_of(root, alternative)


def values_for(root, schema, path):
    values = NUMBERS + OTHERS
    for bound in numbers_of(root, schema):
        values += [bound - 1, bound - 0.001, bound, bound + 0.001, bound + 1]
    values += target(root, schema).get("enum", [])
    values += target(root, schema).get("examples", [])
    if is_reference(path):
        values = [value for value in values if not isinstance(value, str)]
    out = []
    for value in values:
        if not any(type(v) is type(value) and v == value for v in out):
            out.append(value)
    return out


class Absent:
    def __repr__(self):
        return "nothing"


ABSENT = Absent()


def put(document, place, value):
    owner = at(document, place[:-1])
    if value is ABSENT:
        owner.pop(place[-1], None)
    else:
        owner[place[-1]] = copy.deepcopy(value)


class Program:
    def __init__(self, path, words):
        self.path, self.words = path, words
        self.folder = tempfile.TemporaryDirectory()

    def problems(self, document):
        """Pointer and sentence of each problem that the program has with a document."""
        name = self.folder.name + "/file.json"
        with open(name, "w", encoding="utf-8") as file:
            json.dump(document, file)
        words = [name if word == "FILE" else word for word in self.words]
        run = subprocess.run([self.path, *words], capture_output=True, text=True, check=False)
        if run.returncode not in (0, 1, 3):
            raise RuntimeError(f"exit status {run.returncode}: {run.stderr[:300]}")
        lines = re.findall(rf"{re.escape(name)}:\d+:\d+: (?:(/[^ ]*): )?(.*)", run.stderr)
        if (run.returncode == 3) != bool(lines):
            raise RuntimeError(f"exit status {run.returncode}, and it said: {run.stderr[:300]}")
        return [line for line in lines if "which is not in /" not in line[1]]  # a reference to an id


def schema_at(root, path):
    """The schema of an entry of a list or map at the top."""
    schema = target(root, root["properties"][path[0]])
    return schema["items"] if "items" in schema else schema["additionalProperties"]


def refuses(root, schema, value):
    whole = {"$defs": root["$defs"], "allOf": [schema]}
    said = {draft: not validator(whole).is_valid(value) for draft, validator in DRAFTS.items()}
    if len(set(said.values())) > 1:
        raise RuntimeError(f"the drafts do not agree on {value!r}")
    return said["draft-07"]


def complaints(program, root, sample):
    known = {path for path, _ in members(root, root)}
    for path in sorted(known):
        if not any(places(sample, path)):
            yield f"{pointer(path)}: the file has no such key; it must have every key of the schema"

    # The keys that the program knows are those of the schema.
    document = copy.deepcopy(sample)
    wanted = {}
    for path, keys in objects(root, root):
        place = next(places(sample, path), None)
        if place is not None:
            at(document, place)[UNKNOWN] = 1
            wanted[pointer(place + (UNKNOWN,))] = keys
    told = {}
    for where, sentence in program.problems(document):
        listed = re.search(r"known keys are (.*)$", sentence)
        if listed:
            told[where] = set(listed[1].split(", ")) - {"note"}  # allowed everywhere
    for where, keys in wanted.items():
        if where not in told:
            yield f"{where}: the program takes a key that nobody knows"
        elif told[where] != keys:
            yield f"{where}: the program knows {sorted(told[where] - keys)} more and {sorted(keys - told[where])} less"

    # What one refuses the other refuses.
    for path, schema in members(root, root):
        place = next(places(sample, path), None)
        if place is None or path in (("$schema",), ("format",)):
            continue
        values = values_for(root, schema, path) + ([] if path[-1] == "*" else [ABSENT])
        in_entry = len(path) > 2 and path[1] == "*"
        yield from in_entries(program, root, sample, path, place, values) if in_entry else in_whole(
            program, root, sample, path, place, values)


def in_whole(program, root, sample, path, place, values):
    for value in values:
        document = copy.deepcopy(sample)
        put(document, place, value)
        yield from told_apart(path, value, bool(program.problems(document)), refuses(root, root, document))


def in_entries(program, root, sample, path, place, values):
    """Many values at once, each in a copy of the entry."""
    if path[2:] == ("id",):
        values = [value for value in values if value != at(sample, place)]  # of two equal ids the second is refused
    for start in range(0, len(values), AT_ONCE):
        document = copy.deepcopy(sample)
        holder = document[path[0]]
        entries = []
        for i, value in enumerate(values[start:start + AT_ONCE]):
            entry = copy.deepcopy(sample[path[0]][place[1]])
            if isinstance(entry, dict) and isinstance(entry.get("id"), str):
                entry["id"] += f"-{i}"
            alone(path, entry, value)
            put(entry, place[2:], value)
            if isinstance(holder, list):
                holder.append(entry)
                name = len(holder) - 1
            else:
                name = f"copy-{i}"
                holder[name] = entry
            entries.append((pointer((path[0], name)), value, entry))
        problems = [where for where, _ in program.problems(document)]
        for where, value, entry in entries:
            refused = any(p == where or p.startswith(where + "/") for p in problems)
            yield from told_apart(path, value, refused, refuses(root, schema_at(root, path), entry))


def told_apart(path, value, by_program, by_schema):
    told_apart.checked += 1
    if by_program != by_schema:
        yield (f"{pointer(path)}: {value!r} is {'refused' if by_program else 'taken'} by the program and "
               f"{'refused' if by_schema else 'taken'} by the schema")


told_apart.checked = 0


def main(arguments):
    words = ["check", "FILE"]
    if "--" in arguments:
        words = arguments[arguments.index("--") + 1:]
        arguments = arguments[:arguments.index("--")]
    if len(arguments) != 3:
        print(__doc__, file=sys.stderr)
        return 2
    program, root, sample = Program(arguments[0], words), load(arguments[1]), load(arguments[2])
    try:
        lines = [f"{where}: {sentence}" for where, sentence in program.problems(sample)]
        lines = lines or list(complaints(program, root, sample))
    except RuntimeError as error:
        lines = [str(error)]
    for line in lines:
        print(f"{arguments[1]}: {line}")
    print(f"{arguments[1]}: {told_apart.checked} values held against the program")
    print(f"{told_apart.checked - len(lines)} passed, {len(lines)} failed" if lines else
          f"{told_apart.checked} passed, 0 failed")
    return 1 if lines else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
