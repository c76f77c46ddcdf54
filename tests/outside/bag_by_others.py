#!/usr/bin/python3 -B
"""Sealed bags looked at without docket: Python's zipfile, sha256sum -c, the rules of RFC 8493 read again in Python (no
packaged reader of bags is at hand), sqlite3. And docket verify: every change is found, with exit status 4 and the file.

    tests/outside/bag_by_others.py [DOCKET_PROGRAM]
"""
import hashlib
import random
import re
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

from inputs import DOCKET, SETTING, run, sample_cases

AT = "2026-11-05T08:00:00Z"
wrong = []


def verify(bag):
    done = subprocess.run([DOCKET, "verify", str(bag)], env=SETTING, capture_output=True, text=True, timeout=300)
    return done.returncode, done.stdout + done.stderr


def check_rules(name, folder):
    """RFC 8493, 2.1 and 2.2: declaration, manifests complete and right, Payload-Oxum."""
    if (folder / "bagit.txt").read_bytes() != b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n":
        wrong.append(f"{name}: bagit.txt")
    files = {p.relative_to(folder).as_posix(): p for p in folder.rglob("*") if p.is_file()}
    for manifest, own in (("manifest-sha256.txt", lambda f: f.startswith("data/")),
                          ("tagmanifest-sha256.txt",
                           lambda f: not f.startswith("data/") and f != "tagmanifest-sha256.txt")):
        lines = (folder / manifest).read_text().splitlines()
        listed = {line.split("  ", 1)[1]: line.split("  ", 1)[0] for line in lines}
        if set(listed) != {f for f in files if own(f)}:
            wrong.append(f"{name}: {manifest} does not name each of its files once")
        for file, digest in listed.items():
            if hashlib.sha256(files[file].read_bytes()).hexdigest() != digest:
                wrong.append(f"{name}: {file} has another hash")
    payload = [p for f, p in files.items() if f.startswith("data/")]
    oxum = f"{sum(p.stat().st_size for p in payload)}.{len(payload)}"
    if f"Payload-Oxum: {oxum}\n" not in (folder / "bag-info.txt").read_text():
        wrong.append(f"{name}: Payload-Oxum is not {oxum}")


def check_unpacked(name, bag, place):
    with zipfile.ZipFile(bag) as packed:
        if packed.testzip():
            wrong.append(f"{name}: zipfile finds {packed.testzip()} damaged")
        packed.extractall(place)
    folders = list(place.iterdir())
    if len(folders) != 1:
        wrong.append(f"{name}: {len(folders)} folders at its top")
    folder = folders[0]
    for manifest in ("manifest-sha256.txt", "tagmanifest-sha256.txt"):
        run("sha256sum", "--strict", "--quiet", "-c", manifest, cwd=folder)
    check_rules(name, folder)
    for docket in folder.glob("data/*.docket"):
        if run("sqlite3", "-readonly", docket, "PRAGMA integrity_check").strip() != "ok":
            wrong.append(f"{name}: integrity_check")
    return folder


def check_flips(name, bag, times):
    """Bytes flipped by rule and by a seed: the ends, and places all over."""
    whole = bag.read_bytes()
    draws = random.Random(7)
    places = {0, 1, 30, len(whole) - 1, len(whole) - 20, *(draws.randrange(len(whole)) for _ in range(times))}
    for place in sorted(places):
        flipped = bytearray(whole)
        flipped[place] ^= 1 << draws.randrange(8)
        changed = bag.with_name("flipped.zip")
        changed.write_bytes(flipped)
        status, said = verify(changed)
        if status != 4 or not re.search(r"[\w./-]+\.\w+: |flipped\.zip", said):
            wrong.append(f"{name}: byte {place} flipped: status {status}, {said[:200]}")


def pack(folder, bag, stored=True):
    with zipfile.ZipFile(bag, "w", zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED) as packed:
        for file in sorted(p for p in folder.rglob("*") if p.is_file()):
            packed.write(file, file.relative_to(folder.parent).as_posix())


def list_again(folder):
    """The manifests as somebody would write them who wants a change to pass."""
    for manifest in ("manifest-sha256.txt", "tagmanifest-sha256.txt"):
        names = [line.split("  ", 1)[1] for line in (folder / manifest).read_text().splitlines()]
        (folder / manifest).write_text(
            "".join(f"{hashlib.sha256((folder / n).read_bytes()).hexdigest()}  {n}\n" for n in names))


def check_forged(name, folder, place):
    """A number changed in the findings and every list made anew: the computation itself finds it, or the ZIP does."""
    findings = folder / "data/casefile/findings.json"
    findings.write_text(re.sub(r'"p_fits": 0\.\d', '"p_fits": 0.5', findings.read_text(), count=1))
    list_again(folder)
    forged = place / "forged.zip"
    pack(folder, forged)
    status, said = verify(forged)
    if status != 4:
        wrong.append(f"{name}: forged findings: status {status}, {said[:200]}")


with tempfile.TemporaryDirectory(prefix="bags-") as made:
    made = Path(made)
    name, workbook = "fits-and-still-learning", sample_cases()["fits-and-still-learning"]
    docket = made / "st-07.docket"
    run(DOCKET, "add", docket, workbook, "--by", "industrial engineering", "--at", AT)
    if verify(docket)[0] != 0:
        wrong.append("a sound docket is not verified")
    for reader in ("joint", "review"):
        bag = made / f"{reader}.zip"
        run(DOCKET, "seal", docket, bag, "--for", reader, "--at", AT, "--by", "review board")
        status, said = verify(bag)
        if status != 0:
            wrong.append(f"{reader}: a sound bag is not verified: {said[:400]}")
        place = made / reader
        folder = check_unpacked(reader, bag, place)
        again = made / "again" / bag.name
        again.parent.mkdir(exist_ok=True)
        run(DOCKET, "seal", docket, again, "--for", reader, "--at", AT, "--by", "review board")
        if again.read_bytes() != bag.read_bytes():
            wrong.append(f"{reader}: sealed again it has other bytes")
        again.unlink()
        if reader == "review":
            sources = [p for p in folder.glob("data/sources/*") if p.name != "originals.txt"]
            if [p.read_bytes() for p in sources] != [workbook.read_bytes()]:
                wrong.append("review: the source is not the workbook that was given")
        else:
            check_flips(reader, bag, 25)
            packed = made / "packed.zip"
            pack(folder, packed, stored=False)
            status, said = verify(packed)
            if status != 4 or "packed again" not in said:
                wrong.append(f"packed again by another program: status {status}, {said[:200]}")
            check_forged(reader, folder, made)

for line in wrong:
    print(line)
print(f"{len(wrong)} wrong")
sys.exit(1 if wrong else 0)
