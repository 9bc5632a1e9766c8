"""The collector of cycles is held off while much is made, and afterwards is as it was."""

import gc

import pytest

from drafting.undisturbed import undisturbed


@pytest.mark.parametrize("on", [True, False])
def test_the_collector_is_as_it_was(on):
    was = gc.isenabled()
    try:
        (gc.enable if on else gc.disable)()
        with undisturbed():
            assert not gc.isenabled()
        assert gc.isenabled() is on
        with pytest.raises(ZeroDivisionError), undisturbed():
            raise ZeroDivisionError
        assert gc.isenabled() is on
    finally:
        (gc.enable if was else gc.disable)()
