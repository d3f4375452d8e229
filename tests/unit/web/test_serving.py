"""Where the server listens."""

import pytest

from cupwright.errors import Clash, Refused
from cupwright.web.serving import bound_socket


def test_port_0_takes_any_free_one():
    with bound_socket("127.0.0.1", 0) as listener:
        assert listener.getsockname()[1] > 0


def test_a_taken_port_is_refused_and_another_is_named():
    with bound_socket("127.0.0.1", 0) as listener:
        port = listener.getsockname()[1]

        with pytest.raises(Clash) as caught:
            bound_socket("127.0.0.1", port)

    assert str(caught.value) == (
        f"Port {port} is taken by another program. Stop that one, or use --port {port + 1}."
    )


@pytest.mark.parametrize("host", ["192.0.2.1", "no such name", "2001:db8::1"])
def test_an_address_of_somebody_else_is_refused_in_words(host):
    """192.0.2.0/24 and 2001:db8::/32 belong to nobody (RFC 5737, RFC 3849)."""
    with pytest.raises(Refused) as caught:
        bound_socket(host, 0)

    assert str(caught.value).startswith(f"Cupwright cannot listen on {host} port 0: ")
