"""Addresses: what this machine is called on the local network, found without sending anything."""

import ipaddress
import socket

# TEST-NET-1 and the IPv6 documentation block (RFC 5737, RFC 3849): connecting a datagram socket only
# asks the routing table which of our addresses would be used; no packet leaves.
_TOWARDS = ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1"))


def lan_addresses() -> tuple[str, ...]:
    """Addresses under which others on the network can reach this machine, IPv4 first; may be empty."""
    found = [address for family, target in _TOWARDS if (address := _outgoing(family, target))]
    found += _of_the_host_name()
    usable = [address for address in dict.fromkeys(found) if _is_reachable(address)]
    return tuple(sorted(usable, key=lambda address: ":" in address))


def reachable_at(host: str) -> tuple[str, ...]:
    """Addresses at which others reach a server that listens on `host`, which may stand for all."""
    if host == "0.0.0.0":
        return tuple(address for address in lan_addresses() if ":" not in address)
    return lan_addresses() if host == "::" else (host,)


def host_names() -> frozenset[str]:
    """Names others may use for this machine: its own name, plain and in the local domain."""
    name = socket.gethostname().partition(".")[0].lower()
    return frozenset({name, f"{name}.local"}) if name else frozenset()


def web_address(address: str, port: int) -> str:
    """As typed into a browser; an IPv6 address gets its brackets."""
    host = f"[{address}]" if ":" in address else address
    return f"http://{host}:{port}"


def _outgoing(family: socket.AddressFamily, target: str) -> str:
    try:
        with socket.socket(family, socket.SOCK_DGRAM) as probe:
            probe.connect((target, 9))
            return str(probe.getsockname()[0])
    except OSError:
        return ""


def _of_the_host_name() -> list[str]:
    try:
        entries = socket.getaddrinfo(socket.gethostname(), None, type=socket.SOCK_STREAM)
    except OSError:
        return []
    return [str(entry[4][0]) for entry in entries]


def _is_reachable(address: str) -> bool:
    parsed = ipaddress.ip_address(address.partition("%")[0])
    return not (parsed.is_loopback or parsed.is_unspecified or parsed.is_link_local)
