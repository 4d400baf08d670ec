/** What is shown of a photo before it has arrived. */
export type PhotoLook = {
  /** Of the photo in its full size. */
  widthPx: number
  heightPx: number
  /** Itself at some twenty pixels, a WebP; one clear pixel where the photo can be seen through, for a blur would stay in sight behind it. */
  blurBase64: string
}

export const thumbSidePx = 480

/** How wide the small one of a photo is: its longer side is `thumbSidePx`, and none is made larger than its photo. */
export function thumbWidthPx({ widthPx, heightPx }: PhotoLook): number {
  const longest = Math.max(widthPx, heightPx)
  return longest <= thumbSidePx ? widthPx : Math.max(1, Math.round((widthPx * thumbSidePx) / longest))
}
