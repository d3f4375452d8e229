"""What this machine is called on its network."""

import ipaddress
import socket

from cupwright.web.addresses import host_names, lan_addresses, reachable_at, web_address


def test_addresses_are_ones_that_others_could_reach():
    for address in lan_addresses():
        parsed = ipaddress.ip_address(address)
        assert not parsed.is_loopback
        assert not parsed.is_link_local


def test_nothing_is_sent_to_find_them(monkeypatch):
    def refuse(*_: object) -> None:
        raise AssertionError("something was sent")

    for way in ("send", "sendto", "sendall", "sendmsg"):
        monkeypatch.setattr(socket.socket, way, refuse, raising=False)

    lan_addresses()


def test_a_machine_on_no_network_has_none(monkeypatch):
    def away(*_: object, **__: object) -> None:
        raise OSError("network is unreachable")

    monkeypatch.setattr(socket, "socket", away)
    monkeypatch.setattr(socket, "getaddrinfo", away)

    assert lan_addresses() == ()


def test_only_addresses_that_the_server_listens_on_are_told():
    assert reachable_at("192.0.2.7") == ("192.0.2.7",)
    assert all(":" not in address for address in reachable_at("0.0.0.0"))
    assert reachable_at("::") == lan_addresses()


def test_names_are_plain_and_in_the_local_domain():
    names = host_names()

    assert {name for name in names if name.endswith(".local")}
    assert all(name == name.lower() for name in names)


def test_an_address_is_written_as_a_browser_takes_it():
    """RFC 3986, 3.2.2: an IPv6 address in a URL stands in brackets."""
    assert web_address("192.0.2.7", 8000) == "http://192.0.2.7:8000"
    assert web_address("2001:db8::7", 8000) == "http://[2001:db8::7]:8000"
