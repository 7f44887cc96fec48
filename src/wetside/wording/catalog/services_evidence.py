"""Sentences about the evidence of a film: what is weakest, what would help; films, developers, processes, aims."""

from wetside.wording.catalog import N_

SENTENCES = {
    # what is weak
    "services.evidence.one_time": N_(
        "The readings are of one time only, {time_s:mss}: they show densities, not how contrast moves with time. A plan "
        "cannot use them."
    ),
    "services.evidence.other_index": N_(
        "The sheet prints times for EI {indexes:list} only, and you rate the film at EI {ei:plain}: no plan starts from them."
    ),
    "services.evidence.bare_time": N_(
        "{time_s:mss} is a bare time: nobody is named for it, and how contrast moves with time is common practice."
    ),
    "services.evidence.no_test": N_(
        "No test of your own: the plan starts from {time_s:mss} of a sheet, and how contrast moves from there is common "
        "practice."
    ),
    "services.evidence.wide_span": N_(
        "The source prints {low_s:mss} to {high_s:mss}: that is wider than the window of a sheet."
    ),
    "services.evidence.no_gradient": N_(
        "The time does not say which contrast it aims at; a normal negative is assumed."
    ),
    "services.evidence.no_reference": N_(
        "How much stock or concentrate the time was found with is not known: whether less developer still does is "
        "not checked."
    ),
    "services.evidence.no_base_fog": N_(
        "Base + fog was not read: the lowest reading, {density:density}, stands for it, and speed and gradients lean on it."
    ),
    "services.evidence.aim_not_reached": N_(
        "{aim} at {n:n} needs a time outside the tested ones, {low_s:mss} to {high_s:mss}, and is refused."
    ),
    "services.evidence.highlight_not_read": N_(
        "The readings end {missing:density} log short of the highlight that {aim} at {n:n} needs."
    ),
    "services.evidence.moved_agitation": N_(
        "The time is for {from_class} agitation, you develop with {to_class}: {percent:percent} is a conversion."
    ),
    "services.evidence.moved_presoak": N_(
        "The time is for {from_class} agitation, you develop with {to_class} after a pre-soak: {percent:percent} of time, give or "
        "take {spread:.0f} %."
    ),
    "services.evidence.moved_temperature": N_(
        "The time is for {from_c:temp}, your process works at {to_c:temp}: {percent:percent} is a conversion."
    ),
    "services.evidence.no_coefficient": N_(
        "How times in {developer} move with temperature is not known: at any other temperature a plan is refused."
    ),
    "services.evidence.named_coefficient": N_(
        "How times in {developer} move with temperature is your own choice, and nothing measured stands behind it."
    ),
    "services.evidence.coefficients_differ": N_(
        "Sources of {developer} disagree on temperature: {low:.1f} to {high:.1f} % of time a degree."
    ),
    "services.evidence.speed_relative": N_(
        "The speed point would be that of ISO {speed:.0f}, more than two stops from EI {ei:plain}: the log exposures look "
        "relative, so no speed is told."
    ),
    # what would help
    "services.evidence.two_tablets": N_(
        "Develop two step tablets, at {short_s:mss} and {long_s:mss}, in {developer} {dilution} at {temp_c:temp}, and enter "
        "the readings: from then on contrast rests on your own film."
    ),
    "services.evidence.one_tablet": N_(
        "Develop one step tablet at {time_s:mss}: its gradient says what the time aims at."
    ),
    "services.evidence.one_more_tablet": N_(
        "Develop a second tablet at {time_s:mss} and enter it together with the readings of {first_s:mss}."
    ),
    "services.evidence.third_tablet": N_("Develop a further tablet at {time_s:mss}: it reaches {aim} at {n:n}."),
    "services.evidence.weaker_dilution": N_(
        "The time would be {time_s:mss}, under the {floor_s:mss} that develop evenly: test a weaker dilution or a cooler bath."
    ),
    "services.evidence.expose_tablet_longer": N_(
        "Expose the next tablet {stops:mixed} stops more, so that its thin steps reach the highlights."
    ),
    "services.evidence.tablet_in_vessel": N_(
        "Develop a tablet at {time_s:mss} in your own vessel ({kind}): the conversion is then no longer needed."
    ),
    "services.evidence.test_pair": N_(
        "Find two times of equal contrast: begin with {cold_s:mss} at {cold_c:temp} and {warm_s:mss} at {warm_c:temp}, "
        "and enter the pair with the developer."
    ),
    "services.evidence.unexposed_strip": N_(
        "Put one unexposed strip through with the next test, read it, and enter it as base + fog."
    ),
    "services.evidence.note_agent": N_(
        "With the next test note how much stock or concentrate went to how much film, such as 20 ml per 516 cm²."
    ),
    "services.evidence.read_again": N_("Read the same tablets again in {channel} light, and enter them as a test."),
    # films
    "services.film.sheets_wait": N_(
        "Sheets of {what:quoted} wait to be developed: {count}. Develop or remove them first, or give them another film."
    ),
    "services.film.in_holders": N_("{what:quoted} lies in holders (sides: {count}). Empty them first."),
    "services.film.lot_in_holders": N_("Film of lot {what:quoted} lies in holders (sides: {count}). Empty them first."),
    "services.film.lot_sheets_wait": N_(
        "Sheets of lot {what:quoted} wait to be developed: {count}. They keep it until then."
    ),
    "services.film.lot_number": N_("A lot needs its number, as it stands on the box."),
    "services.film.date": N_("{value:quoted} is no date. Write year, month and day, such as 2027-03-31."),
    "services.film.bought": N_("{value:quoted} is no number of sheets. Write a whole number, such as 25."),
    "services.film.points": N_(
        "{value:quoted} does not say metered times with factors. Write pairs, such as 1 s 1.5, 10 s 6."
    ),
    "services.film.no_readings": N_("Paste the readings, or choose a file."),
    "services.film.reading_other": N_(
        "At {time_s:mss} and log H {log_h:density} stands a density of {density:density} already. Leave that reading out, "
        "or remove the test and enter all of it anew."
    ),
    "services.film.no_exposure": N_(
        "Readings by step need the exposure on the clear part of the tablet, as log lux-seconds, such as -1.0. "
        "Where the light is not known, write the column log_h yourself, counted from any step."
    ),
    # developers
    "services.developer.named": N_(
        "{what:quoted} is named by {processes:quoted_list}, and versions of a process are never rewritten. Keep the name, "
        "or make another developer and new versions with it."
    ),
    "services.developer.in_use": N_(
        "Sheets that wait are to be developed in {what:quoted} ({processes:quoted_list}): {count}. Give them another "
        "process first."
    ),
    # processes
    "services.process.sheets_wait": N_(
        "Sheets wait for {what:quoted}: {count}. Develop them, or give them another process, first."
    ),
    "services.records.chosen_by_drafts": N_(
        "{what:quoted} is chosen by drafts of plans: {count} ({drafts}). Choose another there, or remove the drafts, first."
    ),
    "services.process.key_set": N_("{key}: {after}, where nothing stood."),
    "services.process.key_gone": N_("{key}: nothing, where {before} stood."),
    "services.process.key_changed": N_("{key}: {after} instead of {before}."),
    "services.process.bath_added": N_("Bath {place} is new: {bath}."),
    "services.process.bath_removed": N_("Bath {place} is gone: {bath}."),
    "services.process.bath_moved": N_("{bath} is bath {place} now, where it was {before}."),
    "services.process.bath_key": N_("Bath {place}, {bath}, {key}: {after} instead of {before}."),
    # aims
    "services.aim.sheets_wait": N_(
        "Sheets wait for {what:quoted}: {count}. Develop them, or give them another aim, first."
    ),
    "services.aim.unknown_row": N_(
        "No grade, filter or process is called {value:quoted} here. Choose one of the list."
    ),
    "services.aim.steps": N_("{value:quoted} is no step of a tablet. Count from the clear end: 1, 2, 3."),
}
