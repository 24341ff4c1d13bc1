"""``python -m saycheck`` is ``saycheck``."""

from saycheck.cli import main

if __name__ == "__main__":
    main()
