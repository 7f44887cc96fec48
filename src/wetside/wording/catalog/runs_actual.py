"""Words for planned against actual, and for facts that speak against each other."""

from wetside.wording.catalog import N_

SENTENCES = {
    "runs.actual.developed": N_("Developed in effect, by the clock"),
    "runs.actual.sheet": N_("{sheet}: developed in effect, by the clock"),
    "runs.actual.time": N_("{time_s:mss}"),
    "runs.actual.moved": N_("End moved on purpose"),
    "runs.actual.not_moved": N_("–"),
    "runs.actual.moved_later": N_("{by_s:mss} later"),
    "runs.actual.moved_earlier": N_("{by_s:mss} earlier"),
    "runs.actual.temperature": N_("Temperature of the developer"),
    "runs.actual.temp": N_("{temp_c:temp}"),
    "runs.actual.temp_mean": N_("as {temp_c:temp} all through"),
    "runs.actual.temp_outside": N_("as {temp_c:temp} all through, outside what its developer's figures cover"),
    "runs.actual.not_read": N_("not read"),
    "runs.actual.no_coefficient": N_("read; what a degree does here is not known"),
    "runs.actual.sheets": N_("Sheets"),
    "runs.actual.count": N_("{count}"),
    "runs.actual.count_lost": N_("{count}, lost: {lost:list}"),
    "runs.actual.bath": N_("{bath}"),
    "runs.settling.fact_done": N_("{act} at {at_s:mss}"),
    "runs.settling.fact_lost": N_("a sheet lost, told at {at_s:mss}"),
    "runs.settling.fact_hung": N_("from clip 1 on: {clips:list}; told at {at_s:mss}"),
    "runs.settling.fact_unknown": N_("which sheet hangs where is not known; told at {at_s:mss}"),
    "runs.settling.fact_end-moved": N_("an end moved, told at {at_s:mss}"),
    "runs.settling.fact_read": N_("a temperature, told at {at_s:mss}"),
    "runs.settling.fact_taken-back": N_("something taken back at {at_s:mss}"),
    "runs.settling.fact_other": N_("{kind}, told at {at_s:mss}"),
    "runs.settling.by_server": N_("told here"),
    "runs.settling.by_terminal": N_("told in a terminal"),
    "runs.settling.by_device": N_("told by device {device}"),
}
