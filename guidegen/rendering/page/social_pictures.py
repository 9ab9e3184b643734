"""The pictures shown where a page's address is shared: what each is drawn from, and where it lies in the site."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from guidegen.model.names import Photo
from guidegen.model.paint import Palette
from guidegen.rendering.page.pictures import Pictures, picture_file
from guidegen.words.language import Language

# What the Open Graph protocol is told of every such picture.
WIDTH, HEIGHT = 1200, 630


@dataclass(frozen=True, slots=True, kw_only=True)
class SocialPicture:
    """A picture for sharing. `cover` is the photo on it, by its path in content, None for none; `colours` are
    `#rrggbb`, in order; `path` is where it lies in the site.
    """

    path: str
    cover: str | None
    colours: tuple[str, ...]
    alt: str


class SocialPictures:
    """Says which pictures there are, without drawing them. `path_of` gives the path of one by its cover's file and colours."""

    def __init__(self, path_of: Callable[[str | None, tuple[str, ...]], str], palette: Palette) -> None:
        """For the paints of a palette."""
        self._path_of = path_of
        self._palette = palette
        self._of_site: SocialPicture | None = None

    def of_site(self, title: str, language: Language) -> SocialPicture:
        """The picture of pages that are not about one guide: every colour of the palette."""
        if self._of_site is None:
            colours = tuple(dict.fromkeys(paint.colour for paint in self._palette.paints if paint.colour))
            alt = language.t("share.palette", site=title)
            self._of_site = SocialPicture(
                path=self._path_of(None, colours), cover=None, colours=colours, alt=alt
            )
        return self._of_site

    def of_guide(
        self,
        title: str,
        cover: Photo | None,
        colours: tuple[str, ...],
        pictures: Pictures,
        language: Language,
    ) -> SocialPicture:
        """A guide's: its photo, if it has one that can be shown, beside the colours it is painted with."""
        file = picture_file(cover, pictures)
        if cover is None or file is None:
            alt = language.t("share.colours", title=title)
            return SocialPicture(path=self._path_of(None, colours), cover=None, colours=colours, alt=alt)
        alt = cover.alt or title
        if colours:
            alt = language.t("share.cover", photo=alt.rstrip("."), title=title)
        return SocialPicture(path=self._path_of(file, colours), cover=cover.path, colours=colours, alt=alt)
