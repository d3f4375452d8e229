"""The seal against published examples and common tools."""

import hashlib
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from cupwright.core.reveal.seal import commitment, seal, sealed_text

DOC = Path(__file__).parents[2] / "docs" / "methods" / "seal.md"


@pytest.mark.parametrize(
    ("message", "digest"),
    [
        (b"abc", "ba7816bf 8f01cfea 414140de 5dae2223 b00361a3 96177a9c b410ff61 f20015ad"),
        (
            b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
            "248d6a61 d20638b8 e5c02693 0c3e6039 a33ce459 64ff2167 f6ecedd4 19db06c1",
        ),
    ],
)
def test_the_hash_gives_the_published_digests(message: bytes, digest: str):
    """NIST, examples of FIPS 180-4 for SHA-256, one and two blocks (values from memory)."""
    assert hashlib.sha256(message).hexdigest() == digest.replace(" ", "")


def test_texts_are_written_as_in_the_published_example_of_canonical_json():
    """RFC 8785, section 3.2.2, the member "string" of the sample object (value from memory)."""
    coffee = "\u20ac$\u000f\u000aA'\u0042\u0022\u005c\\\"/"

    text = sealed_text(seal({"274": coffee}, "0f" * 32))

    assert '"\u20ac$\\u000f\\nA\'B\\"\\\\\\\\\\"/"' in text
    assert bytes.fromhex("22 e2 82 ac 24 5c 75 30 30 30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22") in (
        text.encode()
    )


@pytest.mark.skipif(not shutil.which("sha256sum"), reason="this system has no sha256sum to check with")
def test_the_documented_command_gives_the_documented_commitment_and_so_do_we():
    """GNU coreutils sha256sum, by the command that docs/methods/seal.md tells readers to use."""
    said = DOC.read_text(encoding="utf-8")
    command = re.search(r"```sh\n(.+?)\n```", said, re.DOTALL)
    promised = re.search(r"```text\n([0-9a-f]{64})\n```", said)
    assert command
    assert promised

    ran = subprocess.run(["sh", "-c", command[1]], capture_output=True, text=True, check=True)

    assert ran.stdout.split()[0] == promised[1]
    nonce = re.search(r'"nonce":"([0-9a-f]{64})"', command[1])
    pairs = re.findall(r'\["(\d{3})","([0-9a-f-]+)"\]', command[1])
    assert nonce
    assert commitment(seal(dict(pairs), nonce[1])) == promised[1]
