"""``wetside take``: a log of the terminal into the archive, shown first."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.cli import take_back
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, text_width, wrapped
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse

    from wetside.services.records.runs_taken import Looked, Taken
    from wetside.services.records.runs_tied import Ties


def run(arguments: argparse.Namespace) -> int:
    """Show what a log would bring; take it in where that was said. A server may run meanwhile."""
    from wetside.services.run_logs import bytes_of_log
    from wetside.web.serve import set_up

    path = Path(arguments.log)
    data = bytes_of_log(path)
    set_up(arguments.data)
    from django.conf import settings

    from wetside.services.archive.opening import open_to_read
    from wetside.services.records.runs_taken import look_at_log, take_log
    from wetside.services.records.runs_tied import NO_TIES

    open_to_read(settings.DATA_FOLDER)
    looked = look_at_log(data, path.name)
    if arguments.untie or arguments.remove:
        back = take_back.untie_shown if arguments.untie else take_back.remove_shown
        back(looked, yes=arguments.yes, json=arguments.json)
        return ExitCode.OK
    ties = _ties(looked) if arguments.sheets else NO_TIES
    taken = take_log(data, path.name, ties) if arguments.yes else None
    if arguments.json:
        print_json(_document(looked, taken))
    else:
        lines = [*_shown(looked), "", *(_done(taken) if taken is not None else _asked(looked))]
        print_lines(line for text in lines for line in wrapped(text, text_width()))
    return ExitCode.OK


def _ties(looked: Looked) -> Ties:
    """What is shown: the load that alone fits, or each sheet that is told beyond doubt."""
    from wetside.services.records.runs_tied import Ties

    if len(looked.fits.loads) == 1:
        return Ties(load=str(looked.fits.loads[0].pk))
    return Ties(sheets=looked.fits.best)


def _shown(looked: Looked) -> list[str]:
    params: dict[str, Any] = {
        "title": looked.title,
        "began": f"{looked.began_at:%Y-%m-%d %H:%M} UTC",
        "count": len(looked.baths),
        "baths": list(looked.baths),
        "ended": looked.ended,
    }
    lines = [sentence("cli.take.rehearsal" if looked.state.rehearsal else "cli.take.run", params)]
    lines.append(sentence("cli.take.baths" if looked.baths else "cli.take.no_bath", params))
    lines += [sentence("cli.take.ended", params), *looked.came]
    if looked.read.torn_bytes:
        lines.append(sentence("cli.take.torn", {"count": looked.read.torn_bytes}))
    if looked.run is None:
        lines.append(sentence("cli.take.new", {"facts": looked.facts}))
    elif looked.removed_at is not None:
        lines.append(sentence("cli.take.was_removed", {"run": looked.run.name}))
    elif looked.new:
        lines.append(sentence("cli.take.more", {"facts": looked.new, "run": looked.run.name}))
    return [*lines, *_fits(looked)]


def _fits(looked: Looked) -> list[str]:
    """What ``--sheets`` would tie, and what only the page can ask."""
    fits = looked.fits
    if not fits.some:
        return []
    if len(fits.loads) == 1:
        return [sentence("cli.take.load", {"load": fits.loads[0].name})]
    known = fits.best
    lines = [sentence("cli.take.sheets", {"sheets": list(known)})] if known else []
    unsure = [one.name for one in fits.sheets if one.records and one.name not in known]
    if unsure or len(fits.loads) > 1:
        lines.append(sentence("cli.take.unsure", {"sheets": unsure or [one.name for one in fits.sheets]}))
    return lines


def _asked(looked: Looked) -> list[str]:
    return [sentence("cli.take.nothing_new" if looked.changes_nothing and not looked.fits.some else "cli.take.ask", {})]


def _done(taken: Taken) -> list[str]:
    params = {"facts": taken.new, "run": taken.run.name, "tied": taken.tied, "key": str(taken.run.pk)}
    lines = [sentence("cli.take.back", params)] if taken.back else []
    if taken.new or taken.tied:
        lines.append(sentence("cli.take.done", params))
    if taken.tied:
        lines.append(sentence("cli.take.tied", params))
    return lines or [sentence("cli.take.nothing_new", {})]


def _document(looked: Looked, taken: Taken | None) -> dict[str, Any]:
    run = looked.run if taken is None else taken.run
    done = None
    if taken is not None:
        done = {"facts": taken.new, "made": taken.made, "sheets": taken.tied, "back": taken.back}
    return {
        "run": None if run is None else str(run.pk),
        "title": looked.title,
        "opened": looked.began_at.isoformat(),
        "status": looked.state.status.value,
        "rehearsal": looked.state.rehearsal,
        "lasted_s": looked.lasted_s,
        "lasted": shown(looked.lasted_s, "mss"),
        "baths": list(looked.baths),
        "facts": looked.facts,
        "new": looked.new,
        "removed": looked.removed_at is not None,
        "torn_bytes": looked.read.torn_bytes,
        "fits": {"loads": [one.name for one in looked.fits.loads], "sheets": list(looked.fits.best)},
        "taken": done,
    }
