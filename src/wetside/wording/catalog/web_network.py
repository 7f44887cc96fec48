"""Sentences about the network: whom the server answers, its certificate."""

from wetside.wording.catalog import N_

SENTENCES = {
    "web.lan.no_account": N_(
        "The network is not served while there is no account: anybody near could read and change the records. Make one first with: wetside account add NAME"
    ),
    "web.lan.strange_host": N_(
        "This server does not answer under that name. It answers as {known:list}. If you typed the address yourself, take one of these; else a page elsewhere tried to reach it through your browser, and was refused."
    ),
    "web.lan.only_certificate": N_("There is only the page of the certificate here. Open / for it."),
    "web.lan.sign_in_first": N_("Nothing was done: this device is not signed in. Sign in, then send it again."),
    "web.lan.made": N_(
        "A certificate authority for this darkroom was made in {folder:quoted}. Its key stays there. Each device takes its certificate in once."
    ),
    "web.lan.name": N_(
        "The authority may not vouch for {names:list}: it was made when the machine had another name. Use an address, or move the folder 'authority' away, start again and let each device take the new certificate in."
    ),
}
