"""One server at a time on a data folder."""

import pytest

from cupwright.cli.alone import alone_in
from cupwright.errors import Clash, Refused


def test_a_second_one_is_refused_and_told_what_to_do(tmp_path):
    with alone_in(tmp_path), pytest.raises(Clash) as caught, alone_in(tmp_path):
        pass

    assert "--data" in caught.value.todo


def test_after_the_first_has_ended_the_next_may_begin(tmp_path):
    with alone_in(tmp_path):
        pass

    with alone_in(tmp_path):
        pass


def test_another_folder_is_free(tmp_path):
    with alone_in(tmp_path / "a"), alone_in(tmp_path / "b"):
        pass


def test_a_folder_that_cannot_be_made_is_refused_in_words(tmp_path):
    (tmp_path / "file").write_text("")

    with pytest.raises(Refused), alone_in(tmp_path / "file" / "data"):
        pass
