#!/usr/bin/python3 -B
"""Faults while a docket is written or kept: killed in the middle, disk full, read-only folder, several programs at once,
bytes flipped. After each everything committed before is there, and the message says what to do.

    tests/outside/docket_faults.py [DOCKET_PROGRAM]

The disk that is full is a small tmpfs where the check runs as root, a limit of the file size where it does not.
"""

import datetime
import json
import os
import pty
import random
import re
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from inputs import DOCKET, SETTING

NOBODY = 65534
wrong = []

CASE = {
    "case.csv": "key,value\ncase_ref,C-1\ntitle,Fan deck\nstation,ST-07\nline,Line 2\nline_cycle_s,55\n",
    "standard.csv": "element,description,class,time_s\nE10,place fan,va,30\nE20,fix screws,nnva,20\n",
}


def log_of(rows, day=3):
    """A cycle a minute from 6:00 to midnight, from a day of November 2026 on."""
    lines = ["started_at,cycle_s,operator,mark"]
    for i in range(rows):
        date = datetime.date(2026, 11, day) + datetime.timedelta(days=i // 1080)
        lines.append(f"{date} {6 + i % 1080 // 60:02d}:{i % 60:02d}:00,{50 + i % 70 / 10},A{1 + i % 3},")
    return "\n".join(lines) + "\n"


def docket(*words, **how):
    return subprocess.run([DOCKET, *map(str, words)], env=SETTING, capture_output=True, text=True, timeout=120, **how)


def expect(what, seen, right):
    if seen != right:
        wrong.append(f"{what[:600]}\n    seen:     {str(seen)[:600]}\n    expected: {str(right)[:600]}")


def expect_that(what, holds):
    if not holds:
        wrong.append(what[:600])


class Place:
    """A folder with a docket of a small case, and a log that is to be added."""

    def __init__(self, folder, rows=2000):
        self.folder = Path(folder)
        self.input = self.folder / "in"
        self.input.mkdir()
        for name, text in CASE.items():
            (self.input / name).write_text(text)
        self.log = self.folder / "more" / "cycle_log.csv"
        self.log.parent.mkdir()
        self.log.write_text(log_of(rows))
        self.kept = self.folder / "kept"
        self.kept.mkdir()
        self.docket = self.kept / "st-07.docket"
        done = docket("add", self.docket, self.input, "--at", "2026-11-03T14:30:00Z")
        expect("the first add", done.returncode, 0)
        self.before = self.history()

    def history(self):
        return docket("history", self.docket, "--json").stdout

    def add_log(self, **how):
        return docket("add", self.docket, self.log, "--at", "2026-11-04T14:30:00Z", **how)

    def packed_cycles(self):
        """The first block of a packed log; None where there is none."""
        with closing(sqlite3.connect(self.docket)) as database:
            found = database.execute("SELECT packed FROM cycle_chunk").fetchone()
            return found[0] if found else None

    def expect_unchanged(self, what):
        expect(f"{what}: the history afterwards", self.history(), self.before)
        expect(f"{what}: files left", sorted(p.name for p in self.kept.iterdir()), ["st-07.docket"])
        expect(f"{what}: integrity_check", integrity(self.docket), "ok")

    def expect_add_works(self, what):
        done = self.add_log()
        expect(f"{what}: the add afterwards ({done.stderr})", done.returncode, 0)
        expect(f"{what}: entries", len(json.loads(self.history())["entries"]), 2)


def integrity(path):
    with closing(sqlite3.connect(path)) as database:
        return database.execute("PRAGMA integrity_check").fetchone()[0]


@contextmanager
def place(**how):
    with tempfile.TemporaryDirectory(prefix="docket-faults-") as folder:
        os.chmod(folder, 0o755)
        yield Place(folder, **how)


def killed():
    """Killed at times spread over the whole add: before, in the middle and after what is written. A log row by row, and
    one that is packed."""
    for rows in (20000, 60000):
        killed_while_adding(rows)


def killed_while_adding(rows):
    with place(rows=rows) as at:
        began = time.monotonic()
        copy = at.folder / "copy.docket"
        shutil.copy(at.docket, copy)
        expect("an add of the log", docket("add", copy, at.log).returncode, 0)
        whole = time.monotonic() - began
        in_the_middle = 0
        for i in range(8):
            shutil.copy(at.docket, copy)
            running = subprocess.Popen([DOCKET, "add", copy, at.log], env=SETTING, stdout=subprocess.DEVNULL,
                                       stderr=subprocess.DEVNULL)
            journal = Path(f"{copy}-journal")
            if i % 2:
                time.sleep(whole * i / 8)
            else:  # while it is written
                while running.poll() is None and not journal.exists():
                    time.sleep(0.001)
                time.sleep(i * whole / 100)
            running.kill()
            running.wait()
            in_the_middle += journal.exists()
            entries = json.loads(docket("history", copy, "--json").stdout)["entries"]
            expect_that(f"kill {i}: {len(entries)} entries", len(entries) in (1, 2))
            expect(f"kill {i}: the first entry", entries[0], json.loads(at.before)["entries"][0])
            expect(f"kill {i}: integrity_check", integrity(copy), "ok")
            if len(entries) == 1:
                expect(f"kill {i}: the add again", docket("add", copy, at.log).returncode, 0)
            expect(f"kill {i}: check", docket("check", copy).returncode, 0)
            expect_that(f"kill {i}: a journal is left after the next add", not journal.exists())
        expect_that("no kill was in the middle of the writing", in_the_middle > 0)

        # The very first add: what is left is no docket yet, and the next add makes it.
        fresh = at.folder / "fresh.docket"
        running = subprocess.Popen([DOCKET, "add", fresh, at.input, at.log], env=SETTING, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL)
        while running.poll() is None and not Path(f"{fresh}-journal").exists():
            time.sleep(0.001)
        running.kill()
        running.wait()
        expect_that("the first add was not killed in the middle", Path(f"{fresh}-journal").exists())
        done = docket("history", fresh)
        expect("history of a docket killed at birth", (done.returncode, done.stderr.splitlines()[0]), (
            1, f"{fresh}: The docket is empty: nothing was added to it yet. Add the files of the case: docket add {fresh} "
               "station.xlsx."))
        expect("the first add again", docket("add", fresh, at.input, at.log).returncode, 0)
        expect("its integrity_check", integrity(fresh), "ok")


def stopped():
    """Ctrl-C while a large log is read: the docket is as it was at once, and one that was to be made is not there."""
    with place(rows=400_000) as at:
        for target, inputs in ((at.docket, [at.log]), (at.kept / "new.docket", [at.input, at.log])):
            journal = Path(f"{target}-journal")
            running = subprocess.Popen([DOCKET, "add", target, *inputs], env=SETTING, stdout=subprocess.PIPE,
                                       stderr=subprocess.PIPE, text=True)
            while running.poll() is None and not journal.exists():
                time.sleep(0.001)
            running.send_signal(signal.SIGINT)
            out, err = running.communicate()
            expect("a stopped add", (running.returncode, out, err), (
                3, "", f"{target}: The adding was stopped. Give the command again to add the files. Nothing was changed.\n"))
            at.expect_unchanged("stopped")
        at.expect_add_works("stopped")


def seen_at_a_terminal():
    """While a large log is read the line on a terminal has rows, rows a second and seconds left; it goes away again."""
    with place(rows=1_500_000) as at:
        ours, theirs = pty.openpty()
        running = subprocess.Popen([DOCKET, "add", at.docket, at.log], env=SETTING, stdout=subprocess.DEVNULL,
                                   stderr=theirs)
        os.close(theirs)
        seen = b""
        with suppress(OSError):  # the end of a terminal
            while part := os.read(ours, 4096):
                seen += part
        os.close(ours)
        expect("an add at a terminal", running.wait(), 0)
        lines = re.findall(r"reading the cycles: ([\d,. \u202f\u00a0]+) rows, ([\d,. \u202f\u00a0]+) a second, (\d+) s left",
                           seen.decode())
        expect_that(f"rows, rows a second and seconds left: {seen[:300]!r}", len(lines) > 3)
        rows = [int(re.sub(r"\D", "", found[0])) for found in lines]
        expect("rows grow", rows, sorted(rows))


def killed_then_read_only():
    """An add was cut off, and whoever looks may not write: it is said, and nothing is read that is half there."""
    if os.geteuid() != 0:
        return
    with place(rows=20000) as at:
        journal = Path(f"{at.docket}-journal")
        running = subprocess.Popen([DOCKET, "add", at.docket, at.log], env=SETTING, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL)
        size = at.docket.stat().st_size
        while running.poll() is None and at.docket.stat().st_size == size:
            pass
        running.kill()
        running.wait()
        expect_that("the add was not cut off while it wrote to the docket", journal.exists())
        done = docket("history", at.docket, user=NOBODY, group=NOBODY)
        expect("reading a cut-off add without the right to write", (done.returncode, done.stdout), (3, ""))
        expect_that(f"says what to do: {done.stderr}", "You must be allowed to write to the file and to its folder"
                    in done.stderr)
        at.expect_unchanged("killed, then read-only")


def disk_full():
    if os.geteuid() == 0:
        with place(rows=20000) as at:
            subprocess.run(["mount", "-t", "tmpfs", "-o", "size=512k", "none", at.kept], check=True)
            try:
                expect("an add on the small disk", docket("add", at.docket, at.input).returncode, 0)
                at.before = at.history()
                done = at.add_log()
                expect("an add on a full disk", (done.returncode, done.stdout), (3, ""))
                expect("its message", done.stderr, f"{at.docket}: There is no space left where the docket lies. Make space "
                       "there, then give the command again. Nothing was changed.\n")
                at.expect_unchanged("disk full")
                other = at.kept / "other.docket"
                expect("a first add on a full disk", docket("add", other, at.input, at.log).returncode, 3)
                at.expect_unchanged("disk full at the first add")
            finally:
                subprocess.run(["umount", at.kept], check=True)

    def small_files_only():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (300_000, 300_000))

    with place(rows=20000) as at:
        done = at.add_log(preexec_fn=small_files_only)
        expect("an add beyond the limit of a file", (done.returncode, done.stdout), (3, ""))
        expect_that(f"its message: {done.stderr}", done.stderr.startswith(
            f"{at.docket}: The disk did not take or give the docket") and done.stderr.endswith(
            "Check that there is space and that the disk is sound, then give the command again. Nothing was changed.\n"))
        at.expect_unchanged("file size limited")
        at.expect_add_works("file size limited")


def read_only_folder():
    with place() as at:
        as_nobody = {"user": NOBODY, "group": NOBODY} if os.geteuid() == 0 else {}
        os.chmod(at.docket, 0o444)
        os.chmod(at.kept, 0o555)
        try:
            remedy = ("You must be allowed to write to the file and to its folder; else copy the docket to a place where "
                      "you are. Nothing was changed.\n")
            done = at.add_log(**as_nobody)
            expect("an add into a read-only folder", (done.returncode, done.stdout), (3, ""))
            expect_that(f"its message: {done.stderr}", done.stderr.endswith(remedy))
            done = docket("add", at.kept / "new.docket", at.input, **as_nobody)
            expect("a new docket in a read-only folder", done.returncode, 3)
            expect_that(f"its message: {done.stderr}", done.stderr.endswith(remedy))
            expect("reading there", docket("history", at.docket, "--json", **as_nobody).stdout, at.before)
            expect("checking there", docket("check", at.docket, **as_nobody).returncode, 0)
        finally:
            os.chmod(at.kept, 0o755)
            os.chmod(at.docket, 0o644)
        at.expect_unchanged("read-only folder")
        # The file may be written, its folder not: no journal can be made.
        os.chmod(at.kept, 0o555)
        os.chmod(at.docket, 0o666)
        try:
            done = at.add_log(**as_nobody)
            expect("an add where only the folder is read-only", done.returncode, 3)
            expect_that(f"its message: {done.stderr}", done.stderr.endswith(remedy))
        finally:
            os.chmod(at.kept, 0o755)
        at.expect_unchanged("read-only folder, writable file")
        at.expect_add_works("read-only folder")


def several_at_once():
    with place() as at:
        held = sqlite3.connect(at.docket, isolation_level=None)
        held.execute("BEGIN IMMEDIATE")
        done = at.add_log()
        expect("an add while another program writes", (done.returncode, done.stderr), (
            3, f"{at.docket}: Another program is using this docket. Wait until it is done, then give the command again. "
               "Nothing was changed.\n"))
        expect("reading while another program writes", at.history(), at.before)
        held.execute("ROLLBACK")
        held.close()
        at.expect_unchanged("locked")

    for first in (False, True):  # into one that is there; all of them make it
        with place() as at:
            if first:
                at.docket.unlink()
            adds = []
            for i in range(4):
                log = at.folder / f"more{i}" / "cycle_log.csv"
                log.parent.mkdir()
                log.write_text(log_of(1500, day=3 + 3 * i))
                inputs = [at.input, log]
                adds.append(subprocess.Popen([DOCKET, "add", at.docket, *inputs, "--supersedes", "none"], env=SETTING,
                                             stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True))
            said = [(one.communicate()[1], one.returncode) for one in adds]
            for words, status in said:
                expect_that(f"at once: {status} {words}",
                            status == 0 or (status == 3 and "Another program is using this docket" in words))
            done = [status for _, status in said].count(0)
            history = docket("history", at.docket, "--json")
            if history.returncode != 0:
                wrong.append(f"at once: the docket can't be read: {history.stderr} {said}")
                continue
            history = json.loads(history.stdout)
            expect("entries of those that succeeded", len(history["entries"]), done + (0 if first else 1))
            expect("logs of those that succeeded", sum(s["file"] == "cycle_log.csv" for s in history["sources"]), done)
            expect("the case once", sum(s["file"] == "case.csv" for s in history["sources"]), 1)
            expect("files left", [p.name for p in at.kept.iterdir()], ["st-07.docket"])
            expect("integrity_check", integrity(at.docket), "ok")


def flipped_bytes():
    """A byte changed anywhere is found, or nobody reads it: no answer is ever another one. A log row by row, and one that
    is packed."""
    flip_bytes(1000, 150)
    flip_bytes(50_000, 50)


def flip_bytes(rows, times):
    chance = random.Random(7)
    with place(rows=rows) as at:
        expect("the log", at.add_log().returncode, 0)
        sound = at.docket.read_bytes()
        right = docket("check", at.docket, "--json").stdout
        found = unread = 0
        places = [*range(0, 100, 2), *(chance.randrange(len(sound)) for _ in range(times))]
        damages = [(f"byte {p}", sound[:p] + bytes([sound[p] ^ chance.randrange(1, 256)]) + sound[p + 1:]) for p in places]
        damages += [(f"cut at {n}", sound[:n]) for n in (1, 99, 100, 512, 4096, len(sound) // 2, len(sound) - 1)]
        for what, damaged in damages:
            at.docket.write_bytes(damaged)
            done = docket("check", at.docket, "--json")
            if done.returncode == 0:
                expect(f"{what}: an answer that is another one", done.stdout, right)
                unread += 1
                continue
            found += 1
            expect_that(f"{what}: status {done.returncode}, {done.stderr}", done.returncode in (1, 3, 4))
            expect_that(f"{what}: {done.stderr}", done.stderr.startswith(f"{at.docket}: ")
                        and "fault of the program" not in done.stderr)
            expect(f"{what}: something is printed", done.stdout, "")
            expect(f"{what}: files left", sorted(p.name for p in at.kept.iterdir()), ["st-07.docket"])
        print(f"flipped bytes, {rows} rows: {found} found, {unread} where nobody reads")
        at.docket.write_bytes(sound)
        if packed := at.packed_cycles():
            start = sound.index(packed[:100])  # the first of them; what follows may lie on other pages
            for where in range(start, start + 100):
                at.docket.write_bytes(sound[:where] + bytes([sound[where] ^ chance.randrange(1, 256)]) + sound[where + 1:])
                expect(f"a flipped byte of the packed cycles, {where}", docket("check", at.docket).returncode, 4)
            return
        expect_that(f"only {found} damages of {len(damages)} were found", found > unread)
        # Damage in the rows, past the structure of the file.
        where = sound.index(b"2026-11-03 16:10:00") + 15
        at.docket.write_bytes(sound[:where] + b"2" + sound[where + 1:])
        for command in (["check", at.docket], ["history", at.docket], ["brief", at.docket, "--out", at.folder / "out"],
                        ["add", at.docket, at.log]):
            done = docket(*command)
            if command[0] != "history":
                expect(f"{command[0]} of damaged rows ({done.stderr})", done.returncode, 4)
                expect_that(f"its message: {done.stderr}", "Take a copy of it from before the damage." in done.stderr)
        expect_that("a brief was written", not (at.folder / "out").exists())


checks = (killed, stopped, seen_at_a_terminal, killed_then_read_only, disk_full, read_only_folder, several_at_once, flipped_bytes)
for check in checks:
    began = time.monotonic()
    check()
    print(f"{check.__name__}: {time.monotonic() - began:.1f} s")
print("\n".join(wrong) or "after every fault everything committed before was there")
sys.exit(1 if wrong else 0)
