"""What all guides of a palette are worked out with."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.computing.colour.closest import Matcher
from guidegen.computing.colour.mixing import Mixer
from guidegen.model.paint import Palette


@dataclass(frozen=True, slots=True, kw_only=True)
class PaletteTools:
    """The palette with what is costly to set up over it: made once a build, shared by all guides."""

    palette: Palette
    mixer: Mixer
    matcher: Matcher

    @classmethod
    def over(cls, palette: Palette) -> PaletteTools:
        """Set up mixing and matching over a palette."""
        return cls(palette=palette, mixer=Mixer(palette), matcher=Matcher(palette))
