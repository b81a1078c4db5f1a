"""Write what Rodbook is made of: a bill of materials (CycloneDX, JSON) and a table of licences, with how each is known.

    python scripts/bill_of_materials.py [--out out/bill]

It lists what `requirements.lock` puts on a machine, as far as it is installed on this one, and what lies inside of it. It
ends with an error where a licence is not on the list in `allowed_licences.toml`.
"""

from __future__ import annotations

import argparse
import json
import re
import subprocess
import sys
import tomllib
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
LOCK = HERE.parent / "requirements.lock"
LISTED: dict[str, Any] = tomllib.loads((HERE / "allowed_licences.toml").read_text("utf-8"))

CLASSIFIERS = {
    "MIT License": "MIT",
    "Apache Software License": "Apache-2.0",
    "ISC License (ISCL)": "ISC",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "Python Software Foundation License": "PSF-2.0",
}
"""What packages say in Python's own list, where it stands for one licence alone ("BSD License" stands for several)."""


def plain(name: str) -> str:
    """A package's name as registries compare it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def locked(path: Path = LOCK) -> dict[str, str]:
    """Packages of a lock file, and their versions."""
    return {
        plain(n): v for n, v in re.findall(r"^([A-Za-z0-9][\w.-]*)==([^\s;\\]+)", path.read_text("utf-8"), re.MULTILINE)
    }


def installed(names: list[str]) -> dict[str, Distribution]:
    """Those that are on this machine; some are for other systems alone."""
    results = {}
    for name in names:
        try:
            results[name] = distribution(name)
        except PackageNotFoundError:
            continue
    return results


_NO_ENDORSEMENT = r"neither the name|names? of .{0,60}may not be used to endorse"
_BSD = r"redistribution and use in source and binary forms"
WORDS: dict[str, tuple[str, ...]] = {
    "Apache-2.0": (r"apache license,? version 2\.0",),
    "BSD-2-Clause": (_BSD, rf"\A(?!.*(?:{_NO_ENDORSEMENT}))"),
    "BSD-3-Clause": (_BSD, _NO_ENDORSEMENT),
    "MIT": (r"permission is hereby granted, free of charge, to any person obtaining a copy",),
    "MPL-2.0": (r"mozilla public license,? version 2\.0",),
    "ZPL-2.1": (r"zope public license \(zpl\) version 2\.1",),
}
"""Words by which a licence is told from the others of the list."""


def licence_texts(result: Distribution) -> list[str]:
    """A package's own licence files; not those of what is compiled into it."""
    named = [
        f
        for f in result.files or ()
        if "dist-info" in str(f) and re.match(r"licen[cs]e|copying", f.name, re.IGNORECASE)
    ]
    own = [f for f in named if "third" not in f.name.lower()]
    return [re.sub(r"\s+", " ", f.locate().read_text("utf-8", "replace")).lower() for f in own]


def has_words(result: Distribution, expression: str) -> bool:
    """Whether a licence file of a package has the words of every licence that an expression names."""
    texts = licence_texts(result)
    pieces = re.split(r" (?:OR|AND) ", expression)
    return all(
        any(all(re.search(word, text) for word in WORDS.get(piece, ("(?!)",))) for text in texts) for piece in pieces
    )


def known_by(result: Distribution) -> str:
    """How a package's licence is known: by words of its licence file, or by what the package says of itself."""
    return (
        "words of its licence file" if plain(result.metadata["Name"]) in LISTED["by_words"] else "the package says it"
    )


def licence_of(result: Distribution) -> str:
    """SPDX expression of a licence: what words of its file show, else what the package says; empty where neither is clear.

    Nobody has read the licence files as a whole.
    """
    notes, name = result.metadata, plain(result.metadata["Name"])
    if name in LISTED["by_words"]:
        expression = str(LISTED["by_words"][name])
        return expression if has_words(result, expression) else ""
    if expression := notes.get("License-Expression"):
        return expression
    if (answer := (notes.get("License") or "").strip()) in LISTED["allowed"]:
        return answer
    groups = [c.split(" :: ")[-1] for c in notes.get_all("Classifier") or () if c.startswith("License ::")]
    return CLASSIFIERS.get(groups[0], "") if len(groups) == 1 else ""


def is_allowed(expression: str) -> bool:
    """Whether an expression can be met: one side of each OR, all sides of each AND."""
    bare = expression.strip()
    if bare.startswith("(") and bare.endswith(")") and "(" not in bare[1:]:
        bare = bare[1:-1]
    if "(" in bare:
        return False
    return any(all(piece.strip() in LISTED["allowed"] for piece in side.split(" AND ")) for side in bare.split(" OR "))


def bill(names: set[str]) -> dict[str, Any]:
    """The bill of materials of this machine's Python, held to some packages, with what lies inside."""
    command = [
        sys.executable,
        "-m",
        "cyclonedx_py",
        "environment",
        "--output-reproducible",
        "--no-validate",
        "--pyproject",
    ]
    made = subprocess.run(
        [*command, str(HERE.parent / "pyproject.toml")], capture_output=True, check=True, cwd=HERE.parent
    )
    whole: dict[str, Any] = json.loads(made.stdout)
    kept = [part for part in whole["components"] if plain(part["name"]) in names]
    for part in kept:
        part.pop("externalReferences", None)
        part["licenses"] = [{"expression": licence_of(distribution(part["name"]))}]
    inside = [
        {
            "bom-ref": f"inside-{plain(part['name'])}",
            "type": "file" if part["licence"].startswith("OFL") else "library",
            "name": part["name"],
            "description": part["where"],
            "licenses": [{"expression": part["licence"]}],
        }
        | ({"version": part["version"]} if "version" in part else {})
        for part in LISTED["inside"]
    ]
    refs = {part["bom-ref"] for part in kept}
    depends = [
        {**line, "dependsOn": [ref for ref in line.get("dependsOn", ()) if ref in refs]}
        for line in whole["dependencies"]
        if line["ref"] in refs or line["ref"] == whole["metadata"]["component"]["bom-ref"]
    ]
    return {**whole, "components": [*kept, *inside], "dependencies": depends}


def table(parts: list[tuple[str, str, str, str]], absent: list[str]) -> str:
    """A table of parts, versions and licences, how each is known, and why each licence is allowed."""
    lines = ["# Licences", "", "| part | version | licence | known by |", "| --- | --- | --- | --- |"]
    lines += [f"| {name} | {version} | {licence or 'not known'} | {known} |" for name, version, licence, known in parts]
    used = {piece for _, _, licence, _ in parts for side in licence.split(" OR ") for piece in side.split(" AND ")}
    lines += ["", "| licence | why it is allowed |", "| --- | --- |"]
    lines += [f"| {name} | {why} |" for name, why in LISTED["allowed"].items() if name in used]
    if absent:
        lines += ["", f"In the lock, but not on this system: {', '.join(absent)}."]
    return "\n".join(lines) + "\n"


def main() -> int:
    """Write both; 1 where a licence is not allowed."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--out", type=Path, default=Path("out/bill"))
    out: Path = asked.parse_args().out
    versions = locked()
    here = installed(sorted(versions))
    parts = [(name, result.version, licence_of(result), known_by(result)) for name, result in here.items()]
    parts += [
        (part["name"], part.get("version", ""), part["licence"], "the list of the script") for part in LISTED["inside"]
    ]
    out.mkdir(parents=True, exist_ok=True)
    (out / "bill-of-materials.json").write_text(json.dumps(bill(set(here)), indent=1) + "\n", "utf-8")
    absent = sorted(versions.keys() - here.keys())
    (out / "licences.md").write_text(table(parts, absent), "utf-8")
    wrong = [
        f"{name} {version}: {licence or 'not known'}" for name, version, licence, _ in parts if not is_allowed(licence)
    ]
    differs = [
        f"{name} {here[name].version}, locked {versions[name]}" for name in here if here[name].version != versions[name]
    ]
    sys.stdout.write(f"{len(parts)} parts in {out}/bill-of-materials.json and {out}/licences.md\n")
    for line in differs:
        sys.stdout.write(f"not the locked version: {line}\n")
    for line in wrong:
        sys.stderr.write(f"licence not allowed, or not known: {line}\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
