#!/usr/bin/python3 -B
"""casefile.pdf as others read it: qpdf and poppler find no fault, every font is in it, its title is that of the case, and
the words of casefile.html are in it: every heading, every caption, every word of its first page, every sign.

    tests/outside/pdf_by_others.py [DOCKET_PROGRAM]
"""
import html
import re
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

from inputs import brief, golden_inputs, run, sample_cases


def plain(text):
    """One blank between words, whichever blanks the printer took."""
    return re.sub(r"\s+", " ", text.replace("\u00a0", " ").replace("\u202f", " ")).strip()


def bare(markup):
    return plain(html.unescape(re.sub(r"<[^>]+>", " ", markup)))


def no_blanks(text):
    return re.sub(r"\s", "", text.replace("\u00a0", "").replace("\u202f", ""))


def words_of(text):
    """Letters and digits alone, so that it does not count where a line was broken; in no order."""
    return Counter(re.findall(r"[^\W_]+", text))


def first_page(markup):
    """What stands before the contents, without the line that only the screen shows."""
    body = markup[markup.index("<main>"):markup.index('<nav class="contents')]
    return re.sub(r'<p class="case-line">.*?</p>', "", body, flags=re.S)


def numbered(markup):
    """The numbers that a browser puts before the items of a list."""
    return sum((Counter(str(i + 1) for i in range(len(re.findall("<li", items))))
                for items in re.findall(r"<ol>(.*?)</ol>", markup, re.S)), Counter())


def check(name, source, place):
    out = brief(source, place / name)
    pdf, markup = out / "casefile.pdf", (out / "casefile.html").read_text()
    done = subprocess.run(["qpdf", "--check", pdf], capture_output=True, text=True)
    if done.returncode != 0:
        yield f"qpdf: {done.stdout}{done.stderr}"
    about = run("pdfinfo", pdf)
    title = plain(re.search(r"^Title:\s+(.*)$", about, re.M)[1])
    if title != bare(re.search(r"<title>(.*?)</title>", markup)[1]):
        yield f"its title is {title}"
    if "Date:" in about:
        yield "it names a day on which it was made"
    pages = int(re.search(r"^Pages:\s+(\d+)", about, re.M)[1])
    fonts = run("pdffonts", pdf).splitlines()[2:]
    if not fonts:
        yield "no font is in it"
    for font in fonts:  # the three columns in front of the object: emb sub uni
        if font.split()[-5] != "yes":
            yield f"a font is not embedded: {font}"

    raw = run("pdftotext", "-raw", pdf, "-")
    if raw.count("\f") != pages:
        yield f"{pages} pages, {raw.count(chr(12))} read"
    text = no_blanks(raw)
    headings = re.findall(r"<h[123][^>]*>(.*?)</h[123]>", markup, re.S)
    captions = re.findall(r"<caption>(.*?)</caption>", markup, re.S)
    figures = re.findall(r'<div class="figure-title">(.*?)</div>', markup, re.S)
    if not headings or not captions:
        yield "the page has no heading or no caption; mend this check"
    for wanted in headings + captions + figures:
        if no_blanks(bare(wanted)) not in text:
            yield f"not in it: {bare(wanted)}"
    signs = {sign for sign in bare(markup[markup.index("<main>"):]) if ord(sign) > 126}
    for sign in sorted(signs - set(raw)):
        yield f"no such sign in it: {sign!r} U+{ord(sign):04X}"
    for number in range(1, pages + 1):
        if f"page {number} of {pages}" not in plain(raw.split("\f")[number - 1]):
            yield f"page {number} does not say so"

    # All words of the first page, as often; beside them the foot.
    page_one = words_of(plain(raw.split("\f")[0]))
    expected = words_of(bare(first_page(markup))) + numbered(first_page(markup))
    reference = re.search(r'<p class="case-line"><span>Case file</span><span>(.*?)</span>', markup)[1]
    expected += words_of(f"Case file {html.unescape(reference)} page 1 of {pages}")
    if page_one != expected:
        yield f"page one has more: {dict(page_one - expected)}, and lacks: {dict(expected - page_one)}"

    # Contents and bookmarks lead where they say.
    sections = [bare(h) for h in re.findall(r"<h2[^>]*>(.*?)</h2>", markup, re.S)]
    listing = subprocess.run(["qpdf", "--qdf", "--stream-data=preserve", pdf, "-"], capture_output=True).stdout
    titles = [bytes.fromhex(t.decode()).decode("utf-16") for t in re.findall(rb"/Title <([0-9a-fA-F]{4,})>", listing)]
    for section in sections:
        if section not in titles:
            yield f"no bookmark: {section}"
    if listing.count(b"/Subtype /Link") != len(sections):
        yield f"{listing.count(b'/Subtype /Link')} links for {len(sections)} sections"


def main():
    inputs = sample_cases() | {name: source for name, source in golden_inputs().items() if "only" not in name}
    wrong = []
    with tempfile.TemporaryDirectory() as place:
        for name, source in inputs.items():
            wrong += [f"{name}: {what}" for what in check(name, source, Path(place))]
    print("\n".join(wrong) or f"{len(inputs)} files read")
    sys.exit(1 if wrong or not inputs else 0)


main()
