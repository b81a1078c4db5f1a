"""The desk's folder: closed to others from the first byte, and held by one desk at a time."""

import os
import re
import stat
import subprocess
import sys
import time

import pytest

from rodbook.desk.keeping.home import hold, holder, made_private
from rodbook.errors import StoreError

posix = pytest.mark.skipif(os.name != "posix", reason="rights of group and others are a thing of POSIX systems")


def _open_ones(home):
    return [str(path) for path in (home, *home.rglob("*")) if stat.S_IMODE(path.lstat().st_mode) & 0o077]


def _started(home, *more):
    """A desk of its own process, once it says where it is or ended."""
    log = home.parent / f"said-{time.monotonic_ns()}"
    with log.open("w") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "rodbook", "desk", "--home", str(home), "--port", "0", *more],
            stdout=out,
            stderr=out,
            env={**os.environ, "PYTHONUNBUFFERED": "1"},
            umask=0o022,
        )
    while not re.search(r"http://127\.0\.0\.1:\d+/", log.read_text("utf-8")) and process.poll() is None:
        time.sleep(0.1)
    return process, log.read_text("utf-8")


@posix
def test_what_is_made_and_what_was_there_is_closed_to_others(tmp_path):
    home = tmp_path / "home"
    assert made_private(home) == []
    assert stat.S_IMODE(home.stat().st_mode) == 0o700
    (home / "photos").mkdir(mode=0o755)
    (home / "desk.sqlite3").write_text("")
    (home / "desk.sqlite3").chmod(0o644)
    (home / "elsewhere").symlink_to("/")
    home.chmod(0o755)
    assert set(made_private(home)) == {".", "photos", "desk.sqlite3"}
    assert [path for path in _open_ones(home) if "elsewhere" not in path] == []
    assert made_private(home) == []


@posix
def test_a_desk_makes_its_files_for_its_owner_alone_and_refuses_a_second(tmp_path):
    home = tmp_path / "home"
    first, _ = _started(home)
    try:
        assert {"desk.sqlite3", "secret-key", "entry-key", "desk.lock"} <= {path.name for path in home.iterdir()}
        assert _open_ones(home) == []
        second, said = _started(home)
        assert second.wait(timeout=60) == 1
        assert f"is in use by process {first.pid}, since " in said
        assert "http://127.0.0.1:" in said
        assert "Traceback" not in said
    finally:
        first.terminate()
        first.wait(timeout=30)
    home.chmod(0o755)
    third, said = _started(home)
    third.kill()
    third.wait(timeout=30)
    assert "could read 1 of the desk's files until now, the first '.'" in said
    assert _open_ones(home) == []
    hold(home).let_go()  # killed, it let go all the same


def test_a_folder_is_held_once(tmp_path):
    held = hold(tmp_path)
    held.tell("http://127.0.0.1:1/")
    assert f"process {os.getpid()}" in holder(tmp_path)
    with pytest.raises(
        StoreError, match=r"is in use by process \d+, since .* at http://127\.0\.0\.1:1/: use that desk"
    ):
        hold(tmp_path)
    held.let_go()
    hold(tmp_path).let_go()
    assert holder(tmp_path) == "another process"
