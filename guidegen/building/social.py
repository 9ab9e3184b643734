"""The pictures for sharing as files to publish: drawn from the developed covers, each once, by all cores."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor
from functools import partial

from guidegen.imaging.develop import Store, usable_cores
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
    return SocialPictures(lambda cover, colours: social_path(social_key(cover, colours)), palette)


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
            with ThreadPoolExecutor(usable_cores(), thread_name_prefix="social") as pool:
                for _ in pool.map(self._keep, lacking):
                    pass
            known = self._store.get(_key(path))
        return known if known is not None else self._draw(path)

    def _keep(self, path: str) -> None:
        # What is drawn ahead waits in the store, not in memory.
        self._draw(path)

    def _draw(self, path: str) -> bytes:
        social = self.pictures[path]
        drawn = compose(self._cover(social.cover) if social.cover else None, social.colours)
        self._store.put(_key(path), drawn)
        return drawn


def _key(path: str) -> str:
    return f"social-{path.rpartition('/')[2]}"
