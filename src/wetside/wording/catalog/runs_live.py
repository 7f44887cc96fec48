"""Sentences of a run's commands: what was taken, asked back or refused, and what a reading means."""

from wetside.wording.catalog import N_

SENTENCES = {
    "runs.script.no_schedule": N_("Load {load} of the plan has no acts. Plan the evening anew with this program."),
    "runs.script.time": N_("{value:plain} s is no developing time: it lies between {low_s:mss} and {high_s:mss}."),
    "runs.script.format": N_("The run is written in format {value}, and this program reads format {known}."),
    "runs.script.unreadable": N_("What the run follows cannot be read: {reason}."),
    "runs.script.acts": N_("A run has 1 to {most} acts; this one has {count}."),
    "runs.script.act_time": N_("Act {act:quoted} has a time or volume that is none."),
    "runs.script.sheets": N_("The script names {count} sheets, and no load has more than {most}."),
    "runs.script.sheet_name": N_(
        "{value:quoted} in {field} is no sheet of the script: each has a label of its own, and acts name only those."
    ),
    "runs.script.flag": N_("{field} holds {value:quoted}; true or false is wanted."),
    "runs.script.text": N_(
        "{field} holds {value:quoted}; text that can be printed, up to {longest} letters, is wanted."
    ),
    "runs.script.word": N_("{field} holds {value:quoted}; one of {known:list} is wanted."),
    "runs.script.number": N_("{field} holds {value:quoted}; a number from {low:plain} to {high:plain} is wanted."),
    "runs.script.act_order": N_(
        "Act {act:quoted} stands twice, does nothing known, or follows {anchor:quoted} too soon."
    ),
    "runs.script.no_developer": N_("Nothing in the run develops, or it does not end with hanging."),
    "runs.script.bath_order": N_("The baths of the run do not stand in the order of their numbers."),
    "runs.script.time_impossible": N_("{value:plain} s is no developing time."),
    "runs.log.busy": N_(
        "Other devices write to this run all the time: after {tries} tries nothing was taken. Try again."
    ),
    "runs.event.kind": N_("The fact is of a kind that this program does not know; it is kept."),
    "runs.event.version": N_("The fact was written by a newer program; it is kept and does not count here."),
    "runs.event.data": N_("The data of the fact are damaged; it is kept and does not count."),
}

SENTENCES |= {
    "runs.contested.move": N_("That cannot be at this point of the run."),
    "runs.contested.act": N_("The run has no such act."),
    "runs.contested.again": N_("That act was told before."),
    "runs.contested.before": N_("It would lie before an act that comes first."),
    "runs.contested.passed": N_("An act that comes later was told for an earlier time."),
    "runs.contested.clock": N_("The clock of that device was in doubt."),
    "runs.contested.absurd": N_("No bath is so cold or so hot, and no thermometer that is used so far off."),
    "runs.contested.sheet": N_("The run has no such sheet, or it was lost before."),
    "runs.contested.order": N_("The order names a sheet twice, or one that is not in the run."),
    "runs.contested.hung_otherwise": N_("Whoever told it had not seen the order that counts now."),
    "runs.contested.nothing_there": N_("What was taken back is not there."),
}

SENTENCES |= {
    "runs.reading.no_number": N_("The thermometer sent no number. The reading is shown, and not used."),
    "runs.reading.absurd": N_(
        "{value:plain} °C is no bath: {low_c:temp} to {high_c:temp}. The reading is shown, and not used. Look where the "
        "probe hangs."
    ),
    "runs.reading.offset": N_(
        "An instrument that reads {value:plain} °C too high is of no use: at most {most_c:temp}. The reading is shown, "
        "and not used."
    ),
    "runs.reading.ahead": N_(
        "The reading is dated later than it came: the thermometer's clock is wrong. The reading is shown, and not used. "
        "Leave the time out, or send the reading's age."
    ),
    "runs.reading.stale": N_(
        "The reading is {age_s:mss} old, and {most_s:mss} is the most: it says nothing of now. It is shown, and not used."
    ),
    "runs.reading.jump": N_(
        "{temp_c:temp}, and {ago_s:mss} before it was {last_c:temp}: no bath changes that fast, {most_c:plain} °C is the "
        "most. The reading is shown, and not used. Read yourself, and type what you see."
    ),
    "runs.reading.clock": N_("The run's clock is in doubt since the restart: the reading is shown, and not used."),
    "runs.reading.no_number_kept": N_("Not used: the thermometer sent no number."),
    "runs.reading.absurd_kept": N_("Not used: no bath is that cold or that hot."),
    "runs.reading.offset_kept": N_("Not used: the instrument is too far off."),
    "runs.reading.ahead_kept": N_("Not used: dated later than it came."),
    "runs.reading.stale_kept": N_("Not used: too old when it came."),
    "runs.reading.jump_kept": N_("Not used: no bath changes that fast."),
    "runs.reading.clock_kept": N_("Not used: the run's clock was in doubt."),
    "runs.reading.other_kept": N_("Not used, for a reason that this program does not know."),
}

SENTENCES |= {
    "runs.refused.opened": N_("The run is open already."),
    "runs.refused.not_opened": N_("There is no run yet: open one first."),
    "runs.refused.clock": N_(
        "The clock is in doubt since the restart: the run had lasted {known_s:mss} for certain. Read a watch, and tell "
        "how long the run has lasted."
    ),
    "runs.refused.unknown": N_("That cannot be asked of a run."),
    "runs.refused.status": N_("Not in a run that is {status}."),
    "runs.refused.repeat": N_("Twice within a moment: taken once."),
    "runs.refused.nothing": N_("Nothing is waited for any more."),
    "runs.refused.act": N_("The run has no act {act:quoted}."),
    "runs.refused.not_due": N_("Act {act:quoted} is not due yet, so it was not done on time."),
    "runs.refused.no_time": N_("That is no time within the run: from 0:00 to as long as it has lasted."),
    "runs.refused.ago": N_("{ago_s:mss} ago is no time within the run: from 0:00 to as long as it has lasted."),
    "runs.refused.nothing_told": N_("Nothing was told yet that could be taken back."),
    "runs.refused.reading": N_("{value:plain_c} is no bath: {low_c:temp} to {high_c:temp}. Read again."),
    "runs.refused.offset": N_(
        "An instrument that reads {value:step_c} too high is of no use: at most 15 degrees Celsius."
    ),
    "runs.refused.no_sheets": N_("The run has no list of sheets, so none can be lost."),
    "runs.refused.which_sheet": N_("Which one is lost? Say its label or its place: {sheets:quoted_list}."),
    "runs.refused.sheet": N_("No sheet {sheet:quoted} is in the run. It has {sheets:quoted_list}."),
    "runs.refused.place": N_("There is no place {place}: the vessel has sheets in places 1 to {count}."),
    "runs.refused.whose": N_("Which sheet was it? Name it, or its place: {sheets:quoted_list}."),
    "runs.refused.pause": N_("The run has no pause {pause:quoted} that still waits."),
    "runs.refused.no_end": N_("No developing end lies ahead that could be moved."),
    "runs.refused.look": N_("A look moves the end by at most {most_s:mss}; {value_s:plain} s is more."),
    "runs.refused.order": N_("The order {order:quoted_list} does not fit the sheets of the run: {sheets:quoted_list}."),
    "runs.refused.time": N_(
        "The run has lasted {known_s:mss} for certain: the watch must show more, and less than a day."
    ),
    "runs.doubt.early": N_("{bath}: {early_s:mss} too early. If it is so, press again."),
    "runs.doubt.impossible": N_("{bath}: nobody pours and drains so fast. If it is so, press again."),
}

SENTENCES |= {
    "runs.taken.hold": N_("Taken: go on."),
    "runs.taken.load": N_("Taken: {sheet} is in."),
    "runs.taken.pour": N_("Taken: {bath}, pouring."),
    "runs.taken.full": N_("Taken: {bath}, full."),
    "runs.taken.move": N_("Taken: {bath}."),
    "runs.taken.agitate": N_("Taken: moved."),
    "runs.taken.inspect": N_("Taken: looked."),
    "runs.taken.enter": N_("Taken: {sheet} is in."),
    "runs.taken.lift": N_("Taken: {sheet} is out."),
    "runs.taken.drain": N_("Taken: {bath}, draining."),
    "runs.taken.hang": N_("Taken: hung. The run is over."),
    "runs.said.taken_back": N_("Taken back: {bath}, told {ago_s:mss} ago."),
    "runs.said.taken_back_fact": N_("Taken back."),
    "runs.said.noted": N_("Noted for every sheet that it could reach."),
    "runs.said.noted_of": N_("Noted for {sheets:list}."),
    "runs.said.abandoned": N_("The run is given up. What happened is kept."),
    "runs.said.reading": N_("{temp_c:temp}, {where}."),
    "runs.said.no_coefficient": N_(
        "Kept. How this developer follows temperature is not known, so nothing is reckoned."
    ),
    "runs.said.lost": N_("{sheet:quoted} is out, {count} left: {volume_ml:ml}, and {wetting_ml:ml} wets the vessel."),
    "runs.said.lost_agent": N_(
        "{sheet:quoted} is out, {count} left: {volume_ml:ml}, and {wetting_ml:ml} wets the vessel; developing agent "
        "{ratio:share} of what they need."
    ),
    "runs.said.lost_wet": N_(
        "{sheet:quoted} is lost, {count} left. It was in the baths, and counts for them; it is not hung and gets no number."
    ),
    "runs.said.retired": N_("No more pause {pause}."),
    "runs.said.looked": N_("The end is moved by {by_s:mss}: drain in {in_s:mss}."),
    "runs.said.order": N_("{count} sheets by clip: kept."),
    "runs.said.order_unknown": N_("Order unknown: kept so. Tell it later if a mark shows it."),
    "runs.said.by_wall_clock": N_("Restarted: the run's time, {now_s:mss}, is by the wall clock now."),
    "runs.said.clock_doubtful": N_(
        "Restarted, and the wall clock cannot be right: the run had lasted {known_s:mss} for certain. Go by your watch, "
        "and tell how long the run has lasted."
    ),
    "runs.said.time_told": N_("The run has lasted {run_s:mss}, by your watch."),
    "runs.integral.outside": N_(
        "{temp_c:temp} is outside the developer's tested temperatures: a warning only, the end stays. Watch the negative."
    ),
    "runs.integral.dead_band": N_(
        "Worth {density:signed} density ({percent:percent} of time), less than a thermometer resolves: the end stays."
    ),
    "runs.integral.stays": N_("The corrected end stays where it is: {shift_s:mss} moved in all."),
    "runs.integral.moved": N_(
        "Development would come out {density:signed} density ({percent:percent} of time): the end moves by {shift_s:mss}."
    ),
    "runs.integral.bound_floor": N_(
        "It moves no further than the shortest time that you trust: {percent:percent} is left."
    ),
    "runs.integral.bound_share": N_("It moves no further than the set share of the time: {percent:percent} is left."),
    "runs.integral.bound_past": N_("It cannot move into the past: drain now. {percent:percent} is left."),
}
