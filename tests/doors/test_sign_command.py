"""`whatcarries sign`, and what `whatcarries recheck` says of a signature. The key is made here, for this run only."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from click.testing import Result

from beamcheck import check_text
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.record.signatures import NOT_LOOKED_AT, PROVES

from .jobs import PASSES

pytest.importorskip("pyhanko", reason='!!!! NO SIGNATURE IS TESTED: pip install "whatcarries[sign]"')

Run = Callable[..., Result]
WHO = "Invented Engineer"


class Key(NamedTuple):
    """A key file, its password, and the SHA-256 of its certificate."""

    raw: bytes
    password: str
    digest: str


def made_key(days_before: int = 1) -> Key:
    """A key with a certificate that nobody else vouches for, good for a year."""
    from cryptography import x509
    from cryptography.hazmat.primitives import hashes
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.hazmat.primitives.serialization import BestAvailableEncryption, Encoding, pkcs12

    key, since = ec.generate_private_key(ec.SECP256R1()), datetime.now(UTC) - timedelta(days=days_before)
    name = x509.Name([x509.NameAttribute(x509.NameOID.COMMON_NAME, WHO)])
    use = x509.KeyUsage(True, True, False, False, False, False, False, False, False)
    made = x509.CertificateBuilder(name, name, key.public_key(), 7, since, since + timedelta(days=365))
    certificate = made.add_extension(use, critical=True).sign(key, hashes.SHA256())
    raw = pkcs12.serialize_key_and_certificates(
        b"key", key, certificate, None, BestAvailableEncryption(b"s\xc3\xa9same")
    )
    return Key(raw, "sésame", sha256(certificate.public_bytes(Encoding.DER)).hexdigest())


@pytest.fixture(scope="module")
def key() -> Key:
    return made_key()


@pytest.fixture(scope="module")
def sheet() -> bytes:
    return sheet_pdf(check_text(PASSES, "job.toml"))


@pytest.fixture
def signed(sheet: bytes, key: Key, run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The sheet signed through the command, in the folder in which one stands."""
    monkeypatch.chdir(tmp_path)
    Path("a.pdf").write_bytes(sheet)
    Path("key.p12").write_bytes(key.raw)
    done = run("sign", "a.pdf", "--key", "key.p12", "--reason", "reviewed", typed=f"{key.password}\n")
    assert done.exit_code == 0, done.output
    assert done.stdout == f"Written: a-signed.pdf\n\n{PROVES}\n"
    return tmp_path / "a-signed.pdf"


def test_what_was_signed_stays_byte_for_byte_and_holds(signed: Path, sheet: bytes, key: Key, run: Run) -> None:
    assert signed.read_bytes().startswith(sheet)
    done = run("recheck", str(signed))
    words = " ".join(done.stdout.split())
    assert done.exit_code == 0, words
    assert f"Signature 1 of 1: by Common Name: {WHO}, whose certificate nobody else vouches for" in words
    assert f'with the words "reviewed", SHA-256 of the certificate {key.digest}' in words
    assert "Signature 1 holds, and covers the whole file." in words and PROVES in words


def test_a_signed_sheet_is_never_written_over(signed: Path, key: Key, run: Run) -> None:
    before = signed.read_bytes()
    done = run("sign", "a.pdf", "--key", "key.p12", typed=f"{key.password}\n")
    assert done.exit_code == 2 and "a-signed.pdf exists and is signed; give another name" in done.stderr
    done = run("sign", "a.pdf", "--key", "key.p12", "--out", "key.p12", typed=f"{key.password}\n")
    assert done.exit_code == 2 and "is the same file as the key" in done.stderr
    assert signed.read_bytes() == before and Path("key.p12").read_bytes() == key.raw


def changed(raw: bytes) -> bytes:
    place = raw.index(b"/CreationDate")
    return raw[:place] + b"/CreationDatf" + raw[place + 13 :]


def noted(raw: bytes) -> bytes:
    """Something added after the signature, as a program that writes notes does."""
    from io import BytesIO

    from pypdf import PdfReader, PdfWriter
    from pypdf.annotations import FreeText

    writer = PdfWriter(PdfReader(BytesIO(raw)), incremental=True)
    writer.add_annotation(0, FreeText(text="passes", rect=(50, 550, 200, 650)))
    made = BytesIO()
    writer.write(made)
    return made.getvalue()


def without_signature(raw: bytes) -> bytes:
    """Of the words of a signature nothing but the words."""
    place = raw.rfind(b"startxref")
    return raw + b"% /Sig /ByteRange [0 1 2 3]\n" + raw[place:]


@pytest.mark.parametrize(
    "what, told",
    [
        (changed, "signature 1 does not hold"),
        (noted, "something (FreeText) was laid over page 1"),
        (noted, "no signature covers the whole file: something was added after the last one"),
    ],
)
def test_what_was_changed_or_added_after_it(what: Callable[[bytes], bytes], told: str, signed: Path, run: Run) -> None:
    signed.write_bytes(what(signed.read_bytes()))
    done = run("recheck", str(signed))
    assert done.exit_code != 0 and told in " ".join(done.stdout.split()), done.stdout


def test_words_of_a_signature_are_none(sheet: bytes, run: Run, tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    path.write_bytes(without_signature(sheet))
    assert "the PDF speaks of a signature and has none" in " ".join(run("recheck", str(path)).stdout.split())


def test_another_key_is_another_certificate_and_one_run_out_is_told(sheet: bytes, key: Key) -> None:
    from beamcheck.sheet.record.signatures import signatures
    from beamcheck.sheet.sign import signed_pdf

    old = made_key(days_before=800)
    told, faults = signatures(signed_pdf(sheet, old.raw, old.password))
    assert not faults and old.digest != key.digest and old.digest in told[0]
    assert "when the certificate was not valid" in told[0]


@pytest.mark.parametrize(
    "args, password, told",
    [
        (["a.pdf", "--key", "key.p12", "--out", "b.pdf"], "wrong", "the key could not be opened: either the password"),
        (["a.pdf", "--key", "words.txt", "--out", "b.pdf"], "sésame", "the file is no key with its certificate"),
        (["a.pdf", "--key", "none.p12", "--out", "b.pdf"], "sésame", "none.p12 cannot be read: No such file"),
        (["a-signed.pdf", "--key", "key.p12", "--out", "b.pdf"], "sésame", "a-signed.pdf is signed: only a sheet that"),
        (["key.p12", "--key", "key.p12", "--out", "b.pdf"], "sésame", "is the same file as"),
    ],
)
def test_what_cannot_be_signed(args: list[str], password: str, told: str, signed: Path, run: Run) -> None:
    Path("words.txt").write_text("no key")
    done = run("sign", *args, typed=f"{password}\n")
    assert done.exit_code == 2 and told in " ".join(done.stderr.split()), done.stderr
    assert not Path("b.pdf").exists()


def test_a_signature_is_told_where_pyhanko_is_missing(signed: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    import sys

    missing: dict[str, Any] = dict.fromkeys(name for name in sys.modules if name.split(".")[0] == "pyhanko")
    for name in missing:
        monkeypatch.setitem(sys.modules, name, None)
    done = run("recheck", str(signed))
    assert done.exit_code == 0 and NOT_LOOKED_AT in " ".join(done.stdout.split())
    done = run("sign", "a.pdf", "--key", "key.p12", "--out", "b.pdf", typed="\n")
    assert done.exit_code == 2 and 'pip install "whatcarries[sign]"' in done.stderr
