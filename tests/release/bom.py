#!/usr/bin/env python3
"""The bill of materials of the release program, as CycloneDX 1.6: every package that is compiled into it.

`python3 tests/release/bom.py > target/rungbook.cdx.json`. From `cargo metadata` and Cargo.lock alone, for the
machine's own target: no clock, no chance, nothing asked of a network, so that the same sources give the same
bytes. What only tests or the building need is left out; so are packages of other systems.
"""
import json
import pathlib
import re
import subprocess
import sys

HOUSE = pathlib.Path(__file__).resolve().parents[2]


def target():
    said = subprocess.run(["rustc", "-vV"], capture_output=True, text=True, check=True).stdout
    return re.search(r"^host: (.+)$", said, re.M).group(1)


def checksums():
    """SHA-256 of every package as the registry has it."""
    lock = (HOUSE / "Cargo.lock").read_text()
    found = {}
    for block in lock.split("[[package]]")[1:]:
        keys = dict(re.findall(r'^(name|version|checksum) = "(.+)"$', block, re.M))
        if "checksum" in keys:
            found[keys["name"], keys["version"]] = keys["checksum"]
    return found


def licence(package):
    """An SPDX expression: older packages write a slash for OR."""
    words = package["license"] or ""
    return [{"expression": re.sub(r"\s*/\s*", " OR ", words)}] if words else []


def reached(resolve):
    """Packages that the program is linked from: no dev or build dependency, and the ids that each needs."""
    nodes = {node["id"]: node for node in resolve["nodes"]}
    needs, open_ = {}, [resolve["root"]]
    while open_:
        one = open_.pop()
        if one in needs:
            continue
        normal = [dep["pkg"] for dep in nodes[one]["deps"] if any(kind["kind"] is None for kind in dep["dep_kinds"])]
        needs[one] = normal
        open_ += normal
    return needs


def main():
    command = ["cargo", "metadata", "--format-version", "1", "--locked", "--filter-platform", target()]
    told = json.loads(subprocess.run(command, cwd=HOUSE, capture_output=True, text=True, check=True).stdout)
    packages = {package["id"]: package for package in told["packages"]}
    needs, sums = reached(told["resolve"]), checksums()
    # What runs at compile time alone leaves nothing in the program but its output; it is listed all the same.
    url = {one: f'pkg:cargo/{packages[one]["name"]}@{packages[one]["version"]}' for one in needs}

    def component(one):
        package = packages[one]
        found = {"type": "library", "bom-ref": url[one], "name": package["name"], "version": package["version"],
                 "purl": url[one], "licenses": licence(package)}
        known = sums.get((package["name"], package["version"]))
        if known:
            found["hashes"] = [{"alg": "SHA-256", "content": known}]
        return found

    root = told["resolve"]["root"]
    others = sorted((one for one in needs if one != root), key=lambda one: url[one])
    bill = {
        "$schema": "http://cyclonedx.org/schema/bom-1.6.schema.json",
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {"component": {**component(root), "type": "application"}},
        "components": [component(one) for one in others],
        "dependencies": [{"ref": url[one], "dependsOn": sorted({url[need] for need in needs[one]})}
                         for one in [root, *others]],
    }
    json.dump(bill, sys.stdout, indent=1)
    print()
    unlicensed = [url[one] for one in others if not packages[one]["license"]]
    if unlicensed:
        sys.exit(f"no licence is named by {', '.join(unlicensed)}")


if __name__ == "__main__":
    main()
