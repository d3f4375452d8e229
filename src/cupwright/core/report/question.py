"""A question asked of several attributes: one heading, every answer first, then what each rests on."""

from collections.abc import Sequence
from dataclasses import replace

from cupwright.core.report.document import Block, Caveat, Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.put_together import put_together
from cupwright.core.report.wording import listed

Blocks = Sequence[Block]


def question(title: str, parts: Sequence[tuple[str, Blocks]]) -> tuple[Block, ...]:
    """One section from one section an attribute.

    Parameters
    ----------
    title : str
        The question; it takes the place of the sections' own headings.
    parts : sequence of (attribute, blocks)
        The same question for each attribute: a heading, a paragraph that answers, pictures, numbers, method.

    Returns
    -------
    tuple of Block
        The title once; of one attribute alone everything as it came. Of several: all answers, led by the
        attributes that share them; then the pictures and tables that go together as one; then those that
        stand alone under their attribute; what is said beside (method, caveats) once, at the end, led by the
        attributes it is said of if these are not all.
    """
    told = [(name, tuple(blocks)) for name, blocks in parts if blocks]
    if not told:
        return ()
    if len(told) == 1:
        return (Heading(title), *(block for block in told[0][1] if not _is_title(block)))
    answers = _answers(told)
    drawn = [(name, tuple(one for one in _without(blocks) if not _is_said(one))) for name, blocks in told]
    together, left = put_together(drawn)
    rests = [_rest(name, number, blocks) for number, (name, blocks) in enumerate(left, start=1)]
    return (
        Heading(title),
        *answers,
        *together,
        *(block for rest in rests for block in rest),
        *_said(told),
    )


def _answers(told: Sequence[tuple[str, Blocks]]) -> list[Paragraph]:
    """Every answer once, in the order in which it first came; the attributes that share it lead it."""
    whose: dict[str, list[str]] = {}
    for name, blocks in told:
        if answer := _answer(blocks):
            whose.setdefault(answer.text, []).append(name)
    return [Paragraph(text, listed(names)) for text, names in whose.items()]


def _said(told: Sequence[tuple[str, Blocks]]) -> list[Block]:
    """Every sentence after the answers once: of all attributes as it is, of some led by their names."""
    whose: dict[Paragraph | Caveat, list[str]] = {}
    for name, blocks in told:
        for block in dict.fromkeys(one for one in _without(blocks) if isinstance(one, Paragraph | Caveat)):
            whose.setdefault(block, []).append(name)
    # Whoever has an answer alone is not missed among "all".
    everybody = sum(bool(_without(blocks)) for _, blocks in told)
    return [
        block if len(names) == everybody else replace(block, text=f"{listed(names)}: {block.text}")
        for block, names in whose.items()
    ]


def _without(blocks: Blocks) -> Blocks:
    """A section without its title and its answer."""
    answer = _answer(blocks)
    return tuple(block for block in blocks if block is not answer and not _is_title(block))


def _answer(blocks: Blocks) -> Paragraph | None:
    return next((block for block in blocks if isinstance(block, Paragraph)), None)


def _rest(name: str, number: int, blocks: Blocks) -> tuple[Block, ...]:
    """Pictures and tables that stand alone; a sub-heading over nothing goes."""
    if not any(isinstance(block, Figure | TableBlock) for block in blocks):
        return ()
    return (Heading(name, 2), *(_named(block, number) for block in blocks))


def _is_said(block: Block) -> bool:
    return isinstance(block, Paragraph | Caveat)


def _is_title(block: Block) -> bool:
    return isinstance(block, Heading) and block.level == 1


def _named(block: Block, number: int) -> Block:
    """Names are addresses: what is drawn for each attribute has to have its own."""
    if isinstance(block, Figure | TableBlock) and block.name:
        return replace(block, name=f"{block.name}-{number}")
    return block
