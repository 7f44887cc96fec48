"""A run's rules with their words: what the page shows and says for each act."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.runs.cues import COUNTS_S, SPOKEN, CueKind, act_params
from wetside.runs.rules import rules_of
from wetside.runs.schedule import schedule_at
from wetside.runs.script import LIGHTS_OUT, is_awaited
from wetside.runs.state import last_told
from wetside.services.run_aside import aside_now
from wetside.services.run_terminal import say
from wetside.values.names import plain_name
from wetside.wording import known_codes, sentence, shown

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.runs.moment import Moment
    from wetside.runs.schedule import Due, Schedule
    from wetside.runs.state import State

PAGE = "run_page.page."


def run_rules(
    state: State,
    now: Moment,
    seq: int = 0,
    *,
    clips: Mapping[str, Any] | None = None,
    us: bool = False,
    comma: bool = False,
) -> dict[str, Any]:
    """Rules of a run, whole: data, words, and the names of the rendered clips.

    Parameters
    ----------
    state : State
        Of a run that was opened.
    now : Moment
    seq : int
        Place in the log up to which ``state`` was folded. [1]
    clips : mapping, optional
        Rendered sentences by the names that :func:`cue_sentences` gives; none without.
    us : bool
        Temperatures in °F on the page.
    comma : bool
        Decimal comma on the page.

    Raises
    ------
    RefusedError
        If the run was never opened.
    """
    schedule = schedule_at(state._replace(stamps={}, shifts={}), 0.0)
    return {
        **rules_of(state, now, seq),
        "words": {
            "aside": aside_now(state),
            "acts": {due.act.key: _words_of(due, schedule) for due in schedule.dues},
            "page": {
                code.removeprefix(PAGE): sentence(code, {})
                for code in sorted(known_codes("run_page"))
                if code.startswith(PAGE)
            },
        },
        "shown": {"us": us, "comma": comma},
        "clips": dict(clips or {}),
    }


def cue_sentences(state: State) -> dict[str, str]:
    """Every timed sentence of a run by the name of its clip: ``1.drain-count-20`` for the act, the cue, its seconds."""
    schedule = schedule_at(state._replace(stamps={}, shifts={}), 0.0)
    return {
        f"{due.act.key}-{name}": text
        for due in schedule.dues
        for name, text in _cues_of(due, schedule).items()
        if "{in}" not in text
    }


def takes_back(state: State) -> str:
    """What *take back* would take back, in words; empty before anything was told."""
    last = last_told(state)
    if last is None:
        return ""
    schedule = schedule_at(state._replace(stamps={}, shifts={}), 0.0)
    due = next((due for due in schedule.dues if due.act.key == last[0]), None)
    if due is None:  # of a sheet that was lost since
        return sentence("run_page.takes_back_any", {})
    return sentence("run_page.takes_back", {"told": _words_of(due, schedule)["tell"]})


def _words_of(due: Due, schedule: Schedule) -> dict[str, Any]:
    act = due.act
    known = _params(due, schedule)
    does = act.does if act.does != "hold" else ("hold_out" if act.key == LIGHTS_OUT else "hold_on")

    def of(part: str, name: str = does) -> str:
        code = f"run_page.{part}.{name}"
        return sentence(code, known) if code in known_codes("run_page") else ""

    told = of("tell")
    then = of("then")
    if act.does == "drain":
        then = of("then", _after_drain(known))
    elif act.does == "pour":
        then = _capital(then.removeprefix(", "))
    return {
        "bath": known["bath"],
        "name": _short(known["bath"]),
        "head": _capital(of("head")),
        "ready": _capital(of("ready")),
        "wait": _capital(of("wait")),
        "then": then,
        "then_ready": sentence("run_page.then.ready", {}),
        "then_wait": sentence("run_page.then.wait", {}),
        "mark": _short(of("mark")),
        "tell": told,
        "taken": sentence("run_page.taken", {"told": told}),
        "taken_back": sentence("run_page.taken_back", {"told": told}),
        "early": sentence("run_page.early", {"told": _capital(told)}),
        "impossible": sentence("run_page.impossible", {"told": _capital(told)}),
        "missing": sentence("run_page.missing_stop" if act.kind == "stop" else "run_page.missing", {"told": told}),
        "cues": _cues_of(due, schedule),
    }


def _after_drain(known: Mapping[str, Any]) -> str:
    """Which second line a drain has: what comes after it, and whether that stands in a bottle."""
    if known["then_kind"] == "hang":
        return "drain_hang"
    if not known["then"]:
        return "drain_last"
    if (known["then"], known["then_kind"]) == (known["bath"], known["kind"]):
        return "drain_again"
    return "drain" if known["then_bottle"] else "drain_plain"


def _cues_of(due: Due, schedule: Schedule) -> dict[str, str]:
    """Sentences of an act's cues, as the terminal says them; one that tells a time of its own has it open."""
    act, params = due.act, act_params(due, schedule)
    found: dict[str, str] = {}
    if act.does in SPOKEN:
        found[CueKind.PROMPT.value] = say(f"runs.cue.prompt_{act.does}", params)
        found[CueKind.NOW.value] = say(f"runs.cue.now_{act.does}", params)
        for count_s in COUNTS_S if act.does in ("drain", "lift", "enter") else COUNTS_S[1:2]:
            found[f"{CueKind.COUNT.value}-{count_s:.0f}"] = say(
                f"runs.cue.count_{act.does}", {**params, "in_s": count_s}
            )
    if act.does in ("pour", "move", "drain"):
        found[CueKind.READY.value] = say(f"runs.cue.ready_{act.does}", params)
    if is_awaited(act) and act.does in ("full", "move", "enter", "hang"):
        past = say(f"runs.cue.repeat_{act.does}", {**params, "since_s": 0.0})
        found[CueKind.REPEAT.value] = past.replace(shown(0.0, "mss"), "{in}")
    return found


def _params(due: Due, schedule: Schedule) -> dict[str, Any]:
    params = act_params(due, schedule)
    volume = params["volume_ml"]
    return {
        **params,
        "bath": _named(params["bath"], params["kind"]),
        "then": _named(params["then"], params["then_kind"]) if params["then_kind"] else "",
        "from_bottle": _bottle(params["bottle"]),
        "then_from_bottle": _bottle(params["then_bottle"]),
        "volume": "" if volume is None else shown(volume, "ml"),
    }


def _named(bath: str, kind: str) -> str:
    """A bath's own name; one that is only called by its kind gets its article."""
    word = sentence(f"runs.bath.{kind}", {})
    return bath if bath and plain_name(bath) != plain_name(word) else sentence("run_page.the", {"word": word})


def _short(text: str) -> str:
    """Words at a mark have no article and no capital: there is room for one or two."""
    article = sentence("run_page.the", {"word": ""})
    return text[len(article) :] if text.lower().startswith(article.lower()) else text


def _bottle(mark: str) -> str:
    return sentence("run_page.bottle", {"bottle": mark}) if mark else ""


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
