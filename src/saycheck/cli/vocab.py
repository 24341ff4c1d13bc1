"""``saycheck vocab``: look at the words of the trade that saycheck knows."""

from typing import Annotated

import typer

from saycheck.cli import vocab_card, vocab_lists, vocab_schema
from saycheck.cli.shop import OfUnit, Shop

app = typer.Typer(help="Look at the machine kinds, parts and sayings that are known.", no_args_is_help=True)

app.command("card")(vocab_card.card)
app.command("schema")(vocab_schema.schema)
app.command("import")(vocab_lists.import_list)
app.command("export")(vocab_lists.export_list)

Kind = Annotated[str, typer.Argument(metavar="KIND", help="A machine kind, such as wheel-loader.")]


@app.command()
def kinds(_shop: Shop = None) -> None:
    """List the machine kinds."""
    from saycheck.vocabulary.load import kinds, load

    for kind in kinds():
        typer.echo(f"{kind:<24} {load(kind).standard}")


@app.command()
def show(
    kind: Kind,
    part: Annotated[
        str | None, typer.Argument(metavar="PART", help="Show all of this part, and where it stands.")
    ] = None,
    values: Annotated[
        bool, typer.Option("--values", help="Show all of every part, and where each value stands.")
    ] = False,
    _shop: Shop = None,
    _unit: OfUnit = None,
) -> None:
    """List the parts of a machine kind in walking order, as all layers make them, and where each stands."""
    from rich.console import Console

    from saycheck.reporting.origins import show_values
    from saycheck.reporting.parts import show_parts
    from saycheck.vocabulary.load import files_of, load
    from saycheck.vocabulary.naming import part_named
    from saycheck.vocabulary.stack import stacked

    vocabulary = load(kind)
    stack = stacked(files_of(kind))
    if part is None and not values:
        show_parts(vocabulary, stack, Console())
        return
    for one in [part_named(part, vocabulary)] if part is not None else vocabulary.parts:
        show_values(one, vocabulary, stack, Console())


@app.command()
def check(_shop: Shop = None) -> None:
    """Read every vocabulary file and say of each machine kind what it holds, and what is wrong and where."""
    from saycheck.checkup.run import checkup
    from saycheck.vocabulary.compiled import Vocabulary

    def told(known: Vocabulary) -> None:
        sayings = sum(len(part.sayings) for part in known.parts)
        name = known.unit or known.kind
        typer.echo(f"{name:<24}{len(known.zones):>3} zones{len(known.lines):>5} lines{sayings:>6} sayings")

    faults = checkup(loaded=told)
    for fault in faults:
        typer.echo(str(fault), err=True)
    if faults:
        raise typer.Exit(2)


@app.command()
def hear(
    phrase: Annotated[str, typer.Argument(help="Words as they might be spoken.")],
    machine: Annotated[str, typer.Option("--machine", "-m", metavar="KIND", help="Kind of machine.")],
    _shop: Shop = None,
    _unit: OfUnit = None,
) -> None:
    """Say which parts a phrase may mean, the likeliest first, and by which of their names."""
    from saycheck.cli.naming import parts_named, why
    from saycheck.vocabulary.load import files_of, load
    from saycheck.vocabulary.stack import stacked

    vocabulary = load(machine)
    stack = stacked(files_of(machine))
    named = parts_named(phrase, vocabulary)
    for words, parts in named:
        typer.echo(f"{words}: {', '.join(parts) or 'no part of this machine'}")
        for name in parts:
            saying, places = why(words, vocabulary.part(name), stack)
            typer.echo(f"  {name} is called '{saying}'  [{', '.join(map(str, places))}]")
    if not named:
        typer.echo(
            f"no part is named in '{phrase}'; `saycheck vocab show {vocabulary.kind}` lists them", err=True
        )
