"""Protocols: those that come with the program, and users' own."""

from dataclasses import dataclass
from datetime import datetime

from cupwright.core.plan.protocol import Protocol
from cupwright.core.plan.protocol_file import builtin_names, builtin_protocol, builtin_text, parse_protocol
from cupwright.errors import Clash, NotFound, Refused
from cupwright.steps.ports import Form, Tools, Work

KIND = "protocol"


@dataclass(frozen=True, slots=True)
class ListedProtocol:
    """A protocol and its file; `kept` (UTC) is None for one that is not a user's own, or not yet."""

    protocol: Protocol
    text: str
    kept: datetime | None

    @property
    def own(self) -> bool:
        """Whether it is a user's own."""
        return self.kept is not None


def list_protocols(tools: Tools) -> tuple[ListedProtocol, ...]:
    """All there are: the program's, then users' own, each by name."""
    with tools.store.reading() as work:
        own = work.forms.all(KIND)
    builtin = [ListedProtocol(builtin_protocol(name), builtin_text(name), None) for name in builtin_names()]
    return (*builtin, *(_listed(form) for form in own))


def find_protocol(tools: Tools, name: str) -> ListedProtocol:
    """The protocol of that name. Raises NotFound, naming those there are."""
    listed = list_protocols(tools)
    for one in listed:
        if one.protocol.name == name:
            return one
    raise _not_found(name, [one.protocol.name for one in listed])


def protocol_of(work: Work, name: str) -> Protocol:
    """The same inside a transaction, its newest version."""
    if name in builtin_names():
        return builtin_protocol(name)
    form = work.forms.get(KIND, name)
    if form is None:
        raise _not_found(name, [*builtin_names(), *(one.name for one in work.forms.all(KIND))])
    return _listed(form).protocol


def read_protocol(text: str, file: str = "protocol") -> ListedProtocol:
    """A protocol read from its text and not kept. Raises BadProtocol with the line."""
    return ListedProtocol(parse_protocol(text, file=file), text, None)


def keep_protocol(tools: Tools, text: str, file: str = "protocol") -> Protocol:
    """Keep a protocol of one's own, or a new version of it.

    Raises BadProtocol with the line, or Clash for a name of the program's or a version that is there already.
    """
    protocol = parse_protocol(text, file=file)
    if protocol.name in builtin_names():
        raise Clash(
            f"The protocol '{protocol.name}' comes with the program.", todo="Give yours another name."
        )
    with tools.store.work() as work:
        work.forms.keep(KIND, protocol.name, protocol.version, text, tools.now())
    return protocol


def remove_protocol(tools: Tools, name: str) -> None:
    """Put one's own protocol out of sight; tables laid by it keep it. Raises NotFound, Refused."""
    if name in builtin_names():
        raise Refused(f"The protocol '{name}' comes with the program.", todo="Leave it; it does no harm.")
    with tools.store.work() as work:
        work.forms.remove(KIND, name, tools.now())


def _listed(form: Form) -> ListedProtocol:
    return ListedProtocol(parse_protocol(form.text, file=form.name), form.text, form.kept)


def _not_found(name: str, there: list[str]) -> NotFound:
    return NotFound(f"There is no protocol called '{name}'.", todo=f"Choose one of: {', '.join(there)}.")
