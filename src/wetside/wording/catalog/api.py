"""Sentences of the interface for programs."""

from wetside.wording.catalog import N_

SENTENCES = {
    "web.api.no_token": N_(
        "A token is needed here. Make one under Darkroom, and send it as: Authorization: Bearer TOKEN"
    ),
    "web.api.wrong_token": N_("This token lets nobody in: it was never made, or it was revoked."),
    "web.api.scope": N_("This token may not do that: its scope is {scope:quoted}, and {wanted:quoted_list} is needed."),
    "web.api.no_address": N_("There is nothing at this address. The addresses are listed in openapi.json."),
    "web.api.method": N_("This address does not take {method}. It takes {allowed}."),
    "web.api.not_json": N_("The body must be JSON, sent with Content-Type: application/json."),
    "web.api.unreadable": N_("The body cannot be read as JSON: {reason}."),
    "web.api.letters": N_("{field:quoted} holds a letter that no text can have (NUL, or half of a pair)."),
    "web.api.deep": N_("The body is nested deeper than {most} levels."),
    "web.api.large": N_("The body is larger than {most} bytes. Send less at a time."),
    "web.api.question": N_("{name:quoted} is nothing that can be asked for here. It can be {known:list}."),
    "web.api.twice": N_("{name:quoted} is asked for twice. Send it once."),
    "web.api.value": N_("{field:quoted} cannot be taken: {reason}."),
    "web.api.database": N_("The database could not do it; it says: {reason}. Nothing was half-written. Send it again."),
}
