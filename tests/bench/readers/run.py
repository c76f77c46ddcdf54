#!/usr/bin/python3
"""Times the readers beside others in one run, and prints the ratios.

    run.py PROGRAM     PROGRAM is the built readers_speed; needs python3-openpyxl and libreoffice-calc-nogui.
                       No test: nothing fails here.
"""
import datetime
import gzip
import pathlib
import subprocess
import sys
import tempfile
import time

import openpyxl

PROGRAM = pathlib.Path(sys.argv[1]).resolve()


def read(path):
    words = subprocess.run([PROGRAM, "read", path], check=True, capture_output=True, text=True).stdout.split()
    return {name: float(value) for name, value in zip(words[::2], words[1::2])}


def read_by_openpyxl(path):
    begin, processor = time.perf_counter(), time.process_time()
    cells = sum(len(row) for sheet in openpyxl.load_workbook(path, read_only=True, data_only=True)
                for row in sheet.iter_rows(values_only=True))
    return {"seconds": time.perf_counter() - begin, "processor": time.process_time() - processor, "cells": cells}


def both(slow, fast):
    """How many times as fast, by the clock and, where others share the machine, by processor time."""
    return ", ".join(f"{slow[k] / fast[k]:.1f} by {word}" for k, word in (("seconds", "the clock"), ("processor", "processor time")))


def make_events(path, cycles):
    def event(at, transition, unit):
        return (f'<event><string key="concept:name" value="HP-11"/><string key="org:resource" value="B{unit % 9 + 1}"/>'
                f'<string key="lifecycle:transition" value="{transition}"/>'
                f'<date key="time:timestamp" value="{at.isoformat()}"/></event>\n')
    at = datetime.datetime(2026, 3, 2)
    with gzip.open(path, "wt", compresslevel=6) as out:
        out.write('<log xes.version="1849.2016">\n')
        for unit in range(cycles):
            start = at + datetime.timedelta(seconds=58 * unit)
            end = start + datetime.timedelta(milliseconds=50_000 + unit * 7919 % 10_000)
            out.write(f'<trace><string key="concept:name" value="U{unit}"/>\n{event(start, "start", unit)}'
                      f'{event(end, "complete", unit)}</trace>\n')
        out.write("</log>\n")


with tempfile.TemporaryDirectory() as made:
    place = pathlib.Path(made)
    large, small, events = place / "large.xlsx", place / "small.xlsx", place / "events.xes.gz"
    subprocess.run([PROGRAM, "make", large, "1000000"], check=True)
    subprocess.run([PROGRAM, "make", small, "100000"], check=True)
    make_events(events, 500_000)
    subprocess.run(["soffice", f"-env:UserInstallation=file://{place}/profile", "--headless", "--convert-to", "ods",
                    "--outdir", place, small], check=True, capture_output=True)
    ours = read(large)
    theirs = read_by_openpyxl(large)
    xlsx, ods = (min((read(place / name) for _ in range(3)), key=lambda r: r["processor"])
                 for name in ("small.xlsx", "small.ods"))
    xes = read(events)
print(f"XLSX 1,000,000 x 8: {ours['seconds']:.2f} s, {ours['cells']:.0f} cells, {ours['peak_mb']:.0f} MB of which values "
      f"{ours['values_mb']:.0f} MB; openpyxl read-only: {theirs['seconds']:.1f} s, {theirs['cells']} cells; "
      f"{both(theirs, ours)}")
print(f"100,000 x 8: XLSX {xlsx['processor']:.2f} s, ODS {ods['processor']:.2f} s of processor time; ODS takes "
      f"{both(ods, xlsx)}")
print(f"XES, packed, 1,000,000 events: {xes['seconds']:.2f} s, {xes['rows'] - 1:.0f} cycles, {xes['peak_mb']:.0f} MB of "
      f"which values {xes['values_mb']:.0f} MB")
