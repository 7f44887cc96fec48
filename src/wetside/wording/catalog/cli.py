"""Sentences of ``wetside.cli``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cli.no_such_sheet": N_("No sheet is called {label:quoted}. The evening has {known:quoted_list}."),
    "cli.serve.ready": N_("The darkroom is open at {address} (on this machine only). Ctrl-C closes it."),
    "cli.check.sound": N_("The archive in {folder} is whole."),
    "cli.check.unsound": N_("The archive in {folder} is NOT whole. Nothing was changed."),
    "cli.check.counted": N_("Rows counted: {rows}. Backups that count: {backups}, the newest {newest}."),
    "cli.backup.both": N_("Either list the backups or go back to one: give --list or --restore, not both."),
    "cli.backup.none": N_("There is no backup that counts in {folder}. Make one: wetside backup"),
    "cli.backup.no_folder": N_(
        "There is no archive in {folder:quoted}, hence no backup. Name its folder in WETSIDE_DATA or after --data."
    ),
    "cli.backup.made": N_("Backup made and read back: {name} ({rows} rows)."),
    "cli.backup.restored": N_(
        "The archive stands as in the backup {name} ({rows} rows), with no device signed in and no token of a program: sign in "
        "again, and make the tokens anew. Go on with: wetside serve"
    ),
    "cli.backup.restored_beside": N_(
        "The archive stands as in the backup {name} ({rows} rows), with no device signed in and no token of a program: sign in "
        "again, and make the tokens anew. The file that stood there before is kept as {kept}. Go on with: wetside serve"
    ),
    "cli.export.done": N_("{rows} rows and {files} kept files were written to {target}."),
    "cli.import.done": N_("{rows} rows and {files} kept files were taken in, and compared with the export."),
    "cli.archive.missing_files": N_(
        "{count} kept files were not there. Copy them from a backup of the folder into attachments; wetside check names "
        "them."
    ),
    "cli.schema_which": N_("Say which schema: evening, plan or course."),
    "cli.file_and_options": N_(
        "An evening file and {options:list} say the same things twice. Write them into the file, or leave the file out."
    ),
    "cli.mix.concentrate": N_("concentrate"),
    "cli.mix.concentrate_numbered": N_("concentrate {number}"),
    "cli.mix.water": N_("water"),
    "cli.mix.total": N_("total"),
    "cli.written_to": N_("written to {folder}: {names}"),
}

PARTS = ("cli_bench", "cli_exposure", "cli_run", "cli_logs", "cli_network", "cli_tokens")
