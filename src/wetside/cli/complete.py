"""``wetside complete``: completion for bash, zsh and fish, made from the parser itself so that it cannot go stale."""

from __future__ import annotations

import argparse
from typing import NamedTuple

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines
from wetside.cli.parser import build_parser


class CommandWords(NamedTuple):
    """A command with its one-line summary, options and fixed words."""

    name: str
    summary: str
    options: tuple[str, ...]
    words: tuple[str, ...]


def command_words() -> tuple[CommandWords, ...]:
    """All commands as the parser declares them."""
    parser = build_parser()
    (commands,) = (action for action in parser._actions if isinstance(action, argparse._SubParsersAction))
    summaries = {choice.dest: choice.help or "" for choice in commands._choices_actions}
    found = []
    for name, sub in commands.choices.items():
        options = tuple(
            option for action in sub._actions for option in action.option_strings if option.startswith("--")
        )
        words = tuple(
            str(choice) for action in sub._actions for choice in action.choices or () if not action.option_strings
        )
        found.append(CommandWords(name, summaries.get(name, ""), options, words))
    return tuple(found)


def run(arguments: argparse.Namespace) -> int:
    """Print the script for a shell."""
    commands = command_words()
    scripts = {"bash": _bash, "zsh": _zsh, "fish": _fish}
    lines = scripts[arguments.shell](commands)
    if arguments.json:
        print_json({"shell": arguments.shell, "script": "\n".join(lines) + "\n"})
    else:
        print_lines(lines)
    return ExitCode.OK


def _bash(commands: tuple[CommandWords, ...]) -> list[str]:
    lines = [
        "_wetside() {",
        '  local here="${COMP_WORDS[COMP_CWORD]}" command="${COMP_WORDS[1]}" words',
        '  case "$command" in',
    ]
    lines.extend(
        f'    {command.name}) words="{" ".join((*command.options, *command.words))}" ;;' for command in commands
    )
    lines += [
        "  esac",
        '  if [ "$COMP_CWORD" -eq 1 ]; then',
        f'    words="{" ".join(command.name for command in commands)} --version --help"',
        "  fi",
        '  COMPREPLY=($(compgen -W "$words" -- "$here") $(compgen -f -- "$here"))',
        "}",
        "complete -o filenames -F _wetside wetside",
    ]
    return lines


def _zsh(commands: tuple[CommandWords, ...]) -> list[str]:
    lines = ["#compdef wetside", "_wetside() {", "  if (( CURRENT == 2 )); then", "    local -a commands=("]
    lines.extend(f"      '{command.name}:{command.summary.replace(chr(39), '')}'" for command in commands)
    lines += ["    )", "    _describe command commands", "    return", "  fi", "  case $words[2] in"]
    lines.extend(
        f"    {command.name}) compadd -- {' '.join((*command.options, *command.words))}; _files ;;"
        for command in commands
    )
    return [*lines, "  esac", "}", "compdef _wetside wetside"]


def _fish(commands: tuple[CommandWords, ...]) -> list[str]:
    lines = []
    for command in commands:
        summary = command.summary.replace("'", "")
        lines.append(f"complete -c wetside -n __fish_use_subcommand -a {command.name} -d '{summary}'")
        lines.extend(
            f"complete -c wetside -n '__fish_seen_subcommand_from {command.name}' -l {option[2:]}"
            for option in command.options
        )
        if command.words:
            lines.append(
                f"complete -c wetside -n '__fish_seen_subcommand_from {command.name}' -a '{' '.join(command.words)}'"
            )
    return lines
