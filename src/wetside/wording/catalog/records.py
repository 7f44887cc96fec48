"""Sentences about records: what the tables refuse, and why."""

from wetside.wording.catalog import N_

SENTENCES = {
    # the log of a run
    "records.log.no_run": N_("There is no run {run:quoted} in this archive."),
    "records.log.moved_on": N_(
        "The run has more facts than the {expected} that were known when this was sent: another device wrote meanwhile. "
        "Nothing was taken; it is looked at again and sent anew."
    ),
    # names that stand once
    "records.rule.film_name_once": N_(
        "There is a film called {what:quoted} already. Take another name, or change that one."
    ),
    "records.rule.lot_number_once": N_("This film has a lot {what:quoted} already."),
    "records.rule.developer_name_once": N_(
        "There is a developer called {what:quoted} already. Take another name, or change that one."
    ),
    "records.rule.process_name_once": N_(
        "There is a process called {what:quoted} already. Take another name, or make a new version of that one."
    ),
    "records.rule.aim_name_once": N_(
        "There is an aim called {what:quoted} already. Take another name, or change that one."
    ),
    "records.rule.vessel_name_once": N_(
        "There is a vessel called {what:quoted} already. Take another name, or change that one."
    ),
    "records.rule.instrument_name_once": N_(
        "There is an instrument called {what:quoted} already. Take another name, or change that one."
    ),
    "records.rule.bottle_mark_once": N_(
        "A bottle marked {what:quoted} stands on the shelf already. Give this one another mark, or note the other as "
        "empty first."
    ),
    "records.rule.token_name_once": N_(
        "There is a good token {what:quoted} already. Take another name, or revoke that one."
    ),
    "records.rule.token_has_name": N_("A token needs a name."),
    "records.rule.token_scope_known": N_("A token may read, read and write, or send readings."),
    "records.rule.token_hash_is_one": N_("That is no hash of a token."),
    "records.rule.holder_name_once": N_("There is a holder {what:quoted} already."),
    "records.rule.side_once_a_holder": N_("This holder has a side {what:quoted} already."),
    "records.rule.sheet_label_once_while_waiting": N_(
        "A sheet called {what:quoted} waits already. Give this one another label, such as the holder side with the day."
    ),
    "records.rule.sheet_one_a_side": N_(
        "A sheet lies in this holder side already. It must be developed, or noted as lost, before another is put there."
    ),
    "records.rule.plan_sheet_once": N_("This sheet is in the plan already."),
    "records.rule.run_once_a_load": N_("This load has a run already. Open that one, or give it up first."),
    "records.rule.event_seq_once": N_("Another device wrote to this run at the same moment; it is tried again."),
    "records.rule.receipt_once": N_("This was handed over already."),
    # what a record must have
    "records.rule.film_has_name": N_("A film needs a name."),
    "records.rule.lot_has_number": N_("A lot needs its number, as it stands on the box."),
    "records.rule.developer_has_name": N_("A developer needs a name."),
    "records.rule.process_has_name": N_("A process needs a name."),
    "records.rule.aim_has_name": N_("An aim needs a name."),
    "records.rule.vessel_has_name": N_("A vessel needs a name."),
    "records.rule.instrument_has_name": N_("An instrument needs a name."),
    "records.rule.bottle_has_mark": N_("A bottle needs a mark: a letter is enough."),
    "records.rule.holder_has_name": N_("A holder needs a number or a name."),
    "records.rule.side_has_name": N_("A holder's side needs a name, such as left or right."),
    "records.rule.plan_has_name": N_("A plan needs a name."),
    "records.rule.sheet_has_label_or_holder": N_("A sheet needs a label or a holder side."),
    # numbers inside their limits
    "records.rule.film_ei_in_limits": N_("An exposure index lies between 0.1 and 100,000."),
    "records.rule.process_newest_positive": N_("Versions of a process are counted from 1."),
    "records.rule.process_version_once": N_("This version of the process is there already; open the process again."),
    "records.rule.process_version_positive": N_("Versions of a process are counted from 1."),
    "records.rule.process_temp_in_limits": N_("A process works between 5 and 45 °C."),
    "records.rule.process_clock_known": N_("This rule of the clock is not known."),
    "records.rule.aim_range_in_limits": N_("A density range lies between 0.2 and 3.5."),
    "records.rule.aim_tolerance_in_limits": N_("A tolerance lies between 0.01 and 1."),
    "records.rule.aim_tolerance_below_range": N_("A tolerance cannot be wider than its range."),
    "records.rule.aim_printing_known": N_("This kind of printing is not known."),
    "records.rule.aim_channel_known": N_("This light of a densitometer is not known."),
    "records.rule.vessel_wets_with_something": N_("A vessel needs at least 1 ml to wet its sheets."),
    "records.rule.vessel_least_below_most": N_(
        "The most that {what:quoted} takes is less than what it needs to wet every sheet. Check both volumes."
    ),
    "records.rule.vessel_kind_known": N_("This kind of vessel is not known."),
    "records.rule.vessel_follows_in_limits": N_(
        "A vessel follows its jacket within 30 seconds to an hour; {what:quoted} would not."
    ),
    "records.rule.vessel_jacket_in_limits": N_(
        "A jacket is at most 15 degrees off; that of {what:quoted} would be further."
    ),
    "records.rule.vessel_times_in_limits": N_(
        "Pouring and draining take 0 to 300 seconds, and drying is not negative."
    ),
    "records.rule.instrument_kind_known": N_("This kind of instrument is not known."),
    "records.rule.bottle_not_below_nothing": N_(
        "There is not so much in bottle {what:quoted}. Count what is left, and book that first."
    ),
    "records.rule.bottle_seen_not_negative": N_("A bottle cannot have seen less than no film."),
    "records.rule.bottle_form_known": N_("This form of a liquid is not known."),
    "records.rule.bottle_role_known": N_("This use of a bottle is not known."),
    "records.rule.bottle_line_number_once": N_("Another page wrote to this bottle at the same moment. Try again."),
    "records.rule.bottle_line_kind_known": N_("This kind of entry is not known."),
    "records.rule.bottle_line_class_known": N_("This class of film is not known."),
    "records.rule.bottle_clearing_has_time_and_temp": N_(
        "A clearing time needs its temperature: without it, it cannot be compared with the next."
    ),
    "records.rule.bottle_drawing_takes": N_("What is drawn from a bottle makes it less, not more."),
    "records.rule.side_state_known": N_("This state of a holder side is not known."),
    "records.rule.side_film_only_if_loaded": N_("An empty holder side has no film in it."),
    "records.rule.sheet_n_in_limits": N_("Wanted development lies between N-4 and N+4."),
    "records.rule.sheet_scene_in_limits": N_("The range of a scene lies between 1.5 and 15 stops."),
    "records.rule.sheet_importance_known": N_("This importance is not known."),
    "records.rule.sheet_state_known": N_("This state of a sheet is not known."),
    "records.rule.sheet_developed_only_if_so": N_("Only a developed sheet has a time of development."),
    "records.rule.plan_frozen_is_complete": N_("A frozen plan keeps its evening and its document."),
    "records.rule.attachment_belongs_to_one": N_("A file belongs to one plan or to one sheet."),
    "records.rule.attachment_hash_is_one": N_("This is not the hash of a file."),
    "records.rule.run_load_positive": N_("Loads are counted from 1."),
    "records.rule.run_state_known": N_("This state of a run is not known."),
    "records.rule.event_once_a_device": N_("This was handed over already."),
    "records.rule.event_seq_from_one": N_("Events are counted from 1."),
    "records.rule.event_version_from_one": N_("Versions of an event are counted from 1."),
    "records.rule.darkroom_is_one": N_("There is one darkroom in an archive."),
    "records.rule.darkroom_paper_known": N_("Paper is a4 or letter."),
    "records.rule.darkroom_units_known": N_("Units are metric or us."),
    "records.rule.darkroom_decimal_known": N_("The decimal sign is point or comma."),
    "records.rule.signed_in_way_known": N_("A device signs in by password or by a telephone's link."),
    "records.rule.telephone_code_ends_later": N_("A telephone's link ends after it was made."),
}
