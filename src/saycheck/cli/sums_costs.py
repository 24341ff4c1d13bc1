"""``saycheck sums``: how long it lasts and what it costs."""

from pathlib import Path
from typing import Annotated

import typer

from saycheck.cli.sums_view import AsJson, lines, show


def wear(
    readings: Annotated[
        list[str],
        typer.Argument(metavar="HOURS:AMOUNT", help="Such as 1000:22±0.5 1200:20±0.5 1400:18.5±0.5."),
    ],
    at_least: Annotated[
        float | None, typer.Option(metavar="NUMBER", help="The limit where wear makes the reading fall.")
    ] = None,
    at_most: Annotated[
        float | None, typer.Option(metavar="NUMBER", help="The limit where wear makes it rise.")
    ] = None,
    unit: Annotated[str, typer.Option(metavar="WORD", help="Unit of the readings.")] = "mm",
    now: Annotated[
        float | None,
        typer.Option(metavar="NUMBER", help="The hour meter now; else that of the last reading."),
    ] = None,
    hours_per_day: Annotated[
        float | None, typer.Option(metavar="NUMBER", help="Hours on a usual day: then the day as well.")
    ] = None,
    renewed_at: Annotated[
        float | None,
        typer.Option(metavar="NUMBER", help="Hours at which the part was replaced or reversed: begin there."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """How fast a part wears, and how long it lasts."""
    from datetime import date

    from saycheck.errors import SumError
    from saycheck.sums.amounts import amount_of
    from saycheck.sums.wear import WearPoint, wear

    points = []
    for one in readings:
        hours, colon, value = one.partition(":")
        if not colon:
            raise SumError(f"'{one}' is no reading at hours; write it as 1200:20±0.5")
        points.append(WearPoint(amount_of(hours, "h").value, amount_of(value, unit)))
    if renewed_at is not None:
        points = [point for point in points if point.hours >= renewed_at]
    told = wear(
        points,
        at_least=at_least,
        at_most=at_most,
        unit=unit,
        hours_per_day=hours_per_day,
        hours_now=now,
        today=date.today(),
    )
    show(told, as_json)


def edge(
    thickness: Annotated[
        str, typer.Argument(metavar="THICKNESS", help="Now, where the maker measures it, in mm.")
    ],
    new: Annotated[str, typer.Option(metavar="AMOUNT", help="When new, in mm.")],
    reverse_by: Annotated[
        str, typer.Option(metavar="AMOUNT", help="The maker's last size for reversing, in mm.")
    ],
    rate: Annotated[str, typer.Option(metavar="AMOUNT", help="Wear in mm per 100 h, such as 0.9±0.2.")],
    next_look: Annotated[float, typer.Option(metavar="NUMBER", help="Hours until somebody measures again.")],
    worn_out: Annotated[
        str | None, typer.Option(metavar="AMOUNT", help="Where a missed side has to come off, in mm.")
    ] = None,
    edge_cost: Annotated[
        float | None, typer.Option(metavar="NUMBER", help="Cost of a new edge: then what missing it costs.")
    ] = None,
    fitting: Annotated[float, typer.Option(metavar="NUMBER", help="Cost of fitting it.")] = 0.0,
    reversing: Annotated[float, typer.Option(metavar="NUMBER", help="Cost of reversing it.")] = 0.0,
    money: Annotated[str, typer.Option(metavar="WORD", help="What the money is called.")] = "",
    as_json: AsJson = False,
) -> None:
    """When to reverse an edge, what missing it costs."""
    from saycheck.sums.amounts import amount_of
    from saycheck.sums.reading import Reading
    from saycheck.sums.reversible_edge import EdgeCosts, reversible_edge

    per_hundred = amount_of(rate, "mm")
    told = reversible_edge(
        amount_of(thickness, "mm"),
        new_mm=amount_of(new, "mm").value,
        reverse_by_mm=amount_of(reverse_by, "mm").value,
        rate_mm_per_h=Reading(per_hundred.value / 100, per_hundred.plus_minus / 100),
        next_look_h=next_look,
        worn_out_mm=None if worn_out is None else amount_of(worn_out, "mm").value,
        costs=None if edge_cost is None else EdgeCosts(edge_cost, fitting, reversing, money),
    )
    show(told, as_json)


def wait(
    now: Annotated[str, typer.Option(metavar="AMOUNT", help="Parts and labour of doing it now.")],
    later: Annotated[
        str,
        typer.Option(
            metavar="AMOUNT", help="The same at the end of the period, if nothing fails; 0 if it goes away."
        ),
    ],
    failed: Annotated[str, typer.Option(metavar="AMOUNT", help="Parts and labour when it fails.")],
    chance: Annotated[
        str, typer.Option(metavar="AMOUNT", help="Chance that it fails in the period, in percent: 15±5.")
    ],
    now_hours: Annotated[
        str, typer.Option(metavar="AMOUNT", help="Hours that crew and machine stand idle for it now.")
    ] = "0",
    later_hours: Annotated[str, typer.Option(metavar="AMOUNT", help="The same later.")] = "0",
    failed_hours: Annotated[str, typer.Option(metavar="AMOUNT", help="The same when it fails.")] = "0",
    crew: Annotated[str, typer.Option(metavar="AMOUNT", help="What the idle crew costs an hour.")] = "0",
    machine: Annotated[
        str, typer.Option(metavar="AMOUNT", help="What the idle machine costs an hour.")
    ] = "0",
    period: Annotated[
        str, typer.Option(metavar="WORDS", help='Until when, such as "spring".')
    ] = "the end of the period",
    money: Annotated[str, typer.Option(metavar="WORD", help="What the money is called.")] = "",
    plot: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Draw the tornado plot: .svg or .png.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """What doing a job now costs against waiting."""
    from saycheck.sums.amounts import amount_of
    from saycheck.sums.reading import Reading
    from saycheck.sums.tornado import draw, picture_form, sketch
    from saycheck.sums.waiting import Job, now_or_later

    form = picture_form(plot) if plot else None
    percent = amount_of(chance.rstrip("% "))
    told = now_or_later(
        now=Job(amount_of(now), amount_of(now_hours, "h")),
        later=Job(amount_of(later), amount_of(later_hours, "h")),
        failed=Job(amount_of(failed), amount_of(failed_hours, "h")),
        crew_per_h=amount_of(crew),
        machine_per_h=amount_of(machine),
        chance=Reading(percent.value / 100, percent.plus_minus / 100),
        period=period,
        money=money,
    )
    show(told, as_json)
    if plot and form:
        from saycheck.errors import SumError

        try:
            with plot.open("xb") as file:
                file.write(draw(told, form))
        except FileExistsError:
            raise SumError(f"'{plot}' is there already; give another name") from None
        except OSError as error:
            raise SumError(f"'{plot}' cannot be written ({error.strerror}); give another place") from error
    elif not as_json:
        typer.echo()
        typer.echo(sketch(told))


def age(
    planned: Annotated[str, typer.Option(metavar="AMOUNT", help="Cost of a planned replacement, all in.")],
    failure: Annotated[
        str, typer.Option(metavar="AMOUNT", help="Cost of a failure, hours down and idle crew counted in.")
    ],
    shape: Annotated[
        str | None, typer.Option(metavar="AMOUNT", help="Weibull shape, such as 2.5±0.5.")
    ] = None,
    scale: Annotated[str | None, typer.Option(metavar="AMOUNT", help="Weibull scale in hours.")] = None,
    failed: Annotated[
        list[float] | None,
        typer.Option(
            metavar="NUMBER", help="Hours at which one failed; once for each, instead of shape and scale."
        ),
    ] = None,
    running: Annotated[
        list[float] | None,
        typer.Option(metavar="NUMBER", help="Hours of one that still runs; once for each."),
    ] = None,
    money: Annotated[str, typer.Option(metavar="WORD", help="What the money is called.")] = "",
    as_json: AsJson = False,
) -> None:
    """At what age to replace a part before it fails."""
    from saycheck.errors import SumError
    from saycheck.sums.age_replacement import age_replacement
    from saycheck.sums.amounts import amount_of
    from saycheck.sums.weibull import fit_weibull
    from saycheck.sums.wording import spread

    if failed and (shape or scale):
        raise SumError("shape and scale and hours of failure are two ways to say one thing; give one of them")
    if failed:
        fit = fit_weibull(failed, running or ())
        if not as_json:
            lines(
                f"From {fit.failures} failures and {fit.still_running} still running: Weibull shape "
                f"{spread(fit.shape, '', 2)}, scale {spread(fit.scale_h, 'h', 2)}."
            )
        told = age_replacement(
            amount_of(planned),
            amount_of(failure),
            shape=fit.shape,
            scale_h=fit.scale_h,
            money=money,
        )
    elif shape and scale:
        told = age_replacement(
            amount_of(planned),
            amount_of(failure),
            shape=amount_of(shape),
            scale_h=amount_of(scale, "h"),
            money=money,
        )
    else:
        raise SumError("a life is wanted: --shape with --scale, or --failed once for each failure")
    show(told, as_json)
