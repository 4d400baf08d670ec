import { type PhotoLook, thumbWidthPx } from '#lib/photo/photo-look'
import { thumbName } from '#lib/photo/photo-name'
import s from './photo.module.css'

type PhotoProps = {
  /** The photo's name among the files. */
  file: string
  /** How it looks before it has arrived; left out where nobody has looked at it yet. */
  look: PhotoLook | undefined
  alt: string
  /** The room it has: it stands whole inside it, or fills it. */
  room: { widthPx: number; heightPx: number }
  isCropped?: boolean
  /** How wide it is drawn, as the `sizes` of an image: given where the small one may be too coarse. */
  sizes?: string
  className?: string
  isLazy?: boolean
}

/**
 * A photo that was kept: its room is there before it is, with a blur of it in that room, and nothing on the page moves when it comes. The
 * small one is sent as AVIF to browsers that take it, under the same address.
 */
export function Photo({ file, look, alt, room, isCropped = false, sizes, className, isLazy = true }: PhotoProps) {
  const size = isCropped || !look ? room : inside(room, look)
  const thumb = `/photos/${thumbName(file)}`
  return (
    // biome-ignore lint/performance/noImgElement: kept photos come in two fixed sizes; nothing is to be optimised
    <img
      className={[s.photo, isCropped && s.cropped, className].filter(Boolean).join(' ')}
      src={thumb}
      {...(sizes && look && { srcSet: `${thumb} ${thumbWidthPx(look)}w, /photos/${file} ${look.widthPx}w`, sizes })}
      alt={alt}
      width={size.widthPx}
      height={size.heightPx}
      loading={isLazy ? 'lazy' : undefined}
      decoding="async"
      style={look ? { backgroundImage: `url(data:image/webp;base64,${look.blurBase64})` } : undefined}
    />
  )
}

/** A photo's own shape, as large as the room allows and no larger than it is. */
function inside(room: PhotoProps['room'], look: PhotoLook): PhotoProps['room'] {
  const share = Math.min(1, room.widthPx / look.widthPx, room.heightPx / look.heightPx)
  return { widthPx: Math.max(1, Math.round(look.widthPx * share)), heightPx: Math.max(1, Math.round(look.heightPx * share)) }
}
