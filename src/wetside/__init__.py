"""Wetside: from exposed sheets to negatives that print."""

__version__ = "0.1.0"
