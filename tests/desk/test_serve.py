"""Where a desk listens and by which names it is asked for: two things."""

import os
import re
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request

import pytest

from rodbook.cli import main
from rodbook.desk.serve import own_names
from rodbook.errors import InputError


@pytest.mark.parametrize(
    ("host", "names", "expected"),
    [
        ("127.0.0.1", [], [socket.gethostname().lower()]),
        ("0.0.0.0", [], [socket.gethostname().lower()]),
        ("192.0.2.20", [], ["192.0.2.20", socket.gethostname().lower()]),
        ("2001:db8::20", [], ["[2001:db8::20]", socket.gethostname().lower()]),
        ("127.0.0.1", ["desk.example", "192.0.2.20", "desk.example"], ["desk.example", "192.0.2.20"]),
    ],
)
def test_names_are_those_given_else_the_address_and_the_machine(host, names, expected):
    assert own_names(host, names) == expected


@pytest.mark.parametrize("name", ["*", ".example", "https://desk.example", "desk:443", "a,b", "", "desk.example/"])
def test_what_is_no_name_of_a_machine_is_told(name):
    with pytest.raises(InputError, match="is no name of a machine"):
        own_names("127.0.0.1", [name])


@pytest.mark.parametrize("option", [["--tls"], ["--name", "desk.example"], ["--host", "192.0.2.20"]])
def test_a_desk_of_ones_own_is_not_reached_from_elsewhere(option, tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(sys, "argv", ["rodbook", "desk", "--home", str(tmp_path), *option])
    with pytest.raises(SystemExit):
        main()
    assert option[0] in capsys.readouterr().err


def _asked(port, host, more=None):
    request = urllib.request.Request(f"http://127.0.0.1:{port}/login/", headers={"Host": host, **(more or {})})
    try:
        return urllib.request.urlopen(request, timeout=20).status
    except urllib.error.HTTPError as error:
        return error.code


def test_a_desk_behind_tls_listens_here_and_answers_to_the_name_given(tmp_path):
    log = tmp_path / "said"
    command = ["-m", "rodbook", "desk", "--home", str(tmp_path / "home"), "--port", "0", "--share", "--tls", "--name"]
    with log.open("w") as out:
        process = subprocess.Popen(
            [sys.executable, *command, "desk.example"],
            stdout=out,
            stderr=out,
            env={**os.environ, "PYTHONUNBUFFERED": "1"},
        )
    try:
        while not (found := re.search(r"http://127\.0\.0\.1:(\d+)/", log.read_text("utf-8"))):
            assert process.poll() is None, log.read_text("utf-8")
            time.sleep(0.1)
        port = int(found[1])
        tls = {"X-Forwarded-Proto": "https"}
        assert "https://desk.example/" in log.read_text("utf-8")
        assert _asked(port, "desk.example", tls) == 200
        assert _asked(port, "other.example", tls) == 400
        assert _asked(port, socket.gethostname(), tls) == 400
    finally:
        process.terminate()
        process.wait(timeout=20)
