#!/usr/bin/env python3
"""Fails when a key is cited that bibliography.toml lacks, or holds one nobody cites.

A key is cited in code, tests, manuals and reference tables by its bare name.
Names that end in a year or begin with a standards body must be keys.
`--self-test` proves that both faults are caught.
"""

import pathlib
import re
import sys
import tomllib

ROOT = pathlib.Path(__file__).resolve().parent.parent
PLACES = [
    ("crates", ("*.rs", "*.toml")),
    ("reference", ("*.csv",)),
    ("docs", ("*.md",)),
]
NAME = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+(?:\.[a-z0-9]+)*)*")
# Between quotes or backticks: surname-1972, iec-60228, iso-9613-1.
CITED = re.compile(
    r"[`\"]((?:[a-z]+-)+(?:18|19|20)\d\d[a-z]?|(?:iec|iso|ansi|en|itu)-[a-z]?[0-9][a-z0-9.-]*)[`\"]"
)
FIELDS = {"author", "title", "published", "seen"}
SEEN = {"read", "derived", "memory"}


def texts():
    for folder, patterns in PLACES:
        for pattern in patterns:
            for path in sorted((ROOT / folder).rglob(pattern)):
                yield path.relative_to(ROOT), path.read_text(encoding="utf-8")


def faults(keys, texts):
    """What is wrong between the keys of a bibliography and the texts citing them."""
    found, used = [], set()
    for path, text in texts:
        used |= keys & set(NAME.findall(text))
        for number, line in enumerate(text.splitlines(), 1):
            for key in CITED.findall(line):
                if key not in keys:
                    found.append(f"{path}:{number}: {key} is cited, but not in bibliography.toml")
    return found + [f"bibliography.toml: nobody cites {key}" for key in sorted(keys - used)]


def malformed(entries):
    for key, entry in entries.items():
        if not {"title", "published", "seen"} <= entry.keys() <= FIELDS:
            yield f"bibliography.toml: {key} needs title, published and seen, and may have author"
        elif entry["seen"] not in SEEN:
            yield f"bibliography.toml: {key}: seen is one of {sorted(SEEN)}"


def self_test():
    good = [("a.rs", 'source: "small-1972", `iec-60228`')]
    keys = {"small-1972", "iec-60228"}
    assert not faults(keys, good)
    assert faults(keys - {"small-1972"}, good), "an unknown key was not caught"
    assert faults(keys - {"iec-60228"}, good), "an unknown standard was not caught"
    assert faults(keys | {"nobody-1900"}, good), "an unused key was not caught"
    assert list(malformed({"x": {"title": "t", "published": "p", "seen": "somewhere"}}))
    assert list(malformed({"x": {"title": "t"}}))


def main():
    if "--self-test" in sys.argv[1:]:
        self_test()
    entries = tomllib.loads((ROOT / "bibliography.toml").read_text(encoding="utf-8"))
    found = list(malformed(entries)) + faults(set(entries), texts())
    for said in found:
        print(said)
    if found:
        sys.exit(1)
    print(f"bibliography: {len(entries)} entries, each cited, none missing")


if __name__ == "__main__":
    main()
