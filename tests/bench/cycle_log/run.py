#!/usr/bin/env python3
"""A cycle log of 10 million rows into a docket by `docket add`, beside the SQLite shell's .import of the same file, in turn;
then the same sums by operator and shift, over the stored blocks and in SQL over the plain rows; then `docket check` and
`docket brief` of dockets with 1, 3 and 10 million cycles. Prints times and ratios.

    run.py FOLDER [ROWS [PAIRS]]     FOLDER has the built cycle_log and docket; needs sqlite3. Fails where the two do not
                                     agree.
"""
import json
import os
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

programs = pathlib.Path(sys.argv[1])
bench, docket = str(programs / "cycle_log"), str(programs / "docket")
rows = int(sys.argv[2]) if len(sys.argv) > 2 else 10_000_000
pairs = int(sys.argv[3]) if len(sys.argv) > 3 else 4
VARIANTS = [35, 15, 11, 10, 8, 8, 7, 6]  # percent; the log is drawn so
CASE = {
    "case.csv": "key,value\ncase_ref,C-1\ntitle,Fan deck\nstation,ST-01\nline,Line 2\nline_cycle_s,55\n",
    "standard.csv": "element,description,class,time_s\nE10,place fan,va,30\nE20,fix screws,nnva,22\n",
    "variants.csv": "variant,share_percent\n" + "".join(f"V{i + 1},{p}\n" for i, p in enumerate(VARIANTS)),
    "operators.csv": "operator,trained\n" + "".join(f"K{i + 1},yes\n" for i in range(96)),
}


def timed(*command):
    """What it printed, wall time [s], processor time [s], peak memory [MB]."""
    start = time.monotonic()
    process = subprocess.Popen([str(word) for word in command], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    out, err = process.stdout.read(), process.stderr.read()
    _, status, used = os.wait4(process.pid, 0)
    if status != 0:
        sys.exit(f"{' '.join(map(str, command))} failed: {err[:1000]}")
    return out, time.monotonic() - start, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def median(values):
    return statistics.median(values)


def spread(values, digits=1):
    return f"{min(values):.{digits}f} to {max(values):.{digits}f}"


def make_log(path, count):
    subprocess.run([bench, "make", path, str(count), "1"], check=True)


def add(store, case, log):
    store.unlink(missing_ok=True)
    return timed(docket, "add", store, case, log, "--json")


def compare_with_import(place, case, log):
    store, plain = place / "log.docket", place / "plain.sqlite"
    sha256 = subprocess.run(["sha256sum", log], check=True, capture_output=True, text=True).stdout.split()[0]
    print(f"{rows:,} rows, 8 columns, {os.path.getsize(log) / 1e6:.0f} MB; load averages {os.getloadavg()}", flush=True)
    ours, theirs, peak = [], [], 0
    for _ in range(pairs):
        plain.unlink(missing_ok=True)
        shell = timed("sqlite3", plain,
                      "CREATE TABLE plain (started_at TEXT, cycle_s REAL, unit TEXT, variant TEXT, station TEXT, "
                      "shift TEXT, operator TEXT, mark TEXT)", f".import --csv --skip 1 {log} plain")
        load = add(store, case, log)
        added = json.loads(load[0])["files"][-1]
        if added["rows"] != rows or added["sha256"] != sha256:
            sys.exit("the log was not added whole")
        ours.append(load[1:3])
        theirs.append(shell[1:3])
        peak = max(peak, load[3])
        print(f"  docket add {load[1]:.2f} s ({load[2]:.2f} s of processor), .import {shell[1]:.2f} s "
              f"({shell[2]:.2f} s), ratio {shell[1] / load[1]:.1f}, by processor {shell[2] / load[2]:.1f}", flush=True)
    ratios = [t[0] / o[0] for o, t in zip(ours, theirs)]
    print(f"add: {median([o[0] for o in ours]):.2f} s, {median(ratios):.1f} times as fast as .import ({spread(ratios)}); "
          f"by processor time {median([t[1] / o[1] for o, t in zip(ours, theirs)]):.1f} times; peak {peak:.0f} MB; "
          f"{os.path.getsize(store) / rows:.2f} bytes a row (plain rows {os.path.getsize(plain) / rows:.0f})")
    out = subprocess.run([bench, "group", store, plain, str(pairs)], check=True, capture_output=True, text=True).stdout
    found = [[float(x) for x in line.split()] for line in out.splitlines()]
    ratios = [f[2] / f[1] for f in found]
    print(f"sums: {found[0][0]:.0f} groups in {median([f[1] for f in found]):.3f} s ({spread([f[1] for f in found], 3)}), "
          f"{median(ratios):.0f} times as fast as SQL over the plain rows ({spread(ratios, 0)})", flush=True)


def read_back(place, case, log, count):
    store = place / "back.docket"
    add(store, case, log)
    check = timed(docket, "check", store, "--json")
    counts = {one["table"]: one for one in json.loads(check[0])["tables"]}
    if counts["cycle_log"]["used"] != count:
        sys.exit("the log was not read back whole")
    brief = timed(docket, "brief", store, "--out", place / "out")
    sizes = ", ".join(f"{name} {os.path.getsize(place / 'out' / name) / 1e6:.1f} MB" for name in ("casefile.html", "findings.json"))
    for verb, (_, wall, processor, peak) in (("check", check), ("brief", brief)):
        print(f"{verb} of {count:,} cycles: {wall:.2f} s, {processor:.2f} s of processor, {peak:.0f} MB, "
              f"{peak * 2**20 / count:.0f} bytes a cycle" + (f"; {sizes}" if verb == "brief" else ""), flush=True)


with tempfile.TemporaryDirectory() as folder:
    here = pathlib.Path(folder)
    (here / "case").mkdir()
    for name, text in CASE.items():
        (here / "case" / name).write_text(text)
    (here / "log").mkdir()
    log_file = here / "log" / "cycle_log.csv"
    make_log(log_file, rows)
    if pairs > 0:
        compare_with_import(here, here / "case", log_file)
    for count in sorted({min(rows, 1_000_000), min(rows, 3_000_000), rows}):
        if count != rows:
            make_log(here / "cycle_log.csv", count)
        read_back(here, here / "case", log_file if count == rows else here / "cycle_log.csv", count)
