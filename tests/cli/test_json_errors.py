"""What is wrong is told as data where JSON is asked for: code, path, mark, parameters, severity, and the sentence."""

import json

import pytest


@pytest.fixture
def broken(rodbook, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    rodbook("new", "job.toml", "--sample", "stair")
    path = tmp_path / "job.toml"
    path.write_text(path.read_text("utf-8").replace("[job]", "[job]\nbuild_upp = 'x'", 1), "utf-8")
    return path


def test_check_tells_faults_as_data(rodbook, broken):
    told = json.loads(rodbook("check", "--json", "job.toml", code=2).out)
    (file,) = told["files"]
    assert file["file"] == "job.toml"
    fault = next(one for one in file["faults"] if "build_upp" in json.dumps(one["path"]))
    assert set(fault) == {"code", "parameters", "sentence", "where", "path", "mark", "severity"}
    assert fault["severity"] == "fault"
    assert "build_upp" in fault["sentence"]


def test_a_sound_file_has_no_faults(rodbook, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    rodbook("new", "job.toml", "--sample", "stair")
    assert json.loads(rodbook("check", "job.toml", "--json").out) == {"files": [{"file": "job.toml", "faults": []}]}


def test_the_error_of_any_command_is_told_as_data(rodbook, broken):
    for words in (("plan", "job.toml", "--json"), ("--json", "price", "job.toml")):
        done = rodbook(*words, code=2)
        assert done.out == ""
        assert json.loads(done.err)["faults"][0]["severity"] == "fault"


def test_an_error_without_a_place_has_a_code_too(rodbook, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text("", "utf-8")
    (fault,) = json.loads(rodbook("--json", "new", "job.toml", code=1).err)["faults"]
    assert (fault["code"], fault["parameters"]) == ("file.there_already", {"path": "job.toml"})
