"""Rodbook: a joiner's rod that works out every part, boring, layout, cost and paper from one setting-out."""

__all__ = ["__version__"]

__version__ = "0.1.0"
