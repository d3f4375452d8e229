"""What the desk hears."""

import asyncio
import threading

from cupwright.web.live import Hub


async def heard(listener, count):
    events = listener.events()
    return [await asyncio.wait_for(anext(events), 5) for _ in range(count)]


async def test_a_listener_hears_its_own_table_only():
    hub = Hub()
    with hub.listening("t1") as listener:
        hub.announce("t2", "notes")
        hub.announce("t1", "clock")

        assert await heard(listener, 1) == [("t1", "clock")]


async def test_a_listener_to_all_hears_all_in_order():
    hub = Hub()
    with hub.listening(None) as listener:
        hub.announce("t1", "clock")
        hub.announce("t2", "notes")

        assert await heard(listener, 2) == [("t1", "clock"), ("t2", "notes")]


async def test_the_same_news_many_times_in_a_moment_is_told_once():
    hub = Hub()
    with hub.listening("t1") as listener:
        for _ in range(1000):
            hub.announce("t1", "notes")
        hub.announce("t1", "reveal")

        assert await heard(listener, 2) == [("t1", "notes"), ("t1", "reveal")]


async def test_news_from_another_thread_is_heard():
    hub = Hub()
    with hub.listening("t1") as listener:
        thread = threading.Thread(target=hub.announce, args=("t1", "notes"))
        thread.start()
        thread.join()

        assert await heard(listener, 1) == [("t1", "notes")]


async def test_after_the_block_nobody_listens():
    hub = Hub()
    with hub.listening("t1") as listener:
        pass

    hub.announce("t1", "notes")
    await asyncio.sleep(0.01)

    assert listener._pending == {}


async def test_a_stream_that_is_ended_tells_what_it_knows_and_stops():
    hub = Hub()
    with hub.listening("t1") as listener:
        hub.announce("t1", "notes")
        hub.end()

        assert [event async for event in listener.events()] == [("t1", "notes")]


async def test_a_stream_that_waits_ends_too():
    hub = Hub()
    with hub.listening("t1") as listener:
        waiting = asyncio.ensure_future(anext(listener.events(), "ended"))
        await asyncio.sleep(0)
        hub.end()

        assert await asyncio.wait_for(waiting, 5) == "ended"
