"""Sentences of ``wetside account`` and ``wetside serve --lan``."""

from wetside.wording.catalog import N_

SENTENCES = {
    "cli.account.added": N_("The account {name:quoted} is made. Serve the network with: wetside serve --lan"),
    "cli.account.password": N_("The account {name:quoted} has its new password. All its devices are signed out."),
    "cli.account.removed": N_(
        "The account {name:quoted} is removed and its devices are signed out. Undo it with: wetside account bring-back {name}"
    ),
    "cli.account.back": N_("The account {name:quoted} is back, with the password that it had."),
    "cli.account.list_none": N_("There is no account yet. Make one with: wetside account add NAME"),
    "cli.account.differ": N_("The two passwords differ; nothing was changed. Try again."),
    "cli.account.no_terminal": N_(
        "There is no terminal to ask for the password on. Give it on one line of the standard input with --stdin."
    ),
    "cli.account.no_line": N_("The standard input has no line with a password."),
    "cli.account.name": N_("Say which account: wetside account {doing} NAME"),
    "cli.serve.lan_only": N_("{option} goes with --lan alone. Nothing was started."),
    "cli.serve.lan_ready": N_(
        "The darkroom is open at {address} for devices in this network that sign in, and at {local} on this machine. Ctrl-C closes it."
    ),
    "cli.serve.lan_plain": N_(
        "WARNING: plain HTTP. Whoever shares this network can read passwords and records on their way and act as you. The screen of a telephone is not kept awake, and the page of a run cannot be opened again while the server is down."
    ),
    "cli.serve.lan_certificate": N_(
        "On each device once: open {address} and take the certificate in. Its fingerprint (SHA-256): {fingerprint}"
    ),
    "cli.serve.lan_link": N_(
        "This link signs one telephone in as {name:quoted}, once, within {minutes} minutes: {link}"
    ),
    "cli.serve.lan_no_link": N_(
        "There are several accounts. For a link that signs a telephone in, add --phone NAME, or open the darkroom's page."
    ),
}
