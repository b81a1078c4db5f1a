"""`check` and `plan` say the same of a job: what is called sound is not refused afterwards."""

import pytest

from rodbook.job.files import sample_book_text, sample_text


def _job(sample: str, old: str, new: str):
    return sample, "job", old, new


def _book(sample: str, old: str, new: str):
    return sample, "book", old, new


C1 = "diagonals = [2199, 2196]\ndepth = 455"
AMISS = {
    "readings that contradict each other": _job(
        "converted-store",
        C1,
        "diagonals = [2199, 2176]\ndepth = 455\n"
        "readings = { plumb-left = 60, plumb-right = -60, level-floor = 50, level-head = -50, bow-left = 40 }",
    ),
    "a reading that can't be told from another": _job("converted-store", C1, "diagonals = [2259, 2196]\ndepth = 455"),
    "a handle off its leaf": _book("galley", "from_edge = 40\nplace = 480", "from_edge = 40\nplace = 1480"),
    "a plate hole deeper than its board": _book("converted-store", "plate_depth = 12", "plate_depth = 24"),
    "holes that overlap": _book(
        "galley",
        "spacing = 128\ndiameter = 5\nfrom_edge = 40\nplace = 480",
        "spacing = 3\ndiameter = 5\nfrom_edge = 40\nplace = 480",
    ),
    "leaves that turn negative": _book(
        "converted-store", "meeting_gap = 3\nfloor_clearance = 8", "meeting_gap = 400\nfloor_clearance = 8"
    ),
}


@pytest.mark.parametrize("what", AMISS)
def test_what_plan_refuses_check_does_not_call_sound(rodbook, tmp_path, monkeypatch, what):
    sample, place, old, new = AMISS[what]
    texts = {"job": sample_text(sample), "book": sample_book_text()}
    assert old in texts[place]
    texts[place] = texts[place].replace(old, new, 1)
    for name, text in texts.items():
        (tmp_path / f"{name}.toml").write_text(text, "utf-8")
    monkeypatch.chdir(tmp_path)
    checked = rodbook("check", "job.toml", code=2)
    assert "sound" not in checked[0]
    assert "to put right" in checked[1]


def test_what_check_calls_sound_is_planned(rodbook, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(sample_text("stair"), "utf-8")
    assert "sound." in rodbook("check", "job.toml")[0]
    assert "parts" in rodbook("plan", "job.toml")[0]
