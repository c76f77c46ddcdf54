#!/usr/bin/env python3
"""A cycle log of 10 million rows into a docket's tables, beside the SQLite shell's .import of the same file, in turn; then
the same sums by operator and shift, over the stored blocks and in SQL over the plain rows. Prints times and ratios.

    run.py PROGRAM [ROWS [PAIRS]]     PROGRAM is the built cycle_log; needs sqlite3. Fails where the two do not agree.
"""
import os
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

program = sys.argv[1]
rows = int(sys.argv[2]) if len(sys.argv) > 2 else 10_000_000
pairs = int(sys.argv[3]) if len(sys.argv) > 3 else 4


def timed(*command):
    """What it printed, wall time [s], processor time [s], peak memory [MB]."""
    start = time.monotonic()
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    out = process.stdout.read()
    _, status, used = os.wait4(process.pid, 0)
    if status != 0:
        sys.exit(f"{command[0]} failed")
    return out, time.monotonic() - start, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def median(values):
    return statistics.median(values)


def spread(values, digits=1):
    return f"{min(values):.{digits}f} to {max(values):.{digits}f}"


with tempfile.TemporaryDirectory() as place:
    log, docket, plain = (str(pathlib.Path(place) / name) for name in ("log.csv", "log.docket", "plain.sqlite"))
    subprocess.run([program, "make", log, str(rows), "1"], check=True)
    sha256 = subprocess.run(["sha256sum", log], check=True, capture_output=True, text=True).stdout.split()[0]
    print(f"{rows:,} rows, 8 columns, {os.path.getsize(log) / 1e6:.0f} MB; load averages {os.getloadavg()}", flush=True)
    ours, theirs, peak = [], [], 0
    for _ in range(pairs):
        for path in (docket, plain):
            pathlib.Path(path).unlink(missing_ok=True)
        shell = timed("sqlite3", plain,
                      "CREATE TABLE plain (started_at TEXT, cycle_s REAL, unit TEXT, variant TEXT, station TEXT, "
                      "shift TEXT, operator TEXT, mark TEXT)", f".import --csv --skip 1 {log} plain")
        load = timed(program, "load", log, docket)
        read, _, hashed = load[0].split()
        if int(read) != rows or hashed != sha256:
            sys.exit("the log was not read whole")
        ours.append(load[1:3])
        theirs.append(shell[1:3])
        peak = max(peak, load[3])
        print(f"  into the docket {load[1]:.2f} s ({load[2]:.2f} s of processor), .import {shell[1]:.2f} s "
              f"({shell[2]:.2f} s), ratio {shell[1] / load[1]:.1f}", flush=True)
    ratios = [t[0] / o[0] for o, t in zip(ours, theirs)]
    print(f"in: {median([o[0] for o in ours]):.2f} s, {median(ratios):.1f} times as fast as .import ({spread(ratios)}); "
          f"by processor time {median([t[1] / o[1] for o, t in zip(ours, theirs)]):.1f} times; peak {peak:.0f} MB; "
          f"{os.path.getsize(docket) / rows:.2f} bytes a row (plain rows {os.path.getsize(plain) / rows:.0f})")
    out = subprocess.run([program, "group", docket, plain, str(pairs)], check=True, capture_output=True, text=True).stdout
    found = [[float(x) for x in line.split()] for line in out.splitlines()]
    ratios = [f[2] / f[1] for f in found]
    print(f"sums: {found[0][0]:.0f} groups in {median([f[1] for f in found]):.3f} s ({spread([f[1] for f in found], 3)}), "
          f"{median(ratios):.0f} times as fast as SQL over the plain rows ({spread(ratios, 0)})")
