"""``wetside backup``: make one, list them, go back to one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterable
    from pathlib import Path

    from wetside.adapters.backup_store import Backup


def run(arguments: argparse.Namespace) -> int:
    """Make a backup, unless something else is asked."""
    from wetside.errors import ConflictError
    from wetside.web.serve import set_up

    if arguments.list and arguments.restore:
        raise ConflictError("cli.backup.both")
    set_up(arguments.data)
    from django.conf import settings

    folder: Path = settings.DATA_FOLDER
    if arguments.list:
        return _list(folder, arguments)
    if arguments.restore:
        return _restore(folder, arguments)
    from wetside.services.archive.backups import make_backup
    from wetside.services.archive.opening import open_to_read

    open_to_read(folder)
    backup = make_backup(folder, "asked").backup
    _say(arguments, "cli.backup.made", {"name": backup.name, "rows": backup.total_rows}, backup=_plain(backup))
    return ExitCode.OK


def _list(folder: Path, arguments: argparse.Namespace) -> int:
    from wetside.services.archive.backups import verified_backups

    backups = verified_backups(folder)
    if arguments.json:
        print_json({"backups": [_plain(one) for one in backups]})
    elif not backups:
        print_lines([sentence("cli.backup.none", {"folder": folder})])
    else:
        print_lines(_table(backups))
    return ExitCode.OK


def _table(backups: Iterable[Backup]) -> list[str]:
    rows = [(one.name, f"{one.made_at:%Y-%m-%d %H:%M} UTC", f"{one.total_rows} rows", _size(one)) for one in backups]
    wide = [max(len(row[rank]) for row in rows) for rank in range(4)]
    return [f"{a:<{wide[0]}}  {b}  {c:>{wide[2]}}  {d:>{wide[3]}}" for a, b, c, d in rows]


def _size(backup: Backup) -> str:
    return f"{backup.size_bytes / 1e6:.1f} MB"


def _restore(folder: Path, arguments: argparse.Namespace) -> int:
    from django.db import connection

    from wetside.adapters.data_folder import folder_info
    from wetside.adapters.folder_lock import FolderLock
    from wetside.errors import InputError

    if folder_info(folder) is None:
        raise InputError("cli.backup.no_folder", folder=str(folder))
    with FolderLock(folder, "backup --restore"):
        if connection.vendor == "sqlite":
            from wetside.services.archive.backups import restore_file

            restored = restore_file(folder, arguments.restore)
            params: dict[str, Any] = {"name": restored.backup.name, "rows": restored.backup.total_rows}
            kept = restored.kept.name if restored.kept else None
            code = "cli.backup.restored_beside" if kept else "cli.backup.restored"
            _say(arguments, code, {**params, "kept": kept}, backup=_plain(restored.backup), kept=kept)
        else:
            from wetside.services.archive.backups import restore_rows

            backup, _ = restore_rows(folder, arguments.restore)
            params = {"name": backup.name, "rows": backup.total_rows}
            _say(arguments, "cli.backup.restored", params, backup=_plain(backup), kept=None)
    return ExitCode.OK


def _say(arguments: argparse.Namespace, code: str, params: dict[str, Any], **plain: Any) -> None:
    if arguments.json:
        print_json({"code": code, "message": sentence(code, params), **plain})
    else:
        print_lines([sentence(code, params)])


def _plain(backup: Backup) -> dict[str, Any]:
    return {
        "name": backup.name,
        "made_at": backup.made_at.isoformat(),
        "reason": backup.reason,
        "rows": backup.total_rows,
        "size_bytes": backup.size_bytes,
        "sha256": backup.sha256,
    }
