#!/usr/bin/python3 -B
"""Reads every text the program can print and every case file of a golden folder: no word judges a person, promises
safety or recommends a personal measure; and in a case file each ergonomics number stands with its range, its source and
the fixed sentence.

    tests/checks/wording.py [--docket PROGRAM] [ROOT]

Without a program the texts in the source alone are read. Case files are made anew.
"""
import html
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ARGUMENTS = [a for a in sys.argv[1:] if a != "--docket"]
DOCKET = str(Path(ARGUMENTS.pop(0)).resolve()) if "--docket" in sys.argv else None
ROOT = Path(ARGUMENTS[0] if ARGUMENTS else Path(__file__).resolve().parent.parent.parent)
SENTENCE = "screening, not clearance; a qualified ergonomist decides"

# Regular expressions, small letters. Said of a person, of safety, of what is to be done with somebody.
NEVER = [
    r"\blaz(y|iness)", r"\bunwilling", r"\bslow(er|est)? (worker|operator|person|people)", r"\brestricting\b",
    r"\bmalinger", r"\bincapable", r"\b(bad|poor) attitude", r"\bunderperform", r"\bincompeten", r"\bunmotivated",
    r"\bcareless", r"\btroublemaker", r"\bweak (worker|operator|person)", r"\bnot trying\b",
    r"\b(is|are) safe\b", r"\bno (injury )?risk\b", r"\bsafe to (work|do|go|lift)", r"\bharmless", r"\bacceptable risk",
    r"\b(low|medium|moderate|high) risk\b", r"\brisk (class|level|score|zone)", r"\b(total|overall) score",
    r"\bergonomically (sound|fine|safe)", r"\b(green|amber|red) (zone|light|area)", r"\btraffic light",
    r"\b(is|are) cleared\b", r"\bdisciplin", r"\bdismiss(al|ed)\b", r"\bterminat(e|ion) of (the )?(operator|person|worker)",
    r"\bwarn(ing)? (the|to the) (operator|worker)", r"\b(transfer|replace|remove) (the|this|that) (operator|worker|person)",
    r"\bshould (try|work) (harder|faster)", r"\bwork faster\b",
]
LISTS_THE_WORDS = {"ingest/reading/words_about_people.cpp"}
STRING = re.compile(r'"((?:[^"\\\n]|\\.)*)"')


def printed_texts():
    """Neighbouring literals joined, so that a phrase is found across the end of a line."""
    for folder in ("report", "ingest", "core"):
        for path in sorted((ROOT / folder).rglob("*")):
            name = path.relative_to(ROOT).as_posix()
            if path.suffix not in (".cpp", ".h") or name in LISTS_THE_WORDS:
                continue
            code = "\n".join(line for line in path.read_text(encoding="utf-8").splitlines()
                             if not line.lstrip().startswith(("#include", "//")))
            code = re.sub(r'"\s*\n?\s*"', "", code)
            for found in STRING.finditer(code):
                yield name, found[1]


def judged(text):
    low = text.lower()
    return [found[0] for word in NEVER if (found := re.search(word, low))]


def bare(markup):
    return re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", " ", markup)))


def page_one(markup, name):
    strip = re.search(r'<div class="strip">(.*?)</div>', markup, re.S)
    if not strip:
        return [f"{name}: no cautions on page one"]
    wrong = [] if SENTENCE in bare(strip[1]).lower() else [f"{name}: page one lacks the sentence"]
    for row in re.findall(r"<tr>(.*?)</tr>", strip[1], re.S):
        cells = [bare(cell).strip() for cell in re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row, re.S)]
        # A result is printed with digits; its source has a year and, behind a semicolon, its range.
        result, source = " ".join(cells[1:-1]), cells[-1]
        if "<td" in row and re.search(r"\d", result) and not re.search(r"(19|20)\d\d; .+", source):
            wrong.append(f"{name}: page one: {cells[0]}: no source or range")
    return wrong


def parts_of_ergonomics(markup, name):
    section = re.search(r"<section[^>]*>\s*<h2[^>]*>(?:(?!</h2>).)*Ergonomics and safety</h2>(.*?)</section>", markup, re.S)
    if not section:
        return [f"{name}: no section on ergonomics"]
    wrong, tables = [], 0
    for part in re.split(r"<h3", section[1])[1:]:
        if "<table" not in part:
            continue
        tables += 1
        before = bare(part[:part.index("<table")]).lower()
        title = bare(part[part.index(">") + 1:part.index("</h3>")]).strip()
        wrong += [f"{name}: {title}: no \"{wanted}\" before its numbers"
                  for wanted in (SENTENCE, "range:", "source:", "values:") if wanted not in before]
    return wrong + ([] if tables else [f"{name}: no table in the section on ergonomics"])


def case_files(place):
    """(name, markup) of every golden folder whose command makes one."""
    for folder in sorted((ROOT / "tests/golden").glob("brief_*")):
        made = (folder / "made").read_text() if (folder / "made").is_file() else ""
        if "casefile.html" not in made:
            continue
        here = place / folder.name
        here.mkdir()
        if (folder / "in").is_dir():
            shutil.copytree(folder / "in", here / "in")
        for line in (folder / "cmd").read_text().replace("@samples", str(ROOT / "sample-cases")).splitlines():
            subprocess.run([DOCKET, *shlex.split(line)], cwd=here, capture_output=True, timeout=300)
        for page in sorted(here.rglob("casefile.html")):
            yield folder.name, page.read_text(encoding="utf-8")


def main():
    texts, pages, wrong = 0, 0, []
    for name, text in printed_texts():
        texts += 1
        wrong += [f"{name}: \"{word}\" in: {text[:120]}" for word in judged(text)]
    if DOCKET:
        with tempfile.TemporaryDirectory(prefix="wording-") as place:
            for name, markup in case_files(Path(place)):
                pages += 1
                wrong += [f"{name}: case file: \"{word}\"" for word in judged(bare(markup))]
                wrong += page_one(markup, name) + parts_of_ergonomics(markup, name)
    print("\n".join(wrong) or f"{texts} texts, {pages} case files")
    sys.exit(1 if wrong or not texts or (DOCKET and not pages) else 0)


main()
