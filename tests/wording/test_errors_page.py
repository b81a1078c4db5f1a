"""The page of codes, and the template for translations, are up to date."""

from pathlib import Path
from runpy import run_path

SCRIPTS = Path(__file__).parent.parent.parent / "scripts"


def test_the_page_lists_every_code_as_the_catalogue_has_it():
    script = run_path(str(SCRIPTS / "error_codes.py"))
    assert script["PAGE"].read_text("utf-8") == script["page"](), "run make messages"


def test_the_template_has_every_sentence():
    script = run_path(str(SCRIPTS / "messages.py"))
    assert script["TEMPLATE"].read_text("utf-8") == script["wording_text"](), "run make messages"
