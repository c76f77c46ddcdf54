#!/usr/bin/python3
"""Writes the workbooks of the sample cases.

All data are invented. The plant, its heat pumps, its stations, times, people and events do not exist; the cycles are
drawn from random numbers with a fixed seed. The workbooks only have the shape that a plant's own would have.

    /usr/bin/python3 sample-cases/make_workbooks.py        writes every workbook beside the README of its case

Same script, same bytes. It needs python3-openpyxl. The workbooks are in the repository, so nobody has to run this
unless a sample case changes.
"""

import pathlib
import sys

sys.dont_write_bytecode = True
HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))

import clashing_evidence  # noqa: E402
import heavy_variants  # noqa: E402
import settled_above  # noqa: E402
import still_learning  # noqa: E402
from workbook_writer import write_workbook  # noqa: E402

CASES = [
    ("heavy-variants-in-a-row/fan-deck.xlsx", heavy_variants.make_tables),
    ("evidence-that-clashes/hydraulic-block.xlsx", clashing_evidence.make_tables),
    ("fits-and-still-learning/control-box.xlsx", still_learning.make_tables),
    ("fits-and-one-above/base-frame.xlsx", settled_above.make_tables),
]


def main():
    for path, make_tables in CASES:
        target = HERE / path
        target.parent.mkdir(exist_ok=True)
        write_workbook(target, make_tables())
        print(f"{path}  {target.stat().st_size // 1024} KB")


if __name__ == "__main__":
    main()
