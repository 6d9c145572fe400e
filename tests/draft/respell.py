#!/usr/bin/env python3
"""Reads a combiner schedule with Python's csv module and writes it another way that says the same.

The columns stand in the reverse order, every cell in quotes, behind a byte-order mark, lines end in LF, blank rows
stand between the others, and the values of a box in each of its rows.
Usage: respell.py SCHEDULE > OTHER
Exit status: 0 done, 2 wrong use, or the schedule is not what RFC 4180 calls CSV.
"""

import csv
import sys

OF_CIRCUIT = ("circuit_", "run", "module", "series", "strings")


def main(arguments):
    if len(arguments) != 1:
        print(__doc__, file=sys.stderr)
        return 2
    with open(arguments[0], encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file, strict=True))
    if len(rows) < 2 or any(len(row) != len(rows[0]) for row in rows):
        print("found rows of unlike lengths, expected a table", file=sys.stderr)
        return 2
    header, *boxes = rows
    out = sys.stdout
    out.reconfigure(encoding="utf-8-sig", newline="")
    writer = csv.writer(out, quoting=csv.QUOTE_ALL, lineterminator="\n")
    writer.writerow(reversed(header))
    first = None
    for row in boxes:
        if first is not None and row[0] == first[0]:
            row = [cell if name.startswith(OF_CIRCUIT) else stated for name, cell, stated in zip(header, row, first)]
        else:
            first = row
        writer.writerow(reversed(row))
        writer.writerow([])
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
