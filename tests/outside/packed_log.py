#!/usr/bin/python3 -B
"""Every row set apart leads back to its line in the file, also where the log came by way of a docket that packed it.

    tests/outside/packed_log.py [DOCKET_PROGRAM]

A log with titles, notes, quoted line breaks, rows of other stations, marks, and rows without operator or variant goes
into a docket. Then each entry of `excluded` in findings.json is looked up in the file by its line number, and the file is
read here again, row by row, to see that no row is missing. One log stands row for row, one has so many rows set apart
that rows alike stand together.
"""
import json
import random
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

from inputs import DOCKET, SETTING

CASE = {
    "case.csv": "key,value\ncase_ref,C-1\ntitle,Fan deck\nstation,ST-07\nline,Line 2\nline_cycle_s,55\n",
    "standard.csv": "element,description,class,time_s\nE10,place fan,va,30\nE20,fix screws,nnva,20\n",
    "variants.csv": "variant,share_percent\nV1,75\nV2,25\n",
    "operators.csv": "operator,trained\nA1,yes\nB2,yes\nC3,no\n",
}
COLUMNS = "started_at,cycle_s,cycle_is,unit,variant,station,shift,operator,mark".split(",")
wrong = []


def write_log(path, rows):
    """Returns by line number what a row says: a dictionary of its cells."""
    chance = random.Random(3)
    lines, by_line = ["Line 2, from the controller", ",".join(COLUMNS)], {}
    number = 2  # lines so far
    for i in range(rows):
        if chance.random() < 0.001:
            lines.append("# the shift begins")
            number += 1
        here = chance.random() < 0.3
        row = {
            "started_at": f"2026-{1 + i // 40320 % 12:02d}-{1 + i // 1440 % 28:02d} {i // 60 % 24:02d}:{i % 60:02d}:00",
            "cycle_s": f"{45 + i * 7919 % 1000 / 100:.2f}",
            "cycle_is": "line" if here and chance.random() < 0.02 else "",
            "unit": f"HP-{i:07d}" if chance.random() > 0.01 else f'"HP\n{i}"',
            "variant": chance.choice(["V1", "V1", "V2"]) if chance.random() > 0.02 else "",
            "station": chance.choice(["ST-07", "st-07", ""]) if here else f"ST-{chance.choice([6, 8]):02d}",
            "shift": "early",
            "operator": chance.choice(["A1", "B2", "C3"]) if chance.random() > 0.02 else "",
            "mark": chance.choice(["helped", "starved", "defect;skipped"]) if chance.random() < 0.03 else "",
        }
        by_line[number + 1] = row
        text = ",".join(row.values())
        lines.append(text)
        number += 1 + text.count("\n")
    path.write_text("\n".join(lines) + "\n")
    return by_line


def reason_of(row):
    """Why a row is set apart, by the rules of the document; None for a plain cycle of a person."""
    if row["station"] not in ("ST-07", "st-07", ""):
        return "other_station"
    if row["cycle_is"] == "line":
        return "line_time"
    if not row["operator"]:
        return "no_operator"
    if not row["variant"]:
        return "no_variant"
    return "mark" if row["mark"] else None


def check(rows, singly):
    with tempfile.TemporaryDirectory(prefix="docket-packed-") as folder:
        place = Path(folder)
        (place / "in").mkdir()
        for name, text in CASE.items():
            (place / "in" / name).write_text(text)
        by_line = write_log(place / "in" / "cycle_log.csv", rows)
        for words in (["add", place / "c.docket", place / "in"],
                      ["brief", place / "c.docket", "--out", place / "out"]):
            done = subprocess.run([DOCKET, *map(str, words)], env=SETTING, capture_output=True, text=True)
            if done.returncode != 0:
                sys.exit(f"{words[0]} ended with {done.returncode}: {done.stderr[:2000]}")
        findings = json.loads((place / "out" / "findings.json").read_text())
        seen = {}
        together = 0
        for entry in findings["excluded"]:
            if (entry["file"], entry["table"]) != ("cycle_log.csv", "cycle_log"):
                wrong.append(f"an entry of another file or table: {entry}")
            last = entry.get("last_row", entry["row"])
            together += last > entry["row"]
            for line in range(entry["row"], last + 1):
                if line in seen:
                    wrong.append(f"line {line} stands there twice")
                seen[line] = (entry["reason"], entry["mark"])
        right = {line: (reason, row["mark"]) for line, row in by_line.items() if (reason := reason_of(row))}
        for line in sorted(set(seen) | set(right)):
            if seen.get(line) != right.get(line):
                wrong.append(f"line {line}: {seen.get(line)}, should be {right.get(line)}: {by_line.get(line)}")
        if (together == 0) != singly:
            wrong.append(f"{len(seen)} rows set apart, {together} entries of more than one row")
        counts = {count["table"]: count for count in findings["counts"]}
        if counts["cycle_log"]["read"] != rows or counts["cycle_log"]["used"] != rows:
            wrong.append(f"rows read: {counts['cycle_log']}, should be {rows}")
        for reason in ("other_station", "line_time", "no_operator", "no_variant", "mark"):
            if not any(found[0] == reason for found in right.values()):
                wrong.append(f"no row of the log is set apart as {reason}")
        print(f"{rows:,} rows, {len(right):,} set apart: {dict(Counter(found[0] for found in right.values()))}")


check(60_000, singly=True)
check(180_000, singly=False)
print("\n".join(wrong[:40]) or "every row set apart leads back to its line")
sys.exit(1 if wrong else 0)
