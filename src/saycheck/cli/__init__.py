"""The commands. Nothing heavy is imported before a command that needs it is run."""

from saycheck.cli.app import app, main

__all__ = ["app", "main"]
