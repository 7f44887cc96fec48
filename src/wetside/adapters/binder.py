"""Plain values of a file into the types of a document, by the keys that the types declare."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.adapters.kinds import READERS, example_of, shown_raw
from wetside.adapters.suggest import nearest_word
from wetside.errors import InputError, UnknownNameError, WetsideError
from wetside.planning.documents.keys import declared_keys

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.adapters.findings import FieldPath, Findings
    from wetside.planning.documents.keys import Key


class Binder:
    """Fills the types of a document and notes what does not fit.

    A table with something wrong is filled all the same, with None for what is required and missing, so that the checks
    between tables can run and everything is said at once; whoever uses the result must ask the findings first.

    Parameters
    ----------
    findings : Findings
        Where errors go.
    """

    def __init__(self, findings: Findings) -> None:
        self._findings = findings
        self._known: dict[tuple[int, str], Any] = {}

    def table(self, kind: type, raw: Mapping[str, Any], path: FieldPath) -> Any:
        """Value of a type, from a table of the file.

        Parameters
        ----------
        kind : dataclass type
            With declared keys.
        raw : mapping
            Plain values by key.
        path : tuple
            Where the table stands in the file.
        """
        keys = declared_keys(kind)
        values: dict[str, Any] = {}
        meant: set[object] = set()
        for name, value in raw.items():
            key = keys.get(name)
            if key is None:
                unknown = _unknown(name, keys)
                meant.add(unknown.params["nearest"])
                self._findings.add((*path, name), unknown)
                continue
            try:
                values[key.attribute] = self._value(key, value, path)
            except WetsideError as error:
                self._findings.add((*path, name), error)
                if key.required:
                    values[key.attribute] = None
        for key in keys.values():
            if key.required and key.attribute not in values:
                values[key.attribute] = None
                if key.name not in meant:
                    self._findings.add((*path, key.name), _missing(key))
        return kind(**values)

    def _value(self, key: Key, raw: Any, path: FieldPath) -> Any:
        if key.table is not None:
            if key.kind == "table":
                if not isinstance(raw, dict):
                    raise InputError("files.kind.table", key=key.name, value=shown_raw(raw))
                return self.table(key.table, raw, (*path, key.name))
            return self._tables(key, raw, path)
        if isinstance(raw, str):
            # Hundreds of sheets say the same few words.
            known = (id(key), raw)
            if known not in self._known:
                self._known[known] = READERS[key.kind](raw, key)
            return self._known[known]
        return READERS[key.kind](raw, key)

    def _tables(self, key: Key, raw: Any, path: FieldPath) -> tuple[Any, ...]:
        dotted = ".".join([part for part in path if isinstance(part, str)] + [key.name])
        if not isinstance(raw, list):
            raise InputError("files.kind.tables", key=key.name, dotted=dotted)
        found = []
        for index, item in enumerate(raw):
            here = (*path, key.name, index)
            if isinstance(item, dict):
                found.append(self.table(key.table, item, here))  # type: ignore[arg-type]
            else:
                found.append(None)
                self._findings.add(here, InputError("files.kind.tables", key=key.name, dotted=dotted))
        return tuple(found)


def _missing(key: Key) -> InputError:
    return InputError("files.key.missing", key=key.name, example=example_of(key), doc=key.doc)


def _unknown(name: str, keys: Mapping[str, Key]) -> UnknownNameError:
    nearest = nearest_word(name, keys)
    code = "files.key.unknown" if nearest is None else "files.key.unknown_near"
    return UnknownNameError(code, key=shown_raw(name), nearest=nearest, allowed=list(keys))


def title_of(raw: object, path: FieldPath) -> str | None:
    """Name of the innermost thing around a field, where it has one.

    Examples
    --------
    >>> title_of({"sheets": [{"label": "7 left", "size": "9x12"}]}, ("sheets", 0, "size"))
    '7 left'
    """
    title = None
    for part in path:
        try:
            raw = raw[part]  # type: ignore[index]
        except (KeyError, IndexError, TypeError):
            break
        if isinstance(raw, dict):
            for key in ("label", "holder", "name", "mark"):
                if isinstance(raw.get(key), str) and raw[key].strip():
                    title = shown_raw(raw[key])[:40]
                    break
    return title
