"""Protocols as files: from TOML to a `Protocol` and back to plain data; every complaint names its place.

The plain data kept in the store has the names of the file.
"""

import re
from collections.abc import Mapping
from dataclasses import asdict
from functools import cache
from importlib.resources import files
from typing import Any

from cupwright.core.plan import protocol_reader as sections
from cupwright.core.plan.protocol import Brewed, Protocol
from cupwright.core.plan.protocol_reader import Source
from cupwright.core.toml_reader import Reader
from cupwright.errors import NotFound

_NAME = re.compile(r"[a-z][a-z0-9-]{0,39}")

# section of the file -> field of the value, where they differ
_FIELDS = {"break": "crust", "vessel": "vessels", "stage": "stages", "also": "rules"}
_BANDS = {"water": "c", "rest": "h", "spoon": "ml"}
_SECTIONS = (
    *("ratio", "bowls", "vessel", "water", "rest", "spoon", "pace"),
    *("break", "skim", "taste", "stage", "session", "also"),
)
_TOP = ("name", "version", "title", "about", "brewed")


def parse_protocol(text: str, *, file: str = "protocol") -> Protocol:
    """The protocol a TOML text describes.

    Raises
    ------
    BadProtocol
        With file and line: if the text is no TOML, or does not describe a protocol.
    """
    source = Source(file, text)
    return _protocol(source.data(), source)


def protocol_from_data(data: Mapping[str, Any]) -> Protocol:
    """The protocol of plain data, as made by `protocol_as_data`; checked like a file. Raises BadProtocol."""
    return _protocol(data, Source())


def protocol_as_data(protocol: Protocol) -> dict[str, Any]:
    """A protocol as dicts, lists, texts and numbers; what it leaves out is not there."""
    value = asdict(protocol)
    data: dict[str, Any] = {key: str(value[key]) if key != "version" else value[key] for key in _TOP}
    for key in _SECTIONS:
        part = value[_FIELDS.get(key, key)]
        if isinstance(part, tuple):
            part = [_told(row, "") for row in part]
        elif part is not None:
            part = _told(part, _BANDS.get(key, ""))
        if part:
            data[key] = part
    return data


def _told(part: Mapping[str, Any], unit: str) -> dict[str, Any]:
    """What the section says; the ends of a band carry their unit in their names."""
    suffix = f"_{unit}" if unit else ""
    return {
        f"{key}{suffix}" if key in ("low", "high") else key: value
        for key, value in part.items()
        if value is not None and value != ""
    }


@cache
def builtin_names() -> tuple[str, ...]:
    """The names of the protocols that come with the program, sorted."""
    names = [entry.name for entry in (files(__package__) / "protocols").iterdir()]
    return tuple(sorted(name.removesuffix(".toml") for name in names if name.endswith(".toml")))


@cache
def builtin_protocol(name: str) -> Protocol:
    """The protocol of that name that comes with the program. Raises NotFound, naming those there are."""
    return parse_protocol(builtin_text(name), file=f"{name}.toml")


def builtin_text(name: str) -> str:
    """Its file, to be read or to begin one's own with. Raises NotFound."""
    if name not in builtin_names():
        todo = f"Choose one of: {', '.join(builtin_names())}."
        raise NotFound(f"There is no protocol called '{name}'.", todo=todo)
    return (files(__package__) / "protocols" / f"{name}.toml").read_text(encoding="utf-8")


def _protocol(data: Mapping[str, Any], source: Source) -> Protocol:
    top = Reader(data, source, "The protocol")
    top.only(*_TOP, *_SECTIONS)
    protocol = Protocol(
        name=_name(top),
        version=top.whole_from_1("version"),
        title=top.text("title"),
        about=top.text_or_none("about"),
        brewed=top.one_of("brewed", Brewed),
        ratio=sections.section(top, "ratio", sections.read_ratio),
        bowls=sections.section(top, "bowls", sections.read_bowls),
        vessels=sections.sections(top, "vessel", sections.read_vessel),
        water=sections.section(top, "water", sections.band_reader("c", 0, 100)),
        rest=sections.section(top, "rest", sections.band_reader("h", 0, 100_000)),
        spoon=sections.section(top, "spoon", sections.band_reader("ml", 0.1, 100)),
        pace=sections.needed_section(top, "pace", sections.read_pace),
        crust=sections.section(top, "break", sections.read_crust),
        skim=sections.section(top, "skim", sections.read_skim),
        taste=sections.needed_section(top, "taste", sections.read_taste),
        stages=sections.sections(top, "stage", sections.read_stage),
        session=sections.section(top, "session", sections.read_session),
        rules=sections.sections(top, "also", sections.read_rule),
    )
    _check_acts(protocol, source)
    return protocol


def _name(top: Reader) -> str:
    name = top.text("name")
    if not _NAME.fullmatch(name):
        todo = "Use small letters, digits and -, beginning with a letter, at most 40."
        raise top.bad(f"has the name '{name}'.", todo, "name")
    return name


def _check_acts(protocol: Protocol, source: Source) -> None:
    """Acts follow each other: pour, break, skim, taste. Coffee that comes brewed has no crust."""
    crust, skim, taste = protocol.crust, protocol.skim, protocol.taste
    if protocol.brewed is Brewed.APART and (crust or skim):
        part = "break" if crust else "skim"
        raise source.bad(
            f"Coffee that is brewed apart has nothing to {part}.",
            f'Take [{part}] away, or write brewed = "bowl".',
            (part, 0),
        )
    if crust and skim and skim.at_s < crust.at_s:
        raise source.bad("The skim is due before the break.", "Give it a later at_s.", ("skim", 0), "at_s")
    last = (skim and skim.at_s) or (crust and crust.at_s) or 0
    if taste.from_s < last:
        raise source.bad(
            "The first taste is due before break and skim.", "Give it a later from_s.", ("taste", 0), "from_s"
        )
