"""The chips of paints and blends, by the colours that they are predicted to have."""

from __future__ import annotations

from guidegen.computing.colour.blend import Blend, BlendPart
from guidegen.computing.colour.layers import ReliefColours, film_over
from guidegen.computing.colour.mixing import Mixer
from guidegen.model.paint import FILMS, Mix, Paint
from guidegen.rendering.theme.chips import CARD_GREY, CARD_WHITE, Chip, look_of


class Chips:
    """Chips of pots and blends, each computed once, when it is first asked for."""

    def __init__(self, mixer: Mixer) -> None:
        """For what the mixer predicts."""
        self._mixer = mixer
        self._known: dict[Blend, Chip] = {}
        # By the pot's id, which stays its own since the pot is kept beside.
        self._pots: dict[int, tuple[Paint | Mix, Chip]] = {}

    def of_pot(self, pot: Paint | Mix) -> Chip:
        """The chip of one pot."""
        known = self._pots.get(id(pot))
        if known is None:
            known = self._pots[id(pot)] = pot, self.of(Blend((BlendPart(pot, 1.0),)))
        return known[1]

    def of(self, blend: Blend) -> Chip:
        """The chip of what is on the brush."""
        chip = self._known.get(blend)
        if chip is None:
            chip = self._known[blend] = self._chip(blend)
        return chip

    def _chip(self, blend: Blend) -> Chip:
        found, kind = self._mixer.predict(blend), self._mixer.kind(blend)
        film = None
        if kind in FILMS and found.colour:
            strength = self._mixer.film_strength(blend)
            white, grey = (
                film_over(
                    ReliefColours.of_one(card), found.colour, strength=strength, technique=kind.value
                ).flats
                for card in (CARD_WHITE, CARD_GREY)
            )
            film = white or found.colour, grey or found.colour
        return Chip(look=look_of(kind), fill=found.colour, film=film, estimate=found.estimate)
