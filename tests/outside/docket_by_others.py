#!/usr/bin/python3 -B
"""Programs that are not ours look into dockets: sqlite3 (integrity_check, refused changes), zstd and sha256sum (the sources
are what was given), Python (every hash of the ledger again). And a brief of a docket is the brief of its files.

    tests/outside/docket_by_others.py [DOCKET_PROGRAM]
"""
import hashlib
import json
import subprocess
import sys
import tempfile
from pathlib import Path

from inputs import DOCKET, brief, golden_inputs, run, sample_cases

wrong = []


def sql(docket, question):
    return run("sqlite3", "-readonly", "-json", docket, question)


def rows_of(docket, question):
    answer = sql(docket, question)
    return json.loads(answer) if answer.strip() else []


def check_structure(name, docket):
    said = [row["integrity_check"] for row in rows_of(docket, "PRAGMA integrity_check")]
    if said != ["ok"]:
        wrong.append(f"{name}: integrity_check says {said}")
    if rows_of(docket, "PRAGMA foreign_key_check"):
        wrong.append(f"{name}: a row points to nothing")


def netstring(text):
    data = text.encode()
    return str(len(data)).encode() + b":" + data + b","


def check_ledger(name, docket):
    """As ingest/docket/ledger.h writes it."""
    previous = "0" * 64
    entries = rows_of(docket, "SELECT * FROM ledger ORDER BY number")
    if not entries:
        wrong.append(f"{name}: the ledger is empty")
    for entry in entries:
        form = b"".join(netstring(str(text)) for text in (
            "station-docket/ledger/1", entry["number"], entry["at"], entry["by_role"], entry["act"], entry["what"],
            entry["details"], previous))
        if hashlib.sha256(form).hexdigest() != entry["sha256"] or entry["previous"] != previous:
            wrong.append(f"{name}: entry {entry['number']} has another hash")
        previous = entry["sha256"]


def check_sources(name, docket, given, folder):
    """The parts unpacked by zstd, one after the other, have the hash sha256sum gives of the file."""
    stored = {}
    for source in rows_of(docket, "SELECT * FROM source"):
        number = source["source"]
        whole = b""
        for part in rows_of(docket, f"SELECT part FROM source_part WHERE source = {number} ORDER BY part"):
            packed = folder / "part.zst"
            run("sqlite3", "-readonly", docket,
                f"SELECT writefile('{packed}', packed) FROM source_part WHERE source = {number} AND part = {part['part']}")
            whole += subprocess.run(["zstd", "-dcq", packed], capture_output=True, check=True).stdout
        (folder / "source").write_bytes(whole)
        hashed = run("sha256sum", folder / "source").split()[0]
        if hashed != source["stored_sha256"] or hashed != source["sha256"] or len(whole) != source["bytes"]:
            wrong.append(f"{name}: source {number} is not what its hash says")
        stored[source["file"]] = hashed
    for path in given:
        if stored.get(path.name) != run("sha256sum", path).split()[0]:
            wrong.append(f"{name}: {path.name} is not in the docket as it was given")


def check_rows(name, docket):
    """Every row says file, table and row; none stands twice."""
    twice = rows_of(docket, "SELECT source, sheet, row, count(*) AS n FROM row_origin GROUP BY 1, 2, 3 HAVING n > 1")
    if twice:
        wrong.append(f"{name}: rows stand twice: {twice[:3]}")
    if not rows_of(docket, "SELECT 1 FROM row_origin WHERE file <> '' AND sheet = 'standard' AND row > 0 LIMIT 1"):
        wrong.append(f"{name}: no row of the standard says where it is from")


def check_refusals(name, docket):
    """Nothing in a docket can be changed or taken out, also with a program that is not ours."""
    for table in ("ledger", "source", "source_part", "sheet", "sheet_row"):
        column = {"ledger": "what", "source": "file", "source_part": "packed", "sheet": "name", "sheet_row": "cells"}[table]
        for change in (f"UPDATE {table} SET {column} = {column}", f"DELETE FROM {table}"):
            done = subprocess.run(["sqlite3", docket, change], capture_output=True, text=True)
            if done.returncode == 0:
                wrong.append(f"{name}: sqlite3 may say {change}")


def check_same_brief(name, docket, inputs, folder):
    """Byte by byte, but for nothing: the sources have the names and hashes of the files."""
    kept = brief(docket, folder / "kept")
    run(DOCKET, "brief", *inputs, "--out", folder / "loose")
    for file in sorted(p.name for p in (folder / "loose").iterdir()):
        if (kept / file).read_bytes() != (folder / "loose" / file).read_bytes():
            wrong.append(f"{name}: {file} of the docket is another than that of the files")


def check_large_log():
    """A log of 50,000 lines and more is packed; the case is the same, and so is the structure of the file."""
    small = golden_inputs()["brief_smallest"]
    with tempfile.TemporaryDirectory(prefix="docket-others-") as made:
        folder = Path(made)
        log = folder / "cycle_log.csv"
        lines = [f"2026-{1 + i // 40000:02d}-{1 + i % 40000 // 1440:02d} {i % 1440 // 60:02d}:{i % 60:02d}:00,"
                 f"{50 + i * 7919 % 1000 / 100:.2f},U{i},A{1 + i % 3}," + ("helped" if i % 97 == 0 else "")
                 for i in range(60000)]
        log.write_text("started_at,cycle_s,unit,operator,mark\n" + "\n".join(lines) + "\n")
        docket = folder / "case.docket"
        run(DOCKET, "add", docket, small, log)
        check_structure("large log", docket)
        check_ledger("large log", docket)
        check_sources("large log", docket, [log], folder)
        stored = rows_of(docket, "SELECT sum(cycles) AS n, count(*) AS chunks FROM cycle_chunk")[0]
        if stored["n"] != len(lines):
            wrong.append(f"large log: {stored} instead of {len(lines)} cycles")
        if run(DOCKET, "check", docket, "--json") != run(DOCKET, "check", small, log, "--json"):
            wrong.append("large log: another case than from the files")
        check_same_brief("large log", docket, [small, log], folder)


def main():
    check_large_log()
    cases = sample_cases() | golden_inputs()
    for name, source in cases.items():
        with tempfile.TemporaryDirectory(prefix="docket-others-") as made:
            folder = Path(made)
            docket = folder / "case.docket"
            given = sorted(source.glob("*.csv")) if source.is_dir() else [source]
            run(DOCKET, "add", docket, source, "--by", "industrial engineering")
            check_structure(name, docket)
            check_ledger(name, docket)
            check_sources(name, docket, given, folder)
            check_rows(name, docket)
            check_refusals(name, docket)
            check_same_brief(name, docket, [source], folder)
            if [p.name for p in folder.glob("case.docket*")] != ["case.docket"]:
                wrong.append(f"{name}: more than one file is left")
    print("\n".join(wrong) or f"{len(cases)} dockets: structure, ledger, sources and briefs are as they should be")
    sys.exit(1 if wrong or not cases else 0)


main()
