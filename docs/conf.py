"""How the documentation site is built: `make docs`, and in `make test` with every warning an error.

Nothing is fetched while it is built, and nothing while it is read: fonts, styles and the search index lie in the site itself.
"""

from __future__ import annotations

import shutil
import sys
import tomllib
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
_PROJECT = tomllib.loads((HERE.parent / "pyproject.toml").read_text("utf-8"))["project"]

project = "Rodbook"
author = "The Rodbook maintainers"
project_copyright = author
release = version = _PROJECT["version"]

sys.path.insert(0, str(HERE / "_ext"))
extensions = ["myst_parser", "sphinx.ext.autodoc", "sphinx.ext.napoleon", "mathml", "benchmark_list", "references"]
exclude_patterns = ["_theme", "_ext"]
source_suffix = {".md": "markdown"}
default_role = "literal"  # `name` in a docstring is a name: looking all of them up would double the time
smartquotes = False

myst_heading_anchors = 3
myst_links_external_new_tab = False

autodoc_member_order = "bysource"
autodoc_typehints = "none"  # types stand in the docstrings
autodoc_default_options = {"members": True, "imported-members": True}
napoleon_google_docstring = False
napoleon_use_ivar = True
napoleon_use_param = False
napoleon_use_rtype = False
add_module_names = False

html_math_renderer = "mathml"
html_title = "Rodbook"
html_theme_path = ["_theme"]
html_theme = "rodbook"
html_static_path = ["../src/rodbook/papers/fonts"]
html_sidebars = {"**": ["sitemap.html"]}
html_search_scorer = str(HERE / "_theme" / "search_order.js")
html_copy_source = False
html_show_sourcelink = False
html_show_sphinx = False
html_use_index = True
html_domain_indices = False
pygments_style = "bw"


def _with_pictures(app: Any, failed: Exception | None) -> None:
    """Copy the pictures too that pages show by `<img>`, which Sphinx does not look into."""
    if failed is None:
        shutil.copytree(HERE / "pictures", Path(app.outdir) / "pictures", dirs_exist_ok=True)


def setup(app: Any) -> None:
    """Sphinx calls this when it has read the settings."""
    app.connect("build-finished", _with_pictures)
