import type { ReactNode } from 'react'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readLooks } from '#lib/db/photo/photo-looks'
import type { PhotoLook } from '#lib/photo/photo-look'
import { OutlineToScale } from '#trade/outline-to-scale'
import { Photo } from '#trade/photo'
import { Link } from '#ui/link'
import { hoursFigure } from '#words/hours'
import s from './finish.module.css'

export type Pictured = {
  id: string
  title: string
  quantity: number
  finishedOn: string | null
  stitches: number
  hoursTenths: number
  forWhom: string | null
  photoFile: string | null
  widthStitches: number | null
  heightStitches: number | null
  /** One more line: what it cost. */
  more?: ReactNode
}

/** Finished pieces as they look: a photo, or the outline all the others' scale gives them. */
export async function Gallery({
  pieces,
  label,
  longestStitches,
}: {
  pieces: readonly Pictured[]
  label: string
  longestStitches: number
}) {
  const looks = await readLooks(pieces.map(({ photoFile }) => photoFile))
  return (
    <ul className={s.gallery} aria-label={label}>
      {pieces.map((piece) => (
        <li key={piece.id} className={s.piece}>
          <span className={s.picture}>
            <Picture piece={piece} look={looks.get(piece.photoFile ?? '')} longestStitches={longestStitches} />
          </span>
          <div>
            <Link href={`/projects/${piece.id}`} className="title">
              {piece.title}
            </Link>
            {piece.quantity > 1 && ` × ${piece.quantity}`}
            <p>
              {piece.finishedOn && formatDate(piece.finishedOn)}
              {figures(piece) && (
                <>
                  <br />
                  {figures(piece)}
                </>
              )}
              {piece.forWhom && (
                <>
                  <br />
                  {sayParts('{forWhom} has it', { forWhom: piece.forWhom })}
                </>
              )}
              {piece.more && (
                <>
                  <br />
                  {piece.more}
                </>
              )}
            </p>
          </div>
        </li>
      ))}
    </ul>
  )
}

const figures = ({ stitches, hoursTenths }: Pictured): string =>
  [stitches > 0 && say('{stitches, number} stitches', { stitches }), hoursTenths > 0 && `${hoursFigure(hoursTenths)} h`]
    .filter(Boolean)
    .join(', ')

function Picture({
  piece: { photoFile, widthStitches, heightStitches },
  look,
  longestStitches,
}: {
  piece: Pictured
  look: PhotoLook | undefined
  longestStitches: number
}) {
  if (photoFile) return <Photo file={photoFile} look={look} alt="" room={{ widthPx: 480, heightPx: 184 }} />
  if (widthStitches === null || heightStitches === null) return <span className="quiet">{say('no picture yet')}</span>
  return (
    <OutlineToScale widthStitches={widthStitches} heightStitches={heightStitches} longestStitches={longestStitches} box={140} />
  )
}

/** The longest side of any of them: the scale they share. */
export const longestOf = (pieces: readonly Pick<Pictured, 'widthStitches' | 'heightStitches'>[]): number =>
  Math.max(1, ...pieces.flatMap(({ widthStitches, heightStitches }) => [widthStitches ?? 0, heightStitches ?? 0]))
