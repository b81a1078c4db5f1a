"""What Rodbook is made of: every part of the lock has a licence that is allowed, with a reason, and what is not is refused."""

import importlib.util
import json
import sys
from email.message import Message
from pathlib import Path
from types import SimpleNamespace

import pytest

ROOT = Path(__file__).parent.parent
_spec = importlib.util.spec_from_file_location("bill_of_materials", ROOT / "scripts" / "bill_of_materials.py")
bill = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(bill)


def _package(**headers):
    told = Message()
    told["Name"] = "invented"
    for name, value in headers.items():
        told[name.replace("_", "-")] = value
    return SimpleNamespace(metadata=told, version="1")


@pytest.mark.parametrize("lock", ["requirements.lock", "requirements-dev.lock"])
def test_every_licence_of_what_is_installed_is_allowed(lock):
    names = bill.locked(ROOT / lock)
    here = bill.installed(sorted(names))
    assert len(here) > 40
    if lock == "requirements.lock":
        assert {n: bill.licence_of(f) for n, f in here.items() if not bill.is_allowed(bill.licence_of(f))} == {}
    assert {"django", "waitress", "cryptography", "pyotp", "segno"} <= here.keys()


def test_every_reason_is_given_and_every_reading_is_of_a_part():
    assert all(len(why) > 8 for why in bill.LISTED["allowed"].values())
    assert bill.LISTED["by_words"].keys() <= bill.locked().keys()
    for part in bill.LISTED["inside"]:
        assert bill.is_allowed(part["licence"])
    fonts = {path.name.split("-")[0] for path in (ROOT / "src/rodbook/papers/fonts").glob("*.ttf")}
    assert fonts <= {part["name"] for part in bill.LISTED["inside"]}
    import django_htmx

    script = Path(django_htmx.__file__).parent / "static/django_htmx/htmx-2.min.js"
    (version,) = [part["version"] for part in bill.LISTED["inside"] if part["name"] == "htmx"]
    assert f'version:"{version}"' in script.read_text("utf-8")


def test_what_a_licence_file_is_said_to_be_stands_in_it():
    here = bill.installed(sorted(bill.LISTED["by_words"]))
    assert len(here) == len(bill.LISTED["by_words"])
    for name, found in here.items():
        said = bill.LISTED["by_words"][name]
        assert bill.has_words(found, said), f"the licence file of {name} has not the words of {said}"
        assert not bill.has_words(found, "GPL-3.0-only")
        others = {"MIT", "MPL-2.0", "ZPL-2.1", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause"} - set(said.split(" OR "))
        assert [other for other in others if bill.has_words(found, other)] in (
            [],
            ["BSD-3-Clause"],
            ["BSD-2-Clause"],
        ), name


def test_no_licence_is_known_where_its_words_are_missing(monkeypatch):
    found = bill.installed(["waitress"])["waitress"]
    monkeypatch.setitem(bill.LISTED["by_words"], "waitress", "MIT")
    assert bill.licence_of(found) == ""


@pytest.mark.parametrize(
    ("expression", "allowed"),
    [
        ("MIT", True),
        ("GPL-3.0-only", False),
        ("", False),
        ("MIT OR GPL-3.0-only", True),
        ("MIT AND GPL-3.0-only", False),
        ("(MIT AND Zlib)", True),
        ("MIT AND (GPL-3.0-only OR MIT)", False),
        ("BSD-2-Clause AND Apache-2.0 WITH LLVM-exception", True),
    ],
)
def test_what_is_not_on_the_list_is_refused(expression, allowed):
    assert bill.is_allowed(expression) is allowed


@pytest.mark.parametrize(
    ("package", "found"),
    [
        (_package(License_Expression="GPL-3.0-only"), "GPL-3.0-only"),
        (_package(License="MIT"), "MIT"),
        (_package(License="see file"), ""),
        (_package(Classifier="License :: OSI Approved :: MIT License"), "MIT"),
        (_package(Classifier="License :: OSI Approved :: BSD License"), ""),
        (_package(), ""),
    ],
)
def test_a_licence_is_what_a_package_says_where_that_is_clear(package, found):
    assert bill.licence_of(package) == found


def test_the_bill_holds_what_runs_and_nothing_else(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(sys, "argv", ["bill", "--out", str(tmp_path)])
    assert bill.main() == 0
    made = json.loads((tmp_path / "bill-of-materials.json").read_text("utf-8"))
    assert made["bomFormat"] == "CycloneDX"
    names = {bill.plain(part["name"]) for part in made["components"]}
    assert {"django", "htmx", "barlow", "pyotp"} <= names
    assert not names & {"pytest", "mypy", "playwright"}
    assert names <= bill.locked().keys() | {"htmx", "barlow"}
    assert all(part["licenses"][0]["expression"] for part in made["components"])
    refs = {part["bom-ref"] for part in made["components"]}
    assert all(ref in refs for line in made["dependencies"] for ref in line["dependsOn"])
    assert "| waitress | 3." in (tmp_path / "licences.md").read_text("utf-8")
    assert str(tmp_path) in capsys.readouterr().out
