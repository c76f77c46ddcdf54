#!/usr/bin/python3
"""Runs golden folders: what a command prints, its exit status, and which files it leaves.

A folder <verb>_<what>/ holds
  cmd     the arguments; @samples stands for the folder of the sample cases. Several lines run one after the other:
          out and err are those of all, code is that of the last
  in/     input, copied to where the command runs
  out     what it prints (absent: nothing)        err   what it says on stderr (absent: nothing)
  code    its exit status (absent: 0)             made  the files it makes, a line each (absent: none)
  files/  those of the files made that are compared byte by byte

    tests/golden/run_golden.py [--docket PROGRAM] [--accept] [FOLDER...]

--accept writes out, err, code and made anew, and those of files/ that are there. Read the difference like code.
"""
import argparse
import difflib
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

GOLDEN = Path(__file__).resolve().parent
ROOT = GOLDEN.parent.parent
SETTING = {"LC_ALL": "C", "TZ": "UTC", "PATH": "/usr/bin:/bin"}


def files_in(folder):
    return {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}


def without_own_hash(printed):
    """The hash of a bag or docket just made changes with every word of the case file in it: that it is one is enough."""
    return re.sub(rb'(SHA-256 of it: |"station-docket/verify/1",\s+"sha256": ")[0-9a-f]{64}', rb"\1(64 digits)", printed)


def run(folder, docket, place):
    """Runs the command in `place`; returns what the folder should hold."""
    if (folder / "in").is_dir():
        shutil.copytree(folder / "in", place / "in")
    before = {name: (place / name).read_bytes() for name in files_in(place)}
    commands = (folder / "cmd").read_text().replace("@samples", str(ROOT / "sample-cases")).splitlines()
    # A sanitizer's options pass through; nothing else of the caller's setting does.
    setting = SETTING | {k: v for k, v in os.environ.items() if k.endswith("SAN_OPTIONS")}
    done = [subprocess.run([docket, *shlex.split(line)], cwd=place, env=setting, capture_output=True, timeout=100)
            for line in commands or [""]]
    after = {name: (place / name).read_bytes() for name in files_in(place)}
    made = sorted(name for name in after if before.get(name) != after[name])
    lost = sorted(name for name in before if name not in after)
    left = [p for p in place.rglob("*") if p.is_dir() and not any(p.iterdir())]
    made += [f"(lost) {name}" for name in lost]
    made += [f"(empty folder) {p.relative_to(place).as_posix()}" for p in sorted(left)]
    seen = {
        "out": without_own_hash(b"".join(one.stdout for one in done)),
        "err": b"".join(one.stderr for one in done),
        "code": b"" if done[-1].returncode == 0 else f"{done[-1].returncode}\n".encode(),
        "made": "".join(f"{name}\n" for name in made).encode(),
    }
    return seen, after


def show_difference(name, expected, seen):
    lines = difflib.unified_diff(
        expected.decode(errors="replace").splitlines(),
        seen.decode(errors="replace").splitlines(),
        f"{name} expected", f"{name} seen", lineterm="", n=2)
    print("\n".join(list(lines)[:80]))


def check(folder, docket, accept):
    with tempfile.TemporaryDirectory(prefix="golden-") as place:
        seen, after = run(folder, docket, Path(place))
    compared = files_in(folder / "files") if (folder / "files").is_dir() else set()
    seen |= {f"files/{name}": after.get(name, b"(not made)\n") for name in compared}
    right = True
    for name, value in sorted(seen.items()):
        path = folder / name
        expected = path.read_bytes() if path.is_file() else b""
        if value == expected:
            continue
        if accept:
            if value:
                path.write_bytes(value)
            else:
                path.unlink()
            print(f"{folder.name}: {name} written")
        else:
            right = False
            print(f"{folder.name}: {name} differs")
            show_difference(name, expected, value)
    return right


def main():
    reader = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    reader.add_argument("--docket", default=str(ROOT / "build/dev/bin/docket"))
    reader.add_argument("--accept", action="store_true")
    reader.add_argument("folders", nargs="*", metavar="FOLDER")
    given = reader.parse_args()
    names = given.folders or sorted(p.parent.name for p in GOLDEN.glob("*/cmd"))
    docket = os.path.abspath(given.docket)
    results = [check(GOLDEN / Path(name).name, docket, given.accept) for name in names]
    sys.exit(0 if all(results) else 1)


if __name__ == "__main__":
    main()
