"""Faces of packages: each name is there, lives where the face says, and no module hides it."""

import importlib
import pkgutil
import subprocess
import sys
from types import ModuleType

import pytest

import rodbook
from rodbook.late import where_names_live


def _faces():
    packages = (module.name for module in pkgutil.walk_packages(rodbook.__path__, "rodbook.") if module.ispkg)
    return ["rodbook", *(p for p in packages if not p.startswith("rodbook.desk") and where_names_live(p))]


FACES = _faces()


def test_every_large_package_has_a_late_face():
    assert {"rodbook", "rodbook.plan", "rodbook.money", "rodbook.boards", "rodbook.job"} <= set(FACES)


@pytest.mark.parametrize("name", FACES)
def test_a_face_has_what_it_says(name):
    face = importlib.import_module(name)
    live = where_names_live(name)
    assert set(face.__all__) - {"__version__"} == set(live)
    assert dir(face) == sorted(face.__all__)
    for own, (module, there) in live.items():
        assert getattr(face, own) is getattr(importlib.import_module(module), there)
        assert not isinstance(getattr(face, own), ModuleType)
    with pytest.raises(AttributeError, match="no 'nothing_of_that_name'; it has"):
        face.nothing_of_that_name  # noqa: B018


@pytest.mark.parametrize(
    ("face", "name"), [("accuracy", "sag"), ("setout", "schedule"), ("sizes", "trade_off"), ("plan", "as_json")]
)
def test_a_module_does_not_hide_the_name_that_is_called_as_it_is(face, name):
    code = (
        f"import rodbook.{face}.{name}\nfrom rodbook.{face} import {name}\nimport sys\n"
        f"assert {name} is sys.modules['rodbook.{face}.{name}'].{name}, {name}"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
