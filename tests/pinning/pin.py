#!/usr/bin/env python3
"""Changes each number of the data (editions, sampling plans), one at a time, and demands that a test then fails.

A number that can be changed unseen is not pinned by any test; each such survivor is printed.
A whole number becomes one more, any other number 1 % more (zero: one). One per cent, because a table's factor that is
off by so little is still wrong, while a change to a value that no table could hold is seen too easily.
Needs the program boxproof_tests_pinning, which reads its data from a folder. Tests tagged [slow] are left out.
Exit status: 0 every number is pinned, 1 a number is not, 2 wrong use or the unchanged data fails.
"""

import argparse
import json
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import SimpleQueue

ROOT = Path(__file__).resolve().parents[2]
GROUPS = ("editions", "sampling")  # folders of data/ that hold numbers
TIME_LIMIT_S = 300  # the whole suite takes a minute on an idle core


def numbers(value, path=()):
    """The paths of all numbers below a JSON value. True and false are no numbers, though Python counts them as such."""
    if isinstance(value, dict):
        for key, item in value.items():
            yield from numbers(item, (*path, key))
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from numbers(item, (*path, index))
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        yield path


def changed(number):
    if isinstance(number, int):
        return number + 1
    return number * 1.01 if number else 1.0


def pointer(path):
    """RFC 6901."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in path)


def write(file, document):
    file.write_text(json.dumps(document, ensure_ascii=False), encoding="utf-8")


class Pin:
    def __init__(self, program, data, jobs, scratch):
        self.program = program
        self.documents = {f"{group}/{path.name}": json.loads(path.read_text(encoding="utf-8"))
                          for group in GROUPS for path in sorted((data / group).glob("*.json"))}
        self.folders = SimpleQueue()
        for job in range(jobs):
            folder = Path(scratch) / str(job)
            shutil.copytree(data, folder)
            for name, document in self.documents.items():  # written as the changed ones are, so that only numbers differ
                write(folder / name, document)
            self.folders.put(folder)

    def run_tests(self, folder):
        """The exit status, None where the time ran out, and the output."""
        environment = {**os.environ, "BOXPROOF_TEST_DATA": str(folder)}
        try:
            done = subprocess.run([self.program, "--abort", "~[slow]"], env=environment, stdin=subprocess.DEVNULL,
                                  stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=TIME_LIMIT_S)
        except subprocess.TimeoutExpired:
            return None, ""
        return done.returncode, done.stdout.decode(errors="replace")

    def unchanged(self):
        """Whether the tests pass on the data as it is, and there are tests at all (Catch2 calls none a success)."""
        folder = self.folders.get()
        status, output = self.run_tests(folder)
        self.folders.put(folder)
        if status == 0 and re.search(r"All tests passed \([1-9]", output):
            return True
        print(f"{output[-3000:]}\nthe unchanged data: exit status {status}, expected 0 with at least one assertion")
        return False

    def complaint(self, target):
        """Nothing where the change is noticed, else a line about the survivor."""
        name, path = target
        document = json.loads(json.dumps(self.documents[name]))
        *parents, last = path
        parent = document
        for step in parents:
            parent = parent[step]
        before = parent[last]
        parent[last] = changed(before)
        folder = self.folders.get()
        try:
            write(folder / name, document)
            status, _ = self.run_tests(folder)
        finally:
            write(folder / name, self.documents[name])
            self.folders.put(folder)
        if status is None:
            return f"{name} {pointer(path)}: {before} -> {parent[last]}: no end after {TIME_LIMIT_S} s"
        return None if status else f"{name} {pointer(path)}: {before} -> {parent[last]}: no test fails"


def options(arguments):
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program", type=Path, help="boxproof_tests_pinning")
    parser.add_argument("--data", type=Path, default=ROOT / "data", help="the data folder (default: this project's)")
    parser.add_argument("--sample", type=int, help="only so many numbers, picked at random")
    parser.add_argument("--seed", type=int, default=1, help="of the random pick (default 1)")
    parser.add_argument("--jobs", type=int, default=2, help="test runs at a time (default 2)")
    return parser.parse_args(arguments)


def main(arguments):
    chosen = options(arguments)
    if not chosen.program.is_file() or not all((chosen.data / group).is_dir() for group in GROUPS) or chosen.jobs < 1:
        print(f"found no program {chosen.program}, no data in {chosen.data}, or no jobs", file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as scratch:
        pin = Pin(chosen.program.resolve(), chosen.data, chosen.jobs, scratch)
        targets = [(name, path) for name, document in pin.documents.items() for path in numbers(document)]
        if chosen.sample is not None:
            targets = random.Random(chosen.seed).sample(targets, min(chosen.sample, len(targets)))
        if not targets:
            return 2
        failed = 0
        with ThreadPoolExecutor(chosen.jobs) as pool:
            unchanged = pool.submit(pin.unchanged)
            for line in pool.map(pin.complaint, targets):
                if line:
                    failed += 1
                    print(line, flush=True)
            if not unchanged.result():  # then every change seems to be noticed
                return 2
    print(f"{len(targets) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
