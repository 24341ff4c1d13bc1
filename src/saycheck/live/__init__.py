"""Listening while the walk goes on: what was said appears at once, and commands are obeyed."""
