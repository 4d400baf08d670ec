const id = '[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}'
const nameShape = new RegExp(`^(${id})(?:-thumb)?\\.webp$|^(${id})-thumb\\.avif$`)
const photoShape = new RegExp(`^${id}\\.webp$`)

/** Whether a name is one that photos and their small ones are given here: never a path. */
export const isPhotoFile = (name: string): boolean => nameShape.test(name)

/** Whether a name is that of a photo itself, in its full size. */
export const isPhotoName = (name: string): boolean => photoShape.test(name)

/** The name of the small one that is kept beside a photo. */
export const thumbName = (photo: string): string => photo.replace(/\.webp$/, '-thumb.webp')

/** The name of the small one as AVIF, for browsers that take it. It can be left out anywhere: it is drawn anew when asked for. */
export const avifThumbName = (photo: string): string => photo.replace(/\.webp$/, '-thumb.avif')

/** The photo a file belongs to, whichever of its sizes that is. */
export const photoOfFile = (name: string): string => name.replace(/-thumb\.(?:webp|avif)$/, '.webp')
