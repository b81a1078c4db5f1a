"""The families of build-ups as a book writes them: a model for each, and the registry that a book reads them by.

They stand here and not beside their set-outs, as a book is read before anything is set out, and no stage imports one above
it; `rodbook.setout.families` has the rest of each family, and registering a family there registers its model here.
"""

from rodbook.job.build_ups.base import BuildUpBase, EdgeWay
from rodbook.job.build_ups.inset import InsetBuildUp
from rodbook.job.build_ups.lay_on import LayOnBuildUp
from rodbook.job.build_ups.lay_on_plain import PlainLayOnBuildUp
from rodbook.job.build_ups.registry import AnyBuildUp, BuildUp

__all__ = ["AnyBuildUp", "BuildUp", "BuildUpBase", "EdgeWay", "InsetBuildUp", "LayOnBuildUp", "PlainLayOnBuildUp"]
