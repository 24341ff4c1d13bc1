"""``saycheck sums``: each sum by hand, for those who stand at the machine with a number."""

import typer

from saycheck.cli import sums_costs, sums_parts

app = typer.Typer(
    help="Sums of a technician: limits, wear, costs, leaks, coolant, batteries, tyres, forks, chains, units.",
    no_args_is_help=True,
)
for command in (
    sums_parts.limit, sums_costs.wear, sums_costs.edge, sums_costs.wait, sums_costs.age, sums_parts.leak,
    sums_parts.coolant, sums_parts.battery, sums_parts.tyre, sums_parts.fork, sums_parts.chain, sums_parts.convert,
):  # fmt: skip
    # An amount may be negative: "-40 degF" is no option.
    app.command(context_settings={"ignore_unknown_options": True})(command)
