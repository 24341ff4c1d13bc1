# Daily tasks; each is one line that works without just as well.

# everything that must pass
check:
    sh check.sh

# the quick tests
test *args:
    .venv-dev/bin/pytest -n 2 -m "not sound" {{args}}

# put the code in order
tidy:
    .venv-dev/bin/ruff check --fix .
    .venv-dev/bin/ruff format .

# hear the demo recording
demo:
    sh demo.sh

# how long --help takes
speed:
    .venv-dev/bin/python bench/help_speed.py
