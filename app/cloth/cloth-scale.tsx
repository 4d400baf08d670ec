import { labToHex } from '#lib/colour/convert'
import type { ClothListed } from '#lib/db/cloth/queries'
import s from './cloth-scale.module.css'

/** Largest side of a rectangle in the list, in px. */
const largestPx = 56
const leastPx = 3

type ClothScaleProps = { piece: Pick<ClothListed, 'widthUm' | 'heightUm' | 'lab'>; longestUm: number }

/** A piece as a small rectangle; all of one list share one scale. The size stands in words beside it. */
export function ClothScale({ piece, longestUm }: ClothScaleProps) {
  const px = (um: number) => Math.max(leastPx, (um / longestUm) * largestPx)
  const [width, height] = [px(piece.widthUm), px(piece.heightUm)]
  return (
    <svg
      className={s.scale}
      viewBox={`0 0 ${largestPx + 2} ${height + 2}`}
      width={largestPx + 2}
      height={height + 2}
      aria-hidden="true"
    >
      <rect
        x="1"
        y="1"
        width={width}
        height={height}
        fill={piece.lab ? labToHex(piece.lab) : 'var(--paper)'}
        stroke="var(--ink)"
        strokeWidth="var(--pen-fine)"
      />
    </svg>
  )
}
