"""29 CFR 1926.1153 Table 1 in a third-party transcription: what mask which tool asks for."""

import pytest

from darby.days import cautions
from darby.rulebook import default
from tests.published import checked

TABLE = "29 CFR 1926.1153 Table 1 (transcription)"


@checked("copied figure", f"{TABLE}: assigned protection factors, outside and inside, up to and past four hours")
@pytest.mark.parametrize(
    ("tool", "work", "says"),
    [("saw", "cut", "outside up to four hours no mask; outside longer, or inside, protection factor 10"),
     ("grinder", "grind", "no mask, but inside longer than four hours protection factor 10"),
     ("drill", "drill", "no mask")],
)  # fmt: skip
def test_each_tool_has_its_row(tool, work, says):
    figure = default().rule(f"safety.silica.{tool}").figure
    assert figure.written.endswith(says)
    assert figure.standing == "second-hand"
    assert any(figure.id in n.rules for n in cautions(works=[work]))
