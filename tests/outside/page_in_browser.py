#!/usr/bin/python3 -B
"""casefile.html as others read it: tidy finds no error, Chromium opens and prints it, and the fixed sentences, the finding
and the case stand in what is printed. It asks for nothing from outside itself."""
import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

from inputs import brief, golden_inputs, run, sample_cases

ALWAYS = ["Taken as it stands, the plant's own standard", "This file does not assess injury risk",
          "Local law and the collective agreement"]
BY_FINDING = {
    "NOT SHOWN": ["Neither shown to fit nor shown not to fit. The complaint stays open, and so does the help given meanwhile."],
    "FITS": ["In time, for trained people. This says nothing about strain or safety."],
}
HELD = "Do not act on this finding: a safety or health matter is open."


def plain(text):
    """Words alone: line breaks and kinds of blanks and quotes are the printer's."""
    return re.sub(r"\s+", " ", text.replace("\u2019", "'").replace("\u00a0", " ").replace("\u202f", " "))


def check(name, source, place):
    out = brief(source, place / name)
    page, found = out / "casefile.html", json.loads((out / "findings.json").read_text())
    for loads in re.findall(r'<script|\bsrc="(?!data:)[^"]*"|url\((?!data:|#)[^)]*\)|<link[^>]*>', page.read_text()):
        yield f"it asks for something outside itself: {loads}"
    tidied = subprocess.run(["tidy", "-errors", "-quiet", page], capture_output=True, text=True)
    if tidied.returncode > 1:  # 1: warnings alone
        yield f"tidy finds errors:\n{tidied.stderr}"
    printed = place / f"{name}.pdf"
    run("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run",
        f"--user-data-dir={place}/browser", f"--print-to-pdf={printed}", "--no-pdf-header-footer", page.as_uri())
    pages = int(re.search(r"^Pages:\s+(\d+)", run("pdfinfo", printed), re.M)[1])
    if pages < 1:
        yield "nothing is printed"
    text = plain(run("pdftotext", "-layout", printed, "-"))
    raw = plain(run("pdftotext", "-raw", printed, "-"))
    content = found["content"]
    wanted = ALWAYS + BY_FINDING.get(content["finding"], []) + [content["finding"], found["case"]["case_ref"],
                                                               found["case"]["station"]]
    if content["held"]:
        wanted.append(HELD)
    for sentence in wanted:
        if sentence not in text and sentence not in raw:
            yield f"not on the printed pages: {sentence}"


def main():
    inputs = sample_cases()
    inputs |= {name: source for name, source in golden_inputs().items()
               if name in ("brief_smallest", "brief_safety_matter_open")}
    wrong = []
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as place:
        for name, source in inputs.items():
            wrong += [f"{name}: {what}" for what in check(name, source, Path(place))]
    print("\n".join(wrong) or f"{len(inputs)} pages read and printed")
    sys.exit(1 if wrong or not inputs else 0)


main()
