"""The write-up as one HTML file that needs nothing from outside: style, plots and photographs lie in it."""

from base64 import b64encode
from collections.abc import Mapping
from importlib.resources import files

from saycheck.models.decisions import CHOICE_WORDS
from saycheck.reporting.writeup.document import Picture, WriteUp
from saycheck.reporting.writeup.pictures import mime


def as_html(document: WriteUp, pictures: Mapping[str, bytes] | None = None) -> str:
    """The whole page; every word is escaped, so that nothing anyone said is taken for markup."""
    from jinja2 import Environment, StrictUndefined

    folder = files("saycheck.reporting.writeup")
    environment = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    template = environment.from_string(folder.joinpath("writeup.html.j2").read_text(encoding="utf-8"))
    given = pictures or {}

    def address(picture: Picture) -> str:
        content = given[picture.file]
        return f"data:{mime(content)};base64,{b64encode(content).decode()}"

    return template.render(
        doc=document,
        choices=list(CHOICE_WORDS.values()),
        address=address,
        style=folder.joinpath("writeup.css").read_text(encoding="utf-8"),
    )
