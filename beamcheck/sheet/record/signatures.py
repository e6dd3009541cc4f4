"""The signatures in a PDF sheet: whose, whether they hold, and how much of the file they cover.

Looked at with pyhanko, offline. Nobody is trusted by name: whose key it is, the engineer has to say by another way.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from io import BytesIO
from typing import Any

from ...lettering import legible

MOST = 20  # signatures that are looked at
NOT_LOOKED_AT = (
    "The PDF bears a digital signature: whose it is, and whether it holds, is not looked at here, for the package "
    'pyhanko is missing (pip install "whatcarries[sign]").'
)
PROVES = (
    "What a signature proves: whoever holds the key to that certificate signed these very bytes. It does not prove "
    "whose key it is (compare the SHA-256 of the certificate with the one that the engineer gave you by another way), "
    "that the time is right, that the holder is a licensed engineer, or that the engineering is right."
)


def quiet() -> None:
    """What pyhanko writes of files and certificates is told in our own words."""
    for name in ("pyhanko", "pyhanko_certvalidator"):
        logging.getLogger(name).setLevel(logging.CRITICAL + 1)


def signatures(raw: bytes) -> tuple[list[str], list[str]]:
    """What is to be known of the signatures of a signed PDF, and what shows that it was changed since."""
    try:
        from pyhanko.pdf_utils.reader import PdfFileReader
    except ImportError:
        return [NOT_LOOKED_AT], []
    quiet()
    told: list[str] = []
    faults: list[str] = []
    whole = False
    try:
        found = list(PdfFileReader(BytesIO(raw)).embedded_signatures)
        for number, each in enumerate(found[:MOST], start=1):
            status = _status(each)
            covers = status.coverage.name == "ENTIRE_FILE"
            whole = whole or covers
            told.append(f"Signature {number} of {len(found)}: {', '.join(_about(each, status))}.")
            if _shows(each):
                told.append(f"Signature {number} shows on a page: see what it covers there.")
            if not (status.intact and status.valid):
                faults.append(f"signature {number} does not hold: what it signed was changed, or the key is another")
            elif covers:
                told.append(f"Signature {number} holds, and covers the whole file.")
            else:
                told.append(f"Signature {number} holds, and covers the file as it was then; more was added since.")
    except Exception as error:  # a broken file makes its reader fall in many ways
        return [], [f"the signature in the PDF cannot be read ({type(error).__name__}: {legible(str(error))[:200]})"]
    if not found:
        return [], ["the PDF speaks of a signature and has none: it was changed"]
    if len(found) > MOST:
        faults.append(f"the PDF bears {len(found)} signatures, of which {MOST} were looked at")
    if not whole:
        faults.append("no signature covers the whole file: something was added after the last one")
    return [*told, PROVES], faults


def _status(signature: Any) -> Any:
    from pyhanko.sign.validation import validate_pdf_signature
    from pyhanko_certvalidator import ValidationContext

    return validate_pdf_signature(signature, ValidationContext(trust_roots=[], allow_fetching=False))


def _shows(signature: Any) -> bool:
    left, low, right, high = (float(side) for side in signature.sig_field.get("/Rect") or (0, 0, 0, 0))
    return left != right and low != high


def _about(signature: Any, status: Any) -> Iterator[str]:
    certificate = status.signing_cert
    yield f"by {_name(certificate.subject)}"
    if certificate.subject == certificate.issuer:
        yield "whose certificate nobody else vouches for"
    else:
        yield f"whose certificate {_name(certificate.issuer)} is said to vouch for (not looked up)"
    when = status.signer_reported_dt
    yield f"at {when:%Y-%m-%d %H:%M %Z} by the signer's own clock" if when is not None else "without a time"
    if when is not None and not certificate.not_valid_before <= when <= certificate.not_valid_after:
        yield (
            f"when the certificate was not valid (it is from {certificate.not_valid_before:%Y-%m-%d} to "
            f"{certificate.not_valid_after:%Y-%m-%d})"
        )
    reason = signature.sig_object.get("/Reason")
    if reason:
        yield f'with the words "{legible(str(reason))[:200]}"'
    yield f"SHA-256 of the certificate {certificate.sha256.hex()}"


def _name(name: Any) -> str:
    return legible(str(name.human_friendly))[:200]
