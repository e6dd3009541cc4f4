"""A PDF sheet signed with the engineer's own key: added to the end of the file, which stays as it was byte for byte."""

from __future__ import annotations

from io import BytesIO
from typing import Any

from ..errors import BeamcheckError
from ..lettering import legible
from .record.pdf_mark import RESULT, unchanged
from .record.pdf_read import attachments, pdf_changed
from .record.signatures import quiet

FIELD = "Engineer"
MOST_KEY = 1_000_000  # bytes of a key file


def signed_pdf(raw: bytes, key: bytes, password: str, *, name: str = "the sheet", reason: str = "") -> bytes:
    """The sheet with a signature over all its bytes, digest and attachments with them.

    `raw`: a PDF sheet as this tool wrote it. `key`: a key with its certificate, PKCS#12 (`.p12`, `.pfx`). `password`:
    of the key. `name`: of the sheet, for errors. `reason`: words that are signed with it. Raises BeamcheckError if it
    is no sheet as it was written, the key cannot be opened, or the package pyhanko is missing.
    """
    if not unchanged(raw):
        why = pdf_changed(raw) if raw.startswith(b"%PDF-") else "is no PDF"
        raise BeamcheckError(f"{name} {why}: only a sheet that is as whatcarries wrote it is signed here")
    if RESULT not in attachments(raw, name):
        raise BeamcheckError(f"{name} carries no result, so that nobody could check it again: sign the calc sheet")
    try:
        from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
        from pyhanko.sign import signers
    except ImportError:
        raise BeamcheckError('to sign a sheet, install the package pyhanko (pip install "whatcarries[sign]")') from None
    quiet()
    meta = signers.PdfSignatureMetadata(field_name=FIELD, reason=reason or None, md_algorithm="sha256")
    signer = _signer(signers, key, password)
    try:
        made = signers.sign_pdf(IncrementalPdfFileWriter(BytesIO(raw)), meta, signer=signer).getvalue()
    except Exception as error:  # a key of a kind that nobody signs with makes it fall in many ways
        raise BeamcheckError(f"{name} could not be signed with this key: {legible(str(error))}") from None
    if not made.startswith(raw):
        raise BeamcheckError(f"{name} could not be signed without changing it")
    return bytes(made)


def _signer(signers: Any, key: bytes, password: str) -> Any:
    try:
        signer = signers.SimpleSigner.load_pkcs12_data(key, [], password.encode("utf-8"))
        if signer is None or signer.signing_cert is None or signer.signing_key is None:
            raise ValueError("it holds no key with its certificate")
    except Exception as error:  # no key file, another password, a kind of key that nobody knows
        raise BeamcheckError(
            "the key could not be opened: either the password is another, or the file is no key with its certificate "
            f"in one file (PKCS#12, .p12 or .pfx); {legible(str(error))}"
        ) from None
    return signer
