"""A question asked of several attributes: one heading, every answer first, then what each rests on."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from cupwright.core.report.document import Block, Caveat, Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.put_together import put_together

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
        attribute; then the pictures and tables that go together as one; then what is left of each attribute
        under its own heading; what is said of all alike (method, caveats) once, at the end.
    """
    told = [(name, tuple(blocks)) for name, blocks in parts if blocks]
    if not told:
        return ()
    if len(told) == 1:
        return (Heading(title), *(block for block in told[0][1] if not _is_title(block)))
    answers = [Paragraph(answer.text, name) for name, blocks in told if (answer := _answer(blocks))]
    common = _common(blocks for _, blocks in told)
    left = [(name, _without(blocks, common)) for name, blocks in told]
    together, left = put_together(left)
    rests = [_rest(name, number, blocks) for number, (name, blocks) in enumerate(left, start=1)]
    return (Heading(title), *answers, *together, *(block for rest in rests for block in rest), *common)


def _without(blocks: Blocks, common: tuple[Block, ...]) -> Blocks:
    """What is left of a section without its title, its answer and what is said of all alike."""
    answer = _answer(blocks)
    return tuple(
        block
        for block in blocks
        if block is not answer
        and not (isinstance(block, Paragraph | Caveat) and block in common)
        and not _is_title(block)
    )


def _answer(blocks: Blocks) -> Paragraph | None:
    return next((block for block in blocks if isinstance(block, Paragraph)), None)


def _common(sections: Iterable[Blocks]) -> tuple[Block, ...]:
    """Words that two attributes at least have after their answers, in the order in which they come."""
    once: set[Block] = set()
    often: dict[Block, None] = {}
    for blocks in sections:
        answer = _answer(blocks)
        for block in dict.fromkeys(one for one in blocks if isinstance(one, Paragraph | Caveat)):
            if block != answer:
                often |= {block: None} if block in once else {}
                once.add(block)
    return tuple(often)


def _rest(name: str, number: int, blocks: Blocks) -> tuple[Block, ...]:
    kept = [_named(block, number) for block in blocks]
    return (Heading(name, 2), *kept) if kept else ()


def _is_title(block: Block) -> bool:
    return isinstance(block, Heading) and block.level == 1


def _named(block: Block, number: int) -> Block:
    """Names are addresses: what is drawn for each attribute has to have its own."""
    if isinstance(block, Figure | TableBlock) and block.name:
        return replace(block, name=f"{block.name}-{number}")
    return block
