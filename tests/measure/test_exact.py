"""From text to a fraction; and that the interpreter is whole afterwards."""

import subprocess
import sys
from fractions import Fraction as Judge

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.measure.exact import fraction_of


@given(st.one_of(st.integers().map(str), st.decimals(allow_nan=False, allow_infinity=False).map(str),
                 st.fractions().map(str)))  # fmt: skip
def test_it_reads_what_the_standard_library_reads(text):
    assert fraction_of(text) == Judge(text)


@pytest.mark.parametrize("text", list("0123456789"))
def test_a_text_of_one_sign_harms_nothing(text):
    assert fraction_of(text) == int(text)
    assert bytes([0]) + b"0" == bytes.fromhex("0030")


@pytest.mark.parametrize("text", ["", " ", "x", "1/", "1 1/2", "٣/", "--3"])
def test_what_is_no_number_is_refused(text):
    with pytest.raises(ValueError):
        fraction_of(text)


def test_the_type_check_finds_every_other_way_from_text(tmp_path):
    other = tmp_path / "other.py"
    other.write_text('from quicktions import Fraction\n\nFraction("3")\n')
    found = subprocess.run(
        [sys.executable, "-m", "mypy", "--config-file", "pyproject.toml", str(other)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert found.returncode == 1 and 'matches argument type "str"' in found.stdout
