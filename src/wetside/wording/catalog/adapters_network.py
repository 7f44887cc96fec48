"""Sentences about the addresses and the certificate authority."""

from wetside.wording.catalog import N_

SENTENCES = {
    "adapters.lan.no_address": N_(
        "This machine has no address in a private network. Join it to your own network first; a public address is never listened on."
    ),
    "adapters.lan.address": N_("{value:quoted} is no private address of this machine. It has {known:list}."),
    "adapters.lan.unreadable": N_(
        "The certificate authority's files cannot be read or do not belong together. Put them back from a copy of the data folder; or move the folder away, start again and let each device take the new certificate in."
    ),
    "adapters.lan.time": N_(
        "The certificate authority holds until {ends}, and by this machine's clock that is too near or past, or it is not valid yet. If the clock is right, move the folder away, start again and let each device take the new certificate in."
    ),
}
