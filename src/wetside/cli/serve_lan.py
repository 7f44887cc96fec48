"""``wetside serve --lan``: what the terminal tells of the server in the network."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, speaks_utf8
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse

    from wetside.web.serve_lan import Ready


def run(arguments: argparse.Namespace) -> int:
    """Serve the network until Ctrl-C."""
    from wetside.web.serve_lan import Wish, serve_lan

    wish = Wish(
        port=arguments.port,
        data=arguments.data,
        plain=arguments.plain,
        addresses=tuple(arguments.address),
        account=arguments.phone,
        certificate_port=arguments.certificate_port,
    )
    serve_lan(wish, lambda ready: _tell(arguments, ready))
    return ExitCode.OK


def _tell(arguments: argparse.Namespace, ready: Ready) -> None:
    said = [sentence(one.code, one.params) for one in ready.told]
    if arguments.json:
        print_json(
            {
                "address": ready.address,
                "local_address": ready.local,
                "certificate_page": ready.certificate or None,
                "fingerprint_sha256": ready.fingerprint or None,
                "phone_link": ready.link or None,
                "phone_account": ready.code.account if ready.code else None,
                "phone_link_ends_at": ready.code.ends_at.isoformat() if ready.code else None,
                "told": [{"code": one.code, "message": text} for one, text in zip(ready.told, said, strict=True)],
            }
        )
    else:
        print_lines([*_lines(ready), *said])
    if arguments.open:
        import webbrowser

        from wetside.cli.screen import has_screen

        if has_screen():
            webbrowser.open(ready.local)


def _lines(ready: Ready) -> list[str]:
    import sys

    lines = [sentence("cli.serve.lan_ready", {"address": ready.address, "local": ready.local})]
    if ready.certificate:
        params = {"address": ready.certificate, "fingerprint": ready.fingerprint}
        lines += ["", sentence("cli.serve.lan_certificate", params)]
    else:
        lines += ["", sentence("cli.serve.lan_plain", {})]
    if ready.code is None:
        return [*lines, "", sentence("cli.serve.lan_no_link", {})]
    from wetside.adapters.link_code import code_lines
    from wetside.services.records.telephone import VALID_S

    params = {"name": ready.code.account, "minutes": str(VALID_S // 60), "link": ready.link}
    lines += ["", sentence("cli.serve.lan_link", params)]
    return [*lines, *(code_lines(ready.link) if speaks_utf8(sys.stdout) else []), ""]
