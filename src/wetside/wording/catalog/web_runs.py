"""Sentences of the pages of runs: what the big button tells, what comes, what the list says."""

from wetside.wording.catalog import N_

SENTENCES = {
    "web.runs.no_log_file": N_("No file was chosen. Choose the log, then look at it."),
    "web.runs.no_tie": N_("Say which sheets these were: a load, records, or none of them."),
    "web.runs.none": N_("No run yet"),
    "web.runs.all_over": N_("Nothing is on and nothing is ready"),
    "web.runs.tell_lights_out": N_("All of that is so: lights out"),
    "web.runs.tell_lights_on": N_("Lid is seated, it turns free: lights on"),
    "web.runs.tell_load": N_("{sheet} is in"),
    "web.runs.tell_pour": N_("{bath}: pouring"),
    "web.runs.tell_full": N_("{bath} is in"),
    "web.runs.tell_move": N_("{bath}: they are in"),
    "web.runs.tell_agitate": N_("Moved"),
    "web.runs.tell_inspect": N_("Looked"),
    "web.runs.tell_enter": N_("{sheet} is in"),
    "web.runs.tell_lift": N_("{sheet} is out"),
    "web.runs.tell_drain": N_("{bath}: draining"),
    "web.runs.tell_hang": N_("All hang: the run is over"),
    "web.runs.act_lights_out": N_("Lights out"),
    "web.runs.act_lights_on": N_("Lights on"),
    "web.runs.act_load": N_("Load {sheet}"),
    "web.runs.act_pour": N_("Pour {bath}{from_bottle}"),
    "web.runs.act_full": N_("{bath} full"),
    "web.runs.act_move": N_("Into {bath}"),
    "web.runs.act_agitate": N_("Move"),
    "web.runs.act_inspect": N_("Look"),
    "web.runs.act_enter": N_("{sheet} goes in"),
    "web.runs.act_lift": N_("{sheet} comes out"),
    "web.runs.act_drain": N_("Drain {bath}"),
    "web.runs.act_hang": N_("Hang"),
}

SENTENCES |= {
    "web.mishap.title": N_("{things} went wrong in this run"),
    "web.mishap.title_none": N_("Nothing went wrong, as far as anybody told"),
    "web.mishap.title_not_begun": N_("The run was not started: nothing can have gone wrong"),
    "web.mishap.taken_back": N_("Taken back. It stays in the log and no longer counts."),
    "web.mishap.lost": N_("lost: it hangs nowhere"),
    "web.mishap.scratched": N_("scratched"),
    "web.mishap.stuck": N_("stuck together"),
    "web.mishap.touched": N_("touched a wall or each other"),
    "web.mishap.power": N_("the power went"),
    "web.mishap.light": N_("light came in"),
    "web.mishap.leak": N_("the vessel leaked"),
    "web.mishap.other": N_("something else"),
}
