"""Sentences about the archive itself: opening, backups, plain files, the examination."""

from wetside.wording.catalog import N_

SENTENCES = {
    # opening
    "services.archive.began": N_("A new archive was begun in {folder}."),
    "services.archive.backed_up": N_("Backup made and read back: {name} ({rows} rows)."),
    "services.archive.unchanged": N_("Nothing has changed since the backup {name} ({rows} rows)."),
    "services.archive.no_backup": N_(
        "NO BACKUP was made at this start: {reason} The records themselves are open. See to it soon."
    ),
    "services.archive.migrated": N_(
        "The tables were brought to this version's form ({count} steps). Before that a backup was made and read back: "
        "{name}."
    ),
    "services.archive.strays": N_(
        "{count} rows of the archive point to rows that are not there. Look at them with: wetside check"
    ),
    "services.archive.none": N_(
        "There is no archive with records in {folder:quoted}. Name its folder in WETSIDE_DATA or after --data, or begin one "
        "with: wetside serve"
    ),
    "services.archive.nothing_here": N_(
        "There is no archive in {folder:quoted}. Name its folder in WETSIDE_DATA or after --data."
    ),
    "services.archive.missing": N_(
        "The database that keeps this archive's records is not there, and nothing was begun in its place. If you moved "
        "it, put it back. Else take the newest backup that is whole, of {made} with {rows} rows: wetside backup "
        "--restore {name}"
    ),
    "services.archive.missing_lost": N_(
        "The database that keeps this archive's records is not there, nothing was begun in its place, and there is no "
        "backup that is whole. If you moved it, or have a copy elsewhere, put it back under this name."
    ),
    "services.archive.damaged": N_(
        "The database of this archive is damaged; it says: {reason}. It was left as it is, and nothing was begun in its "
        "place. Take the newest backup that is whole, of {made} with {rows} rows: wetside backup --restore {name} (the "
        "damaged file is kept beside it)."
    ),
    "services.archive.damaged_lost": N_(
        "The database of this archive is damaged; it says: {reason}. It was left as it is, nothing was begun in its "
        "place, and there is no backup that is whole. Copy the whole folder before you try anything, and put back a "
        "copy of yours if there is one."
    ),
    "services.archive.other_database": N_(
        "The records of this archive are kept in {kept}, and {named} is named now. Nothing was opened. Set or unset "
        "WETSIDE_DATABASE as before; to move the records: wetside export, then wetside import into a new folder."
    ),
    "services.archive.server_in_use": N_(
        "Another program works on this PostgreSQL database already, from another data folder or another machine. Nothing "
        "was opened. End it first, or name a database of its own for this folder in WETSIDE_DATABASE."
    ),
    "services.archive.other_folder": N_(
        "The PostgreSQL database that is named belongs to another data folder, archive {owner}; this one is archive "
        "{archive}. Its kept files and backups are there. Nothing was opened. Name that folder in WETSIDE_DATA, or a "
        "database of its own for this one in WETSIDE_DATABASE. If that folder is lost, write archive = “{owner}” and "
        "records = “postgresql” into about.toml of this one."
    ),
    "services.archive.database_said": N_(
        "The database could not do it; it says: {reason}. Nothing was half-written. Look whether the disk is full and "
        "whether the folder may be written to."
    ),
    "services.archive.no_server": N_(
        "PostgreSQL cannot be reached; it says: {reason}. Start it, or mend WETSIDE_DATABASE. Nothing was changed."
    ),
    "services.archive.server_empty": N_(
        "This archive's records are in PostgreSQL, and the database that is named now has none. Nothing was begun there. "
        "Name the right one in WETSIDE_DATABASE; or take the newest backup that is whole: wetside backup --restore {name}"
    ),
    "services.archive.server_empty_lost": N_(
        "This archive's records are in PostgreSQL, and the database that is named now has none. Nothing was begun there, "
        "and there is no backup that is whole. Name the right database in WETSIDE_DATABASE."
    ),
    "services.archive.newer_tables": N_(
        "The tables of this archive have a form that this program does not know ({name}): a newer program wrote them. "
        "Nothing was opened or changed. Use the newer program."
    ),
    "services.archive.older_tables": N_(
        "The tables of this archive have the form of an older version. Bring them up first: wetside serve makes a backup "
        "and does it."
    ),
    "services.archive.migration_failed": N_(
        "The tables could not be brought to this version's form: {reason}. The old archive stands as it stood, and the "
        "backup {name} was made before. Use the version that you had, and report this."
    ),
    "services.archive.migration_unsound": N_(
        "The tables in this version's form did not pass the database's own check ({reason}). The old archive stands as "
        "it stood. Use the version that you had, and report this."
    ),
    "services.archive.in_use": N_(
        "Another program has the database file open; the database says: {reason}. End it first: nothing was changed."
    ),
    # backups
    "services.archive.backup_unwritten": N_(
        "No backup could be written; the system says: {reason}. Make room on the disk, or free the folder. The archive "
        "itself is unharmed."
    ),
    "services.archive.export_unwritten": N_(
        "The export could not be written; the system says: {reason}. Make room on the disk, and try again. The archive "
        "itself is unharmed."
    ),
    "services.archive.backup_unsound": N_(
        "The backup was written, but did not read back as the archive is ({reason}). It does not count and was removed. "
        "Look at the archive and the disk: wetside check"
    ),
    "services.archive.backup_harmed": N_(
        "The backup {name:quoted} is no longer what it was when it was made. Nothing was touched. Take another: wetside "
        "backup --list"
    ),
    "services.archive.restore_unwritten": N_(
        "The backup could not be put in place; the system says: {reason}. Make room on the disk, and try again."
    ),
    "services.archive.other_keeper": N_(
        "The backup {name:quoted} is a file of SQLite, and the records shall go to PostgreSQL. Restore it without "
        "WETSIDE_DATABASE, then: wetside export, wetside import."
    ),
    # plain files out and in
    "services.archive.not_plain": N_(
        "Row {row} of {table} holds what no plain file can: a number that is not finite, or a broken letter. Mend that "
        "record, then export again."
    ),
    "services.archive.not_empty": N_(
        "This archive has records already ({table} is not empty), and an import is never mixed into others. Name a new "
        "folder in WETSIDE_DATA or after --data, and for PostgreSQL an empty database."
    ),
    "services.archive.refused_rows": N_(
        "The database refuses these rows: {reason}. Nothing was taken. The export is from another version, or was "
        "changed by hand."
    ),
    "services.archive.no_index": N_(
        "{name:quoted} has no index.json: it is no export of an archive. Name the folder or the zip that wetside export "
        "wrote."
    ),
    "services.archive.bad_index": N_("The index of the export cannot be understood. Nothing was taken. Export again."),
    "services.archive.newer_export": N_(
        "This export has format {value}, and this program knows formats up to {known}. Use a newer program."
    ),
    "services.archive.unknown_table": N_(
        "The export has a table {name:quoted} that this version does not know (the nearest is {nearest:quoted}). It is "
        "from another version: use that one. Nothing was taken."
    ),
    "services.archive.unknown_column": N_(
        "The export has a column {name:quoted} in {table} that this version does not know. It is from another version: "
        "use that one. Nothing was taken."
    ),
    "services.archive.lacking_column": N_(
        "The export lacks the column {name:quoted} of {table}, which cannot be left out. It is from another version, or "
        "was changed by hand. Nothing was taken."
    ),
    "services.archive.no_file": N_(
        "The file {name:quoted} of the export is missing. Nothing was taken. Copy it again."
    ),
    "services.archive.not_as_indexed": N_(
        "This file of the export is not what the index says ({rows} rows, {wanted} in the index, or changed ones). "
        "Nothing was taken. Copy the export again."
    ),
    "services.archive.not_as_given": N_(
        "What stands in the table after the import is not what stood in this file ({rows} rows of {wanted}, or changed "
        "ones). Nothing was taken. Report this."
    ),
    "services.archive.file_differs": N_(
        "This kept file of the export is not what its name says. Nothing was taken. Copy the export again."
    ),
    "services.archive.line": N_("This line is no row as JSON. Nothing was taken."),
    "services.archive.line_columns": N_("This row does not have just the columns {columns:list}. Nothing was taken."),
    "services.archive.value": N_("{field} cannot be {value:quoted}. Nothing was taken."),
    # the examination
    "services.check.empty": N_("There are no records in this archive yet."),
    "services.check.other_database": N_(
        "The records are kept in {kept}, and {named} is named now. Set or unset WETSIDE_DATABASE as before."
    ),
    "services.check.shared_drive": N_(
        "The database lies on a drive that is shared over a network ({kind}, at {point}). Move the folder to a disk of "
        "this machine, or keep the records in PostgreSQL."
    ),
    "services.check.missing": N_(
        "The database that keeps the records is not there, or holds none. Put it back, or take the newest backup that is "
        "whole ({name}): wetside backup --restore {name}"
    ),
    "services.check.damaged": N_(
        "The database is damaged; it says: {reason}. Take the newest backup that is whole ({name}): wetside backup "
        "--restore {name}"
    ),
    "services.check.unreadable": N_("The database cannot be read; it says: {reason}. See to the database first."),
    "services.check.strays": N_(
        "{count} rows of {table} point to rows that are not there. Restore a backup that has them, and report this."
    ),
    "services.check.newer_tables": N_("A newer program wrote these tables ({name}). Use the newer program."),
    "services.check.older_tables": N_(
        "The tables have the form of an older version ({count} steps behind). wetside serve makes a backup and brings "
        "them up."
    ),
    "services.check.bottle_ml": N_(
        "Bottle {mark:quoted} is said to hold {left:ml}, and its lines add up to {sum:ml}. Measure what is in it, and "
        "count it anew on its page."
    ),
    "services.check.bottle_units": N_(
        "Bottle {mark:quoted} is said to have seen {seen:plain} units of film, and its lines add up to {sum:plain}. Trust "
        "the lines: test its clearing time before you use it."
    ),
    "services.check.process_newest": N_(
        "Process {name:quoted} calls version {newest} its newest, and the newest that is there is {found}. Open the "
        "process, and make a new version of it."
    ),
    "services.check.process_gap": N_(
        "Process {name:quoted} has {newest} versions by its count, and {count} are there. A plan of a missing one keeps "
        "its own copy; restore a backup if you want them back."
    ),
    "services.check.run_gap": N_(
        "Run {run} has {count} facts, and its last is number {last}: some are lost. Restore a backup that has them all."
    ),
    "services.check.file_missing": N_(
        "The file {name:quoted} is not there ({sha256}). Copy it from a backup of the folder into attachments."
    ),
    "services.check.file_differs": N_(
        "The file {name:quoted} is no longer what it was ({sha256}). Copy it from a backup of the folder into "
        "attachments."
    ),
    "services.check.stray_file": N_("A kept file belongs to no record ({sha256}). It does no harm."),
    "services.check.name_key": N_(
        "The {what} {name:quoted} cannot be found by its name ({key}). Change its name on its page, and change it back."
    ),
    "services.check.no_history": N_(
        "A {what} has no history ({key}): it was brought in as a whole. Its next change begins one."
    ),
    "services.check.other_history": N_(
        "A {what} is not what its history says last ({key}): it was changed from outside. Look at it, and save it once "
        "on its page."
    ),
    "services.check.planned_nowhere": N_(
        "Sheet {label:quoted} is said to be planned, and no frozen plan has it. Put it back to waiting on its page."
    ),
    "services.check.and_more": N_("And {count} more of this kind."),
    "services.check.no_backup": N_("There is no backup that counts. Make one: wetside backup"),
    "services.check.backup_harmed": N_(
        "The backup {name} is no longer what it was when it was made: the disk may fail. Copy the folder to another disk."
    ),
    "services.check.backup_uncounted": N_(
        "The backup {name} has no note of what was counted in it, and does not count. Remove it, or keep it as it is."
    ),
}
