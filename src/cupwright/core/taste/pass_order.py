"""The order of passes: as in the file, but each after the pass it names."""

from collections.abc import Sequence

from cupwright.core.taste.sheet import Pass
from cupwright.core.taste.sheet_reader import Source
from cupwright.errors import Refused


def in_order(passes: Sequence[Pass], source: Source) -> tuple[Pass, ...]:
    """The passes, each as early as the file has it but not before the one it follows.

    Raises
    ------
    BadSheet
        If a pass follows one that is not there, or passes follow each other in a loop.
    """
    spots = {one.id: (number, -1) for number, one in enumerate(passes)}
    for one in passes:
        if one.after and one.after not in spots:
            todo = f"Passes are: {', '.join(spots)}."
            message = f"The pass '{one.id}' comes after '{one.after}', which is not there."
            raise source.bad(message, todo, spots[one.id], "after")
    placed: dict[str, Pass] = {}
    left = list(passes)
    while left:
        ready = next((one for one in left if not one.after or one.after in placed), None)
        if ready is None:
            raise _loop(left, source, spots)
        left.remove(ready)
        placed[ready.id] = ready
    return tuple(placed.values())


def _loop(left: Sequence[Pass], source: Source, spots: dict[str, tuple[int, int]]) -> Refused:
    """The complaint with the names in the loop, from the first of them round to itself."""
    follows = {one.id: one.after for one in left}
    way = [left[0].id]
    while follows[way[-1]] not in way:
        way.append(follows[way[-1]])
    loop = way[way.index(follows[way[-1]]) :]
    said = " after ".join(f"'{name}'" for name in (*loop, loop[0]))
    return source.bad(f"The passes loop: {said}.", "Remove one 'after'.", spots[loop[0]], "after")
