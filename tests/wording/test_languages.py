"""A fault is said in another language where there is a translation, its place and what is within it too."""

from pathlib import Path
from runpy import run_path

import pytest
from babel.messages.mofile import write_mo

from rodbook.errors import Fault, Message, Place
from rodbook.wording import rendering

SCRIPT = run_path(str(Path(__file__).parent.parent.parent / "scripts" / "messages.py"))


@pytest.fixture
def made_up(tmp_path, monkeypatch):
    catalog = SCRIPT["wording"]()
    for message in catalog:
        if message.id:
            many = isinstance(message.id, tuple)
            message.string = tuple(f"«{text}»" for text in message.id) if many else f"«{message.id}»"
    folder = tmp_path / "xx" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    with (folder / "wording.mo").open("wb") as out:
        write_mo(out, catalog)
    monkeypatch.setattr(rendering, "LOCALE", tmp_path)


def test_a_fault_is_said_in_a_made_up_language(made_up):
    fault = Fault(
        Place(("rows", 2, "width")), "field.no_such_name", name="lft", hint=Message("value.did_you_mean", word="left")
    )
    assert fault.in_language("xx") == "«there is no 'lft' here«; did you mean left?»»"
    assert fault.at.in_language("xx") == "«row 3», width"
    assert str(fault) == "row 3, width: there is no 'lft' here; did you mean left?"
    assert fault.in_language("yy") == fault.sentence


def test_one_and_more_are_told_apart_in_a_made_up_language(made_up):
    counted = [Message("field.too_few_values", count=count, needed=3).in_language("xx") for count in (1, 2)]
    assert counted == ["«1 value stands here; 3 are needed»", "«2 values stand here; 3 are needed»"]
