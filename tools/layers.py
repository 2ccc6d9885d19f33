#!/usr/bin/env python3
"""Fails when an arrow between the layers runs the wrong way.

Reads the dependency graph from `cargo metadata`, tests and build scripts
included. `--self-test` proves that wrong arrows are caught.
"""

import copy
import json
import subprocess
import sys

# What each layer may use of ours.
ALLOWED = {
    "boxwright-physics": set(),
    "boxwright-design": set(),
    "boxwright-wood": set(),
    "boxwright-wiring": set(),
    "boxwright-studies": {"boxwright-physics", "boxwright-design", "boxwright-wood", "boxwright-wiring"},
    "boxwright-drawings": {"boxwright-design", "boxwright-studies", "boxwright-wood", "boxwright-wiring"},
    "boxwright": {
        "boxwright-physics",
        "boxwright-design",
        "boxwright-wood",
        "boxwright-wiring",
        "boxwright-studies",
        "boxwright-drawings",
    },
}

# What reaches terminal or network belongs to the binary alone, even by a detour.
FACES = {"clap", "indicatif", "miette", "console", "axum", "hyper", "maud", "tokio", "mio", "socket2", "tungstenite"}
FACE = "boxwright"


def metadata():
    command = ["cargo", "metadata", "--format-version", "1", "--locked"]
    return json.loads(subprocess.run(command, check=True, capture_output=True).stdout)


def wrong_arrows(graph):
    """Every wrong arrow of a dependency graph, as a sentence."""
    ours = [p for p in graph["packages"] if p["id"] in graph["workspace_members"]]
    names = {package["name"] for package in ours}
    wrong = [f"{name} has no place among the layers; see {__file__}" for name in sorted(names - ALLOWED.keys())]
    wrong += [f"{name} is a layer without a crate" for name in sorted(ALLOWED.keys() - names)]
    for package in ours:
        name = package["name"]
        for dependency in package["dependencies"]:
            target, kind = dependency["name"], dependency["kind"] or "normal"
            if target in names and target not in ALLOWED.get(name, set()):
                wrong.append(f"{name} may not depend on {target} ({kind} dependency)")
        if name != FACE:
            for reached in sorted(reachable(graph, package["id"]) & FACES):
                wrong.append(f"{name} reaches {reached}, which only {FACE} may use")
    return wrong


def reachable(graph, start):
    """Names of all packages reached from one, itself excluded."""
    nodes = {node["id"]: [d["pkg"] for d in node["deps"]] for node in graph["resolve"]["nodes"]}
    names = {package["id"]: package["name"] for package in graph["packages"]}
    seen, todo = set(), [start]
    while todo:
        for target in nodes[todo.pop()]:
            if target not in seen:
                seen.add(target)
                todo.append(target)
    return {names[target] for target in seen}


def self_test(graph):
    """Turns right arrows wrong one at a time; each must be caught."""
    ids = {p["name"]: p["id"] for p in graph["packages"] if p["id"] in graph["workspace_members"]}
    clap = next(p["id"] for p in graph["packages"] if p["name"] == "clap")

    def with_arrow(source, target, target_id, kind):
        changed = copy.deepcopy(graph)
        package = next(p for p in changed["packages"] if p["id"] == ids[source])
        package["dependencies"].append({"name": target, "kind": kind})
        node = next(n for n in changed["resolve"]["nodes"] if n["id"] == ids[source])
        node["deps"].append({"pkg": target_id})
        return changed

    wrong = [
        (source, target, ids[target], kind)
        for source in ALLOWED
        for target in sorted(ALLOWED.keys() - ALLOWED[source] - {source})
        for kind in (None, "dev", "build")
    ]
    wrong += [(source, "clap", clap, kind) for source in ALLOWED if source != FACE for kind in (None, "dev")]
    for case in wrong:
        found = wrong_arrows(with_arrow(*case))
        assert any(case[0] in said and case[1] in said for said in found), f"not caught: {case}"
    stray = copy.deepcopy(graph)
    next(p for p in stray["packages"] if p["id"] == ids["boxwright-design"])["name"] = "boxwright-stray"
    assert any("boxwright-stray" in said for said in wrong_arrows(stray)), "an unknown crate was not caught"
    return len(wrong) + 1


def main():
    graph = metadata()
    if "--self-test" in sys.argv[1:]:
        print(f"layers: {self_test(graph)} wrong graphs caught")
    wrong = wrong_arrows(graph)
    for said in wrong:
        print(f"layers: {said}")
    if wrong:
        sys.exit(1)
    print("layers: every arrow runs the right way")


if __name__ == "__main__":
    main()
