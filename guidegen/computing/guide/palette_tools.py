"""What all guides of a palette are worked out with."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.computing.colour.closest import Matcher
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.stand_in import StandIns
from guidegen.model.paint import Palette


@dataclass(frozen=True, slots=True, kw_only=True)
class PaletteTools:
    """The palette with what is costly to set up over it: made once a build, shared by all guides.

    `stand_ins` are out of the pots on the shelf at home.
    """

    palette: Palette
    mixer: Mixer
    matcher: Matcher
    stand_ins: StandIns

    @classmethod
    def over(cls, palette: Palette) -> PaletteTools:
        """Set up mixing and matching over a palette."""
        mixer = Mixer(palette)
        return cls(palette=palette, mixer=mixer, matcher=Matcher(palette), stand_ins=StandIns(mixer))
