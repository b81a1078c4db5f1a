"""The command as it is typed."""

import sys

import pytest

from rodbook.cli import main


@pytest.fixture
def rodbook(capfd, monkeypatch):
    """Run the command with these words, as the console script does, and look at what it printed and the code it left with."""

    def _run(*words, code=0):
        monkeypatch.setattr(sys, "argv", ["rodbook", *map(str, words)])
        capfd.readouterr()
        with pytest.raises(SystemExit) as left:
            main()
        done = capfd.readouterr()
        assert int(left.value.code or 0) == code, done.err + done.out
        assert "Traceback" not in done.err + done.out
        assert "did not expect" not in done.err
        return done

    return _run
