import { useId } from 'react'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type CutBox, type CutLayout, nodesOf } from '#lib/cloth/cut-plan'
import { cutSteps, listOffcuts, listWantedParts } from '#lib/cloth/cut-steps'
import { drawCut, roomForPiece, type WantedPart } from '#lib/printing/cut-drawing'
import type { Mark, Measure } from '#lib/printing/mark'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { cutDrawingSentence, cutDrawingWords, umPerRulerUnit } from '#words/cut-drawing'
import { type CutNames, partTitle } from '#words/cut-steps'
import s from './cut-drawing.module.css'

type CutDrawingProps = {
  layout: CutLayout
  /** "L-12", for the sentence and the head of the list. */
  pieceName: string
  /** One set of letters for all drawings of a plan. */
  names: CutNames
  unit: LengthUnit
  /** Where the stitches come within a part, from its lower left corner. */
  stitchedIn?: (part: WantedPart) => CutBox | null
}

/** In pixels at the drawing's own size, which fits a phone; on a desk it is drawn somewhat larger. */
const em = 12
const room = { width: 358, height: 470 }
const largest = 1.25

/** Letters of the face used are half as wide as they are high on the whole, bold ones a little wider. */
const measure: Measure = ({ text, size, isBold }) => text.length * size * (isBold ? 0.54 : 0.51)

/** A piece as it is cut, to scale, its cuts numbered as `cutSteps` numbers them; beside it what each letter and number stands for. */
export function CutDrawing({ layout, pieceName, names, unit, stitchedIn }: CutDrawingProps) {
  const titleId = useId()
  const inside = roomForPiece(room, em)
  const perUm = Math.min(inside.width / layout.root.widthUm, inside.height / layout.root.heightUm)
  const words = cutDrawingWords(layout, names, unit)
  const steps = cutSteps(layout)
  const drawing = drawCut({ layout, steps, words, umPerRulerUnit: umPerRulerUnit[unit], stitchedIn, perUm, em, measure })
  const [width, height] = [Math.max(drawing.width, 220), drawing.height].map(Math.ceil) as [number, number]
  return (
    <div className={s.figure}>
      <div className={s.beside}>
        <svg
          className={s.drawing}
          viewBox={`0 0 ${width} ${height}`}
          style={{ maxWidth: width * largest }}
          role="img"
          aria-labelledby={titleId}
        >
          <title id={titleId}>{cutDrawingSentence(layout, pieceName, names, unit)}</title>
          {drawing.marks.map((mark, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: drawn once, in a fixed order
            <Drawn key={at} mark={mark} />
          ))}
        </svg>
        <div>
          <CutKey layout={layout} names={names} unit={unit} />
        </div>
      </div>
    </div>
  )
}

/** What the letters, the offcuts and the two grounds of a drawing are. */
function CutKey({ layout, names, unit }: Pick<CutDrawingProps, 'layout' | 'names' | 'unit'>) {
  const parts = listWantedParts(layout)
  const offcuts = listOffcuts(layout)
  const kinds = new Set([...nodesOf(layout.root)].map(({ kind }) => kind))
  return (
    <ul className={s.key}>
      {parts.map((part) => (
        <li key={`${part.wishId} ${part.isTurned} ${part.widthUm} ${part.heightUm}`}>
          <b className={s.letter}>{names.letterOf(part.wishId)}</b>
          <span>
            <span className={s.name}>{partTitle(part, names, unit)}</span>{' '}
            <span className={s.size}>
              {formatClothSize(part, unit)}
              {part.isTurned && say(', turned')}
              {part.count > 1 && ` × ${part.count}`}
            </span>
          </span>
        </li>
      ))}
      {offcuts.map(({ number, ...size }) => (
        <li key={number}>
          <svg className={s.swatch} viewBox="0 0 20 16" width="20" height="16" aria-hidden="true">
            <path className={s.hair} d="M3.5 0v16M9.5 0v16M15.5 0v16M0 3.5h20M0 8.5h20M0 13.5h20" />
            <path className={s.edge} d="M.5.5h19v15H.5z" />
          </svg>
          <span>
            {sayParts('offcut {number}, {size}', { number, size: <span className={s.size}>{formatClothSize(size, unit)}</span> })}
          </span>
        </li>
      ))}
      {kinds.has('waste') && (
        <li>
          <svg className={s.swatch} viewBox="0 0 20 16" width="20" height="16" aria-hidden="true">
            <path className={s.edge} d="M0 4l4-4M0 10L10 0M0 16L16 0M6 16L20 2M12 16l8-8M18 16l2-2" />
          </svg>
          <span>{say('waste')}</span>
        </li>
      )}
      {kinds.has('cut') && (
        <li>
          <svg className={s.swatch} viewBox="0 0 20 16" width="20" height="16" aria-hidden="true">
            <path className={s.cut} d="M0 8h20" />
          </svg>
          <span>{say('a cut, with the number of its step')}</span>
        </li>
      )}
    </ul>
  )
}

const at = (value: number) => Math.round(value * 10) / 10

/** A mark in the inks of the screen. */
function Drawn({ mark }: { mark: Mark }) {
  switch (mark.kind) {
    case 'box':
      return (
        <rect
          x={at(mark.x)}
          y={at(mark.y)}
          width={at(mark.width)}
          height={at(mark.height)}
          fill={mark.fill ? `var(--${mark.fill})` : 'none'}
          {...strokeOf(mark.stroke)}
        />
      )
    case 'line':
      return <path d={`M${at(mark.x1)} ${at(mark.y1)}L${at(mark.x2)} ${at(mark.y2)}`} fill="none" {...strokeOf(mark.stroke)} />
    case 'lines':
      return (
        <path
          d={mark.lines.map(([x1, y1, x2, y2]) => `M${at(x1)} ${at(y1)}L${at(x2)} ${at(y2)}`).join('')}
          fill="none"
          {...strokeOf(mark.stroke)}
        />
      )
    case 'ring':
      return (
        <circle
          cx={at(mark.x)}
          cy={at(mark.y)}
          r={at(mark.radius)}
          fill={mark.fill ? `var(--${mark.fill})` : 'none'}
          {...strokeOf(mark.stroke)}
        />
      )
    case 'words':
      return (
        <text
          x={at(mark.x)}
          y={at(mark.y)}
          fontSize={at(mark.size)}
          fontWeight={mark.isBold ? 650 : undefined}
          textAnchor={mark.anchor}
          fill={`var(--${mark.ink ?? 'ink'})`}
          transform={mark.isStanding ? `rotate(-90 ${at(mark.x)} ${at(mark.y)})` : undefined}
        >
          {mark.text}
        </text>
      )
    case 'squares':
    case 'picture':
    case 'window':
      return null
  }
}

function strokeOf(stroke: Extract<Mark, { kind: 'line' }>['stroke'] | undefined) {
  if (!stroke) return {}
  return {
    stroke: `var(--${stroke.ink})`,
    strokeWidth: at(stroke.width),
    strokeDasharray: stroke.dashes?.map(at).join(' '),
  }
}
