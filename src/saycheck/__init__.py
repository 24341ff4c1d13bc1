"""saycheck hears a spoken walkaround of a machine and writes up what was found."""

__version__ = "0.1.0"
