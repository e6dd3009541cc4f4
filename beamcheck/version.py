"""The version of this package: the one place where it is written (pyproject.toml reads it from here)."""

VERSION = "0.3.0"
