"""`cupwright serve` as somebody starts it: what it prints, who may come in, how it ends."""

import re
import socket

import pytest

PASSPHRASE = "slow water, fast spoon"


def state(server) -> str:
    with server.client() as client:
        return client.get("/api/health").json()["desk"]


def enter(server, word: str = "", passphrase: str = PASSPHRASE) -> int:
    with server.client() as client:
        return client.post("/api/desk/enter", json={"passphrase": passphrase, "word": word}).status_code


def test_it_prints_where_it_is_where_the_data_lie_and_how_to_stop(shared_server):
    assert re.search(rf"^Open +{shared_server.url}$", shared_server.log, re.MULTILINE)
    assert re.search(rf"^Data +{shared_server.data}$", shared_server.log, re.MULTILINE)
    assert re.search(r"^Stop +press Ctrl\+C$", shared_server.log, re.MULTILINE)
    assert state(shared_server) == "open"


def test_ctrl_c_ends_it_with_0_and_leaves_no_trace_of_a_fault(server):
    assert server.stop() == 0
    assert "Traceback" not in server.log


def test_on_a_network_a_one_time_word_sets_the_passphrase_and_the_next_start_asks_for_it(start_server):
    server = start_server("--lan")
    word = re.search(r"one-time word, and choose a passphrase:  (\w{4} \w{4})$", server.log, re.MULTILINE)[1]
    assert state(server) == "unset"

    assert enter(server, "wrong word") == 403
    assert enter(server, word) == 200
    server.stop()
    server.start()

    assert state(server) == "locked"
    assert "The desk asks for its passphrase." in server.log
    assert enter(server, word, "another passphrase") == 403
    assert enter(server) == 200


def test_on_a_network_the_desk_is_closed_to_whoever_has_not_entered(start_server):
    server = start_server("--lan", CUPWRIGHT_PASSPHRASE=PASSPHRASE)
    assert "one-time word" not in server.log

    with server.client() as client:
        assert client.get("/api/coffees").status_code == 401
        assert client.post("/api/desk/enter", json={"passphrase": PASSPHRASE}).status_code == 200
        assert client.get("/api/coffees").status_code == 200


def test_a_passphrase_in_a_file_takes_the_place_of_the_old_one(start_server, tmp_path):
    file = tmp_path / "passphrase"
    file.write_text("a newer passphrase\n")
    server = start_server("--lan", CUPWRIGHT_PASSPHRASE=PASSPHRASE)
    server.stop()
    server.environment.clear()
    server.arguments = ("--lan", "--passphrase-file", str(file))
    server.start()

    assert enter(server) == 403
    assert enter(server, passphrase="a newer passphrase") == 200


def test_the_demo_is_loaded_once(start_server):
    server = start_server("--demo")
    with server.client() as client:
        tables, coffees = client.get("/api/tables").json(), client.get("/api/coffees").json()
        assert {table["step"] for table in tables} == {"plan", "pour", "reveal"}
        assert len(coffees) >= 8

        server.stop()
        server.start()

        assert client.get("/api/tables").json() == tables


def test_a_short_passphrase_is_refused_before_anything_listens(cupwright):
    done = cupwright("serve", "--lan", "--port", "0", CUPWRIGHT_PASSPHRASE="short")

    assert done.returncode == 1
    assert done.stderr.startswith("The passphrase has 5 characters.")


@pytest.mark.parametrize("declared", ["3000000", "100000000000"])
def test_a_body_too_large_is_refused_before_it_is_sent(shared_server, declared):
    port, origin = shared_server.port, shared_server.url
    head = (
        f"POST /api/coffees HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nOrigin: {origin}\r\n"
        f"Content-Type: application/json\r\nContent-Length: {declared}\r\n\r\n"
    )

    with socket.create_connection(("127.0.0.1", port), timeout=10) as line:
        line.sendall(head.encode())
        answer = line.recv(100)

    assert answer.startswith(b"HTTP/1.1 413")
