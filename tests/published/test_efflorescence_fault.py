"""Efflorescence in stucco, a plaster maker's article citing T. Ritchie of the National Research Council Canada."""

from tests.published import checked
from tests.published.asking import first_cause


@checked("copied figure", "Efflorescence in stucco, a plaster maker, citing T. Ritchie, NRC Canada")
def test_salts_that_water_dissolves():
    rule, english, spanish = first_cause("fault.white-powder")
    assert rule.standing == "second-hand"  # the article reports Ritchie
    assert "salts that water dissolves" in rule.written
    assert "salts" in english
    assert "sales" in spanish
