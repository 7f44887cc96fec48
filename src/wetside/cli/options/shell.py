"""The options of what other programs use: schemas and completion."""

from __future__ import annotations

from typing import Any

from wetside.cli.options.parts import command


def add_schema(commands: Any) -> None:
    """Add `wetside schema`."""
    schema = command(commands, "schema", "schema", "Print the schema of a kept file.", "wetside schema evening")
    schema.add_argument("document", nargs="?", choices=("evening", "plan", "course"), help="which document")
    schema.add_argument("--write", metavar="DIR", help="write all schemas there")
    schema.add_argument("--check", metavar="DIR", help="fail if the schemas there are stale")


def add_complete(commands: Any) -> None:
    """Add `wetside complete`."""
    complete = command(
        commands,
        "complete",
        "complete",
        "Print a completion script for your shell.",
        "wetside complete bash >> ~/.bash_completion",
    )
    complete.add_argument("shell", choices=("bash", "zsh", "fish"), help="which shell")
