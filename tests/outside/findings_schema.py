#!/usr/bin/python3 -B
"""findings.json of every sample case and golden folder against report/findings.schema.json, with python3-jsonschema; and
a findings.json that is broken in one place is refused."""
import copy
import json
import sys
import tempfile
from pathlib import Path

import jsonschema

from inputs import ROOT, brief, golden_inputs, sample_cases

SCHEMA = json.loads((ROOT / "report/findings.schema.json").read_text())


def broken(good):
    """Copies of a good file, each broken in one place."""
    def one(change):
        bad = copy.deepcopy(good)
        change(bad)
        return bad

    yield "a key is missing", one(lambda f: f["content"].pop("decision_row"))
    yield "a key is unknown", one(lambda f: f["content"].update(verdict="fine"))
    yield "a finding word is unknown", one(lambda f: f["content"].update(finding="PROBABLY"))
    yield "a decision row is out of range", one(lambda f: f["content"].update(decision_row=7))
    yield "a share is a percentage", one(lambda f: f["content"]["standard"]["variants"][0].update(share=100))
    yield "a null has no reason", one(lambda f: f["content"]["sequence"].update(given=None) or
                                      f["content"]["sequence"].pop("given_why", None))
    yield "a value has a reason for a null", one(lambda f: f["content"]["heaviest"].update(
        longest_run=3, longest_run_why="not_given: the input does not say"))
    yield "a time is text", one(lambda f: f["case"].update(line_cycle_s="60 s"))
    yield "the schema is another", one(lambda f: f.update(schema="station-docket/findings/2"))
    yield "a hash is cut", one(lambda f: f["evidence"][0].update(sha256="abc"))
    yield "an ergonomics null has no reason", one(lambda f: f["ergonomics"].update(line_cycle_asked_s=None) or
                                                  f["ergonomics"].pop("line_cycle_asked_s_why", None))
    yield "a method has no source", one(lambda f: f["ergonomics"]["methods"][0].pop("source"))
    yield "ergonomics have a total", one(lambda f: f["ergonomics"].update(score=3))
    yield "an operator is a name", one(lambda f: f["content"]["operators_seen"].append("A name"))


def main():
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    validator = jsonschema.Draft202012Validator(SCHEMA)
    wrong, checked = [], 0
    with tempfile.TemporaryDirectory() as place:
        inputs = [(name, source, []) for name, source in (sample_cases() | golden_inputs()).items()]
        inputs.insert(0, ("set_aside", ROOT / "tests/golden/brief_set_aside/in", ["--set-aside"]))
        for name, source, options in inputs:
            found = json.loads((brief(source, Path(place) / name, *options) / "findings.json").read_text())
            if len(found["set_aside"]) != (2 if options else 0):
                wrong.append(f"{name}: {len(found['set_aside'])} rows are set aside")
            for error in validator.iter_errors(found):
                wrong.append(f"{name}: {'/'.join(map(str, error.absolute_path))}: {error.message[:200]}")
            for table in found["counts"]:
                if table["read"] != table["used"] + table["with_issue"]:
                    wrong.append(f"{name}: {table['table']}: rows read are not rows used and rows with an issue")
            checked += 1
    wrong += [f"not refused though {what}" for what, bad in broken(found) if validator.is_valid(bad)]
    print("\n".join(wrong) or f"{checked} files are as the schema says")
    sys.exit(1 if wrong or not checked else 0)


main()
