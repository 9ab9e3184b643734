"""The pictures for sharing as files to publish: drawn from the developed covers, each once, by all cores."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from contextlib import closing
from functools import partial

from guidegen.base.workers import Ask, in_workers
from guidegen.imaging.develop import Store
from guidegen.imaging.picture import Picture
from guidegen.imaging.social import compose, social_key, social_path
from guidegen.model.paint import Palette
from guidegen.rendering.guide.summary import Summary, social_of
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.social_pictures import SocialPicture, SocialPictures
from guidegen.writing.artifact import Artifact

# Gives the bytes of a photo's widest JPEG, by the photo's path in content.
Cover = Callable[[str], bytes]


def socials_over(palette: Palette) -> SocialPictures:
    """Names the pictures as they are drawn here."""
    return SocialPictures(_path_of, palette)


def _path_of(cover: str | None, colours: tuple[str, ...]) -> str:
    return social_path(social_key(cover, colours))


def cover_file(picture: Picture) -> str:
    """The store's key of the photo that is drawn into a picture."""
    return picture.file(picture.sizes[-1][0], "jpg")


def social_artifacts(
    guides: Iterable[Summary], context: SiteContext, store: Store, cover: Cover
) -> list[Artifact]:
    """Every picture that a page of the site names, none where the site's address is not known."""
    if context.socials is None:
        return []
    every = [context.socials.of_site(context.site.title, context.language)]
    every += [social for guide in guides if (social := social_of(guide, context)) is not None]
    album = _Album({social.path: social for social in every}, store, cover)
    return [Artifact(path=path, key=path, data=partial(album.picture, path)) for path in album.pictures]


class _Album:
    """Draws when the first picture is asked for: that and all others that the store lacks."""

    def __init__(self, pictures: Mapping[str, SocialPicture], store: Store, cover: Cover) -> None:
        self.pictures = pictures
        self._store, self._cover = store, cover
        self._drawn = False

    def picture(self, path: str) -> bytes:
        """The bytes of one of them."""
        known = self._store.get(_key(path))
        if known is None and not self._drawn:
            self._drawn = True
            lacking = [one for one in self.pictures if not self._store.has(_key(one))]
            with closing(in_workers(draw, map(self._made_of, lacking))) as drawn:
                # What is drawn ahead waits in the store, not in memory.
                for one, data in zip(lacking, drawn, strict=True):
                    self._store.put(_key(one), data)
            known = self._store.get(_key(path))
        return known if known is not None else compose(*self._made_of(path))

    def _made_of(self, path: str) -> tuple[bytes | None, tuple[str, ...]]:
        social = self.pictures[path]
        return self._cover(social.cover) if social.cover else None, social.colours


def draw(made_of: tuple[bytes | None, tuple[str, ...]], _ask: Ask) -> bytes:
    """Runs in a worker: a picture of a cover's bytes and of colours."""
    return compose(*made_of)


def _key(path: str) -> str:
    return f"social-{path.rpartition('/')[2]}"
