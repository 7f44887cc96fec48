"""The tables, by topic."""

from wetside.records.models.access import SignedIn, SignInAttempts, TelephoneCode
from wetside.records.models.darkroom import Darkroom, DecimalSign, Units
from wetside.records.models.film import Developer, Film, FilmLot
from wetside.records.models.kept import LABEL_LENGTH, NOTE_LENGTH, Kept, Line, worker, written_by
from wetside.records.models.plan import Attachment, Plan, PlanSheet
from wetside.records.models.process import Aim, Process, ProcessVersion
from wetside.records.models.run import Receipt, Run, RunEvent, RunState
from wetside.records.models.sheet import Holder, HolderSide, Sheet, SheetState, SideState
from wetside.records.models.shelf import (
    Bottle,
    BottleForm,
    BottleLine,
    BottleLineKind,
    BottleRole,
    Instrument,
    InstrumentCheck,
    InstrumentKind,
    Vessel,
)
from wetside.records.models.token import Token, TokenScope

__all__ = [
    "LABEL_LENGTH",
    "NOTE_LENGTH",
    "Aim",
    "Attachment",
    "Bottle",
    "BottleForm",
    "BottleLine",
    "BottleLineKind",
    "BottleRole",
    "Darkroom",
    "DecimalSign",
    "Developer",
    "Film",
    "FilmLot",
    "Holder",
    "HolderSide",
    "Instrument",
    "InstrumentCheck",
    "InstrumentKind",
    "Kept",
    "Line",
    "Plan",
    "PlanSheet",
    "Process",
    "ProcessVersion",
    "Receipt",
    "Run",
    "RunEvent",
    "RunState",
    "Sheet",
    "SheetState",
    "SideState",
    "SignInAttempts",
    "SignedIn",
    "TelephoneCode",
    "Token",
    "TokenScope",
    "Units",
    "Vessel",
    "worker",
    "written_by",
]
