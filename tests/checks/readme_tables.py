#!/usr/bin/env python3
"""The README's list of tables and columns is what the program declares.

    tests/checks/readme_tables.py --docket PROGRAM [--accept] [README]

--accept writes the list into the README. Exit status 1 where they differ.
"""
import argparse
import pathlib
import subprocess
import sys

BEGIN, END = "<!-- tables -->\n", "<!-- /tables -->\n"


def main():
    root = pathlib.Path(__file__).resolve().parents[2]
    parser = argparse.ArgumentParser()
    parser.add_argument("--docket", required=True)
    parser.add_argument("--accept", action="store_true")
    parser.add_argument("readme", nargs="?", default=root / "README.md", type=pathlib.Path)
    given = parser.parse_args()

    declared = subprocess.run([given.docket, "template", "--tables"], capture_output=True, text=True, check=True).stdout
    text = given.readme.read_text(encoding="utf-8")
    before, rest = text.split(BEGIN)
    listed, after = rest.split(END)
    if listed == declared:
        return 0
    if given.accept:
        given.readme.write_text(before + BEGIN + declared + END + after, encoding="utf-8")
        return 0
    print("README.md: the list of tables and columns is not what `docket template --tables` prints.")
    print("Run tests/checks/readme_tables.py --docket PROGRAM --accept, and read the difference.")
    return 1


if __name__ == "__main__":
    sys.exit(main())
