"""Where the page is served: on this machine only, and a port that cannot be used is one sentence."""

from __future__ import annotations

import pytest

from notesgen.errors import InputError
from notesgen.review.port import listening


def test_any_free_port_on_this_machine_only() -> None:
    place = listening(0)
    address, port = place.getsockname()
    place.close()
    assert (address, port > 0) == ("127.0.0.1", True)


def test_a_busy_port() -> None:
    place = listening(0)
    port = place.getsockname()[1]
    with pytest.raises(InputError, match=f"port {port} is in use"):
        listening(port)
    place.close()
    listening(port).close()


@pytest.mark.parametrize("port", [-1, 65536, 10**9])
def test_no_port(port: int) -> None:
    with pytest.raises(InputError, match="from 0"):
        listening(port)
