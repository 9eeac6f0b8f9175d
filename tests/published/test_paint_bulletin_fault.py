"""When can I paint my stucco?, trade bulletin: what paint does on a wall that is too alkaline."""

from tests.published import checked
from tests.published.asking import first_cause


@checked("copied figure", "When can I paint my stucco?, trade bulletin, alkali burn")
def test_too_alkaline_when_it_was_painted():
    rule, english, spanish = first_cause("fault.paint-peels")
    assert "too alkaline" in rule.written
    assert "{ph}" in english  # the limit is a figure, not a number in the sentence
    assert "{ph}" in spanish
