"""``saycheck sums``: what is measured on a part."""

from typing import Annotated

import typer

from saycheck.cli.sums_view import AsJson, lines, show


def limit(
    value: Annotated[str, typer.Argument(metavar="AMOUNT", help='The measurement, such as "17±0.5 mm".')],
    at_least: Annotated[
        float | None, typer.Option(metavar="NUMBER", help="The least allowed, in the same unit.")
    ] = None,
    at_most: Annotated[
        float | None, typer.Option(metavar="NUMBER", help="The most allowed, in the same unit.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Hold a measurement against its limit."""
    from saycheck.sums.amounts import measured
    from saycheck.sums.limits import check_limit

    at, unit = measured(value)
    show(check_limit(at, at_least=at_least, at_most=at_most, unit=unit), as_json)


def leak(
    words: Annotated[
        str, typer.Argument(metavar="CLASS|WORDS", help='I, II, III or words: "drips every minute".')
    ],
    fluid: Annotated[str, typer.Option(metavar="WORDS", help='What leaks: "fuel", "hydraulic oil" …')] = "",
    low: Annotated[bool, typer.Option("--low", help="Its level is below the mark.")] = False,
    as_json: AsJson = False,
) -> None:
    """The class of a leak and what to do about it."""
    from saycheck.errors import SumError
    from saycheck.sums.leaks import Level, leak, leak_in_words

    level: Level = "below the mark" if low else "not looked at"
    name = words.strip().upper()
    told = (
        leak(name, fluid=fluid, level=level)  # type: ignore[arg-type]
        if name in ("I", "II", "III")
        else leak_in_words(words, fluid=fluid, level=level)
    )
    if told is None:
        raise SumError(f"'{words}' does not say whether drops form or fall; look again, or give I, II or III")
    show(told, as_json)


def coolant(
    glycol: Annotated[str, typer.Argument(help="ethylene or propylene.")],
    percent: Annotated[str, typer.Argument(metavar="PERCENT", help="Percent by volume, such as 40±2.")],
    coldest: Annotated[
        str, typer.Option(metavar="AMOUNT", help="The coldest day of the site, in °C unless it says °F.")
    ],
    system: Annotated[
        str | None,
        typer.Option(
            metavar="AMOUNT", help="Size of the cooling system in litres: then how much to exchange."
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Where a coolant freezes, against the coldest day."""
    from saycheck.sums.amounts import amount_of
    from saycheck.sums.coolant import freeze_protection, to_exchange
    from saycheck.sums.wording import spread

    told = freeze_protection(glycol, amount_of(percent.rstrip("% ")), amount_of(coldest, "degC").value)
    show(told, as_json)
    if system and told.needed_percent and told.check.verdict != "within" and not as_json:
        out = to_exchange(amount_of(system, "L"), told.percent.value, told.needed_percent)
        lines(f"Drain {spread(out, 'L', 2)} and fill in as much concentrate to get there.")


def battery(
    volts: Annotated[str, typer.Argument(metavar="VOLTS", help="Rest voltage, such as 12.4±0.05.")],
    at: Annotated[
        str, typer.Option(metavar="AMOUNT", help="Temperature of the battery, in °C unless it says °F.")
    ],
    nominal: Annotated[int, typer.Option(metavar="NUMBER", help="6, 12 or 24 V.")] = 12,
    rested: Annotated[
        float | None, typer.Option(metavar="NUMBER", help="Hours that nothing charged it or drew from it.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """How full a battery is, from its rest voltage."""
    from saycheck.sums.amounts import amount_of
    from saycheck.sums.battery import charge

    at_c = amount_of(at, "degC").value
    show(charge(amount_of(volts, "V"), at_c, nominal_v=nominal, rested_h=rested), as_json)


def tyre(
    pressure: Annotated[
        str, typer.Argument(metavar="PRESSURE", help='With its unit: "50 psi", "3.5±0.1 bar".')
    ],
    at: Annotated[
        str, typer.Option(metavar="AMOUNT", help="Temperature of the tyre then, in °C unless it says °F.")
    ],
    then: Annotated[
        str, typer.Option(metavar="AMOUNT", help="The other temperature, in °C unless it says °F.")
    ],
    as_json: AsJson = False,
) -> None:
    """Tyre pressure at another temperature."""
    from saycheck.sums.amounts import amount_of, measured
    from saycheck.sums.tyres import tyre_pressure

    unit = measured(pressure)[1] or "kPa"
    gauge = amount_of(pressure, "kPa")
    show(tyre_pressure(gauge, amount_of(at, "degC"), amount_of(then, "degC").value, shown_in=unit), as_json)


def fork(
    thickness: Annotated[
        str, typer.Argument(metavar="THICKNESS", help="Now, at the heel or the thinnest place, in mm.")
    ],
    new: Annotated[str, typer.Option(metavar="AMOUNT", help="When new, in mm, as on the shank.")],
    as_json: AsJson = False,
) -> None:
    """How far a fork arm is worn."""
    from saycheck.sums.amounts import amount_of
    from saycheck.sums.forks import fork_wear

    show(fork_wear(amount_of(thickness, "mm"), amount_of(new, "mm")), as_json)


def chain(
    length: Annotated[
        str, typer.Argument(metavar="LENGTH", help="Now, over as many links as can be, in mm.")
    ],
    new: Annotated[
        str, typer.Option(metavar="AMOUNT", help="The same links when new: links times pitch, in mm.")
    ],
    limit: Annotated[float, typer.Option(metavar="NUMBER", help="The maker's limit in percent.")] = 3.0,
    as_json: AsJson = False,
) -> None:
    """How far a chain has grown."""
    from saycheck.sums.amounts import amount_of
    from saycheck.sums.chains import chain_wear

    show(chain_wear(amount_of(length, "mm"), amount_of(new, "mm").value, limit_percent=limit), as_json)


def convert(
    value: Annotated[str, typer.Argument(metavar="AMOUNT", help='With its unit: "35 psi", "120 lbf ft".')],
    unit: Annotated[str, typer.Argument(metavar="UNIT", help="The unit wanted: bar, N m, °C …")],
    as_json: AsJson = False,
) -> None:
    """Turn an amount into another unit."""
    from saycheck.errors import SumError
    from saycheck.sums.amounts import measured
    from saycheck.sums.conversions import convert

    at, there = measured(value)
    if not there:
        raise SumError(f"'{value}' has no unit; write it as 35psi or 120 N m")
    show(convert(at, there, unit), as_json)
