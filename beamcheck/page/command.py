"""`whatcarries page`: the local page for phone and desk."""

from __future__ import annotations

import click

NEEDED = "the page needs more packages: pip install 'whatcarries[page]'"


@click.command("page", short_help="Open the local page for phone and desk.")
@click.argument("folder", default=".", type=click.Path(exists=True, file_okay=False))
@click.option("--port", default=0, type=click.IntRange(0, 65535), help="The port; left out: a free one.")
@click.option("--no-browser", is_flag=True, help="Say the address, open nothing.")
@click.option("--phone", is_flag=True, help="Let one phone of the local network in, by a QR code.")
@click.option("--phone-read-only", is_flag=True, help="The same, to look only.")
def page(folder: str, port: int, no_browser: bool, phone: bool, phone_read_only: bool) -> int:
    """Serve the page of FOLDER from this machine: its job files as forms, with the verdict as you type.

    Nobody else can open it: it answers on this machine only, with a key in the address that is good once. Nothing is
    fetched from or sent to the internet. Ctrl-C ends it, and so does half an hour in which nobody asks.
    """
    import gc
    from importlib.util import find_spec
    from pathlib import Path

    from ..console import say
    from ..errors import BeamcheckError

    gc.set_threshold(700, 10, 10)  # as Python has it: a server lives for hours, and what goes in circles has to go
    if any(find_spec(name) is None for name in ("starlette", "uvicorn", "segno", "tomlkit")):
        raise BeamcheckError(NEEDED)
    from .serve import Serving, invite, local_address, new_addresses

    network = local_address() if phone or phone_read_only else ""
    serving = Serving(Path(folder).resolve(), port, network, phone_read_only)
    serving.bind()
    address = invite(serving, say)
    say("Ctrl-C ends it.\n")
    new_addresses(serving, say)

    def open_it() -> None:
        import threading
        import webbrowser

        if not no_browser:
            threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()

    serving.run(open_it)
    say("The page is closed. What was written is in the folder.\n")
    return 0
