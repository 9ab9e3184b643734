"""Photos in, upright sRGB pictures without metadata out, in the sizes and formats that pages offer.

How the parts fit: `develop` runs many photos through the rest, in worker processes, and `ahead` opens some before it is
known which are wanted. `kinds` tells by its content what a file is; `load` reads its header, holds it to `limits`, and
decodes it once, with `pixels` and `colour` for the steps on the way to 8-bit sRGB; `derive` shrinks and encodes, `dense`
into the one small file that a sent guide carries; `picture` is what the pages get to know, and how files are named by
content. `trouble` has every sentence an author may read. `social` composes the picture for shared links, and
`photo_time` reads when a photo was taken.

Nothing of an original's metadata can pass, since only pixels do: every derivative is encoded from a picture that
holds none. Bytes live in a store on disk (`develop.Store`), so memory does not grow with the number of photos.
"""
