"""The one box of the first page: what a plasterer types there, and what he is told."""

import pytest

from darby.tables.setting import Setting

SETTINGS = {language: Setting(language, "us") for language in ("en", "es")}


@pytest.fixture(scope="module")
def told(desk):
    """The title of what the box says, without a job's name in it."""
    from darby.desk.views.first import answer_to

    return lambda typed, language: answer_to(typed, SETTINGS[language])


@pytest.mark.parametrize(
    ("language", "typed", "title"),
    [
        ("en", "how many bags for 200 sq ft", "How many bags do I need?"),
        ("en", "200 sq ft", "How many bags do I need?"),
        ("en", "200 sqft 7/8 on lath", "How many bags do I need?"),
        ("en", "how long to keep it damp", "How long do I have to keep it wet?"),
        ("en", "when can I paint", "When can I paint?"),
        ("en", "do I need lath on block", "When does block need lath?"),
        ("en", "how much sand", "What is the mix?"),
        ("en", "mix for scratch coat", "What is the mix?"),
        ("en", "what mix for brown", "What is the mix?"),
        ("en", "hollow sound", "It sounds hollow"),
        ("en", "white stuff on the wall", "White powder on the wall"),
        ("en", "what if it rains tonight", "What if it rains on it?"),
        ("en", "freeze tonight", "Is it too cold to plaster?"),
        ("en", "hot day wind", "Is it too hot to plaster?"),
        ("en", "can I plaster over paint", "Can it go over paint?"),
        ("en", "lime or no lime", "Why lime?"),
        ("en", "price per square foot", "How much does it cost?"),
        ("en", "paper layers", "What is the black paper for?"),
        ("en", "asdfgh", "Nothing on that."),
        ("es", "cuántos sacos para 200 pies", "¿Cuántos sacos necesito?"),
        ("es", "cuánto tiempo se moja", "¿Cuánto tiempo hay que mantenerlo mojado?"),
        ("es", "si llueve hoy", "¿Y si le llueve?"),
        ("es", "hiela en la noche", "¿Hace mucho frío para repellar?"),
        ("es", "mezcla para zarpeo", "¿Cuál es la mezcla?"),
        ("es", "puedo repellar sobre pintura", "¿Se puede sobre pintura?"),
        ("es", "lleva malla el block", "¿Cuándo pide malla el block?"),
        ("es", "suena hueco", "Suena hueco"),
        ("es", "salitre", "Polvo blanco (salitre) en el muro"),
        ("es", "cuando puedo pintar", "¿Cuándo se puede pintar?"),
        ("es", "precio por metro", "¿Cuánto cuesta?"),
        ("es", "qwerty zxcv", "De eso no hay nada."),
    ],
)
def test_a_question_finds_its_answer(told, language, typed, title):
    assert told(typed, language).title == title


@pytest.mark.parametrize(
    ("typed", "begin"),
    [
        ("60' x 6' x 2, 1/2 block", "/new/garden_wall?garden_wall.0.length=60%27&garden_wall.0.height=6%27"),
        ("24' x 8', 7/8 frame", "/new/wall?wall.0.length=24%27&wall.0.height=8%27&wall.0.base=frame"),
        ("wall 24' x 8', block, facing south", "/new/lines?walls=wall+24%27+x+8%27%2C+block%2C+facing+south"),
        ("barda 60' x 6' x 8\"", "/new/lines?walls=barda+60%27+x+6%27+x+8%22"),
        ("chimney 4' x 3' x 6', nonsense", "/new/lines?walls=chimney+4%27+x+3%27+x+6%27%2C+nonsense"),
        ("new job", "/new"),
        ("obra nueva", ""),
    ],
)
def test_a_sum_and_a_wall_can_be_made_a_job(told, typed, begin):
    assert told(typed, "en").begin == begin


def test_what_is_wrong_in_a_wall_is_said(told):
    assert "nonsense" in told("chimney 4' x 3' x 6', nonsense", "en").title


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("60 x 6", "60' x 6', 1/2 block"),
        ("24x8 block", "24' x 8', 1/2 block"),
        ("12 x 8 x 2 lath", "12' x 8' x 2, 7/8 lath"),
    ],
)
def test_sizes_without_feet_are_asked_back_as_a_sum_that_is_read(told, typed, meant):
    found = told(typed, "en")
    assert found.nearest == (meant,)
    assert found.title.startswith("Cannot read")
    assert "sq ft" in told(meant, "en").title


@pytest.mark.parametrize("typed", ["3068", "3068 window", "puerta 3068"])
def test_four_figures_are_an_opening(told, typed):
    assert told(typed, "en").title == "3068 is an opening 3 ft wide and 6 ft 8 in. high."


def test_the_crew_is_not_led_to_a_new_job(desk, crew, owner):
    path = "/?q=60%27+x+6%27+x+2%2C+1%2F2+block"
    assert 'href="/new/garden_wall' in owner.get(path).text
    assert "/new/" not in crew.get(path).text
