"""The list of commands is printed without loading one; what it says is what each says of itself."""

import subprocess
import sys
from pathlib import Path

import click
import pytest

import rodbook.cli
from rodbook.cli import rodbook as commands
from rodbook.cli.group import COMMANDS


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_what_the_list_says_of_a_command_is_how_its_own_help_begins(name):
    command = commands.get_command(None, name)
    assert command.name == name
    assert " ".join(command.help.split()).startswith(COMMANDS[name][1].removesuffix("."))


def test_every_module_of_a_command_is_in_the_list():
    """A command that nobody can call is dead code."""

    listed = {where for where, _ in COMMANDS.values()}
    for path in sorted(Path(rodbook.cli.__file__).parent.glob("*.py")):
        module = __import__(f"rodbook.cli.{path.stem}", fromlist=["x"]) if path.stem != "__init__" else rodbook.cli
        for name, found in vars(module).items():
            if isinstance(found, click.Command) and not isinstance(found, click.Group):
                assert f"{path.stem}:{name}" in listed or found.callback.__module__ != module.__name__, (
                    path.stem,
                    name,
                )


@pytest.mark.parametrize("option", ["--version", "--help"])
def test_the_list_and_the_version_load_no_stage(option):
    code = (
        f"import sys; sys.argv = ['rodbook', {option!r}]\n"
        "from rodbook.cli import rodbook\n"
        "try:\n    rodbook()\nexcept SystemExit:\n    pass\n"
        "print(sorted(m for m in sys.modules if m.split('.')[0] in ('numpy', 'pydantic', 'django', 'rich', 'scipy')))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60)
    assert done.stdout.splitlines()[-1] == "[]"


def test_a_command_that_is_not_there_is_told(rodbook):
    assert "No such command" in rodbook("plam", code=2).err
