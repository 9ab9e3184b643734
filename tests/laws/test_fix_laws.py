"""What `check --fix` writes leads to the paint that was meant, whatever was typed and whatever is in the palette."""

from __future__ import annotations

from pathlib import Path

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from support.misspelt_names import laid_out

from guidegen.base.known_words import is_word
from guidegen.base.slips import alike, numbers, slipped
from guidegen.base.suggest import all_near
from guidegen.commands.fixes import apply_fixes
from guidegen.reading.content.archive import read_archive
from guidegen.reading.yaml.quoting import in_quotes

_WORDS = st.sampled_from(
    [
        "Thistledown",
        "Oilskin",
        "Ochre",
        "Grüner",
        "Straße",
        "Fisherman's",
        "Wet",
        "Leather",
        "No.",
        "Reed",
        "Skin",
    ]
)
_NUMBERS = st.sampled_from(["", "", " 1", " 2", " 12", "/07", "-31", " II"])
_NAMES = st.builds(
    lambda words, number: " ".join(words) + number, st.lists(_WORDS, min_size=1, max_size=3), _NUMBERS
)


@st.composite
def misspelt(draw: st.DrawFn, name: str) -> str:
    """A name with a few edits anywhere in it."""
    for _ in range(draw(st.integers(0, 2))):
        at = draw(st.integers(0, len(name)))
        letter = draw(st.sampled_from("aehns y-'123 "))
        name = draw(
            st.sampled_from(
                [
                    name[:at] + letter + name[at:],
                    name[:at] + name[at + 1 :],
                    name[:at] + letter + name[at + 1 :],
                    name[:at] + name[at + 1 : at + 2] + name[at : at + 1] + name[at + 2 :],
                ]
            )
        )
    return " ".join(name.split())


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_what_led_to_a_paint_still_does_and_digits_stay(tmp_path: Path, data: st.DataObject):
    known = data.draw(st.lists(_NAMES, min_size=1, max_size=4, unique_by=lambda name: name.casefold()))
    typed = [data.draw(misspelt(data.draw(st.sampled_from(known)))) for _ in range(3)]
    assume(all(name and name not in {"none", "as before"} for name in typed))
    content = laid_out(tmp_path, "none", *known)
    steps = "".join(f"  - {{step: A, area: a, paint: {in_quotes(name)}, each: 1}}\n" for name in typed)
    (content / "guides" / "a.md").write_text(f"---\ntitle: A\nsteps:\n{steps}---\n", encoding="utf-8")
    before, _ = read_archive(content)
    apply_fixes(content)
    after, _ = read_archive(content)
    assert after.palette == before.palette
    now = [step.paint.parts[0].name.text for step in after.guides[0].steps if step.paint is not None]
    assert len(now) == len(typed)
    for old, new in zip(typed, now, strict=True):
        assert numbers(old) == numbers(new)
        if old != new:
            assert before.palette.find(old) is None
            assert after.palette.find(new) is not None
        else:
            assert after.palette.find(new) == before.palette.find(old)


@given(_NAMES, st.data())
def test_a_slip_is_one_word_that_is_no_word(name: str, data: st.DataObject):
    typed = data.draw(misspelt(name))
    word = slipped(typed, name)
    if word is not None:
        assert not is_word(word)
        assert len(word) >= 4
        assert typed in all_near(typed, [typed, name])
    if alike(typed, name):
        assert numbers(typed) == numbers(name)
