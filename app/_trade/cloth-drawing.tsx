import { type ReactNode, useId } from 'react'
import { say, sayings } from '#language/say'
import { listRulerMarks } from '#lib/printing/ruler-marks'
import s from './cloth-drawing.module.css'
import { type ClothCut, cutMark } from './cloth-drawing-marks'

/** Micrometres from the piece's upper left corner. */
export type ClothArea = { xUm: number; yUm: number; widthUm: number; heightUm: number }

type ClothDrawingProps = {
  /** What is drawn, in a sentence, for those who hear it. */
  sentence: string
  /** Labels come formatted: "12¾ in, weft". */
  piece: { widthUm: number; heightUm: number; widthLabel: string; heightLabel: string }
  /** What is cut out of it. */
  cut?: ClothArea & { widthLabel: string; heightLabel: string }
  /** The stitched area, and what stands in it. */
  finished?: ClothArea & { label: string; note?: string }
  /** Bare cloth around the stitched area, as words; drawn between it and the cut. */
  margins?: { top: string; right: string; bottom: string; left: string }
  /** Where the shears go, in order, each straight across or straight up. */
  cuts?: readonly ClothCut[]
  leftovers?: readonly (ClothArea & { label: string; note?: string })[]
  unit: 'in' | 'cm'
  /** Which way the warp runs; left out when not known. */
  warp?: 'up' | 'across'
}

const umPerUnit = { in: 25_400, cm: 10_000 }
const unitWords = sayings({ in: 'inches', cm: 'centimetres' })

/** The largest the piece itself is drawn, in px. */
const widest = 270
const highest = 350
const fontSize = 12
/** Measured on the face used, at 12 px: digits 6, letters 6 on the whole. */
const textWidth = (text: string, size = fontSize) => text.length * size * 0.51

/** A piece of cloth to scale: what is cut from it, what is stitched, what is left, where the shears go. */
export function ClothDrawing(props: ClothDrawingProps) {
  const { sentence, piece, cut, finished, margins, cuts = [], leftovers = [], unit, warp } = props
  const titleId = useId()
  const pxPerUm = Math.min(widest / piece.widthUm, highest / piece.heightUm)
  const marks = cuts.map((line) => cutMark(line, piece))
  const left = marks.some((mark) => mark.side === 'left') ? 66 : 44
  const top = marks.some((mark) => mark.side === 'top') ? 62 : 42
  const px = (um: number) => um * pxPerUm
  const width = px(piece.widthUm)
  const height = px(piece.heightUm)
  const right = left + width
  const foot = top + height
  const cutFoot = foot + (marks.some((mark) => mark.side === 'bottom') ? 42 : 22)
  const rulerTop = cut ? cutFoot + 20 : foot + (marks.some((mark) => mark.side === 'bottom') ? 42 : 18)
  const box = (area: ClothArea): Box => ({
    x: left + px(area.xUm),
    y: top + px(area.yUm),
    width: px(area.widthUm),
    height: px(area.heightUm),
  })
  const cutBox = cut && box(cut)
  const stitched = finished && box(finished)
  const viewWidth = Math.round(Math.max(right + (warp ? 104 : 84), left + textWidth(piece.widthLabel) + 20, left + 150))
  const viewHeight = Math.round(rulerTop + 26)

  return (
    <svg
      className={s.drawing}
      viewBox={`0 0 ${viewWidth} ${viewHeight}`}
      style={{ maxWidth: viewWidth * 1.15 }}
      role="img"
      aria-labelledby={titleId}
    >
      <title id={titleId}>{sentence}</title>
      <rect className={s.piece} x={left} y={top} width={width} height={height} />
      {leftovers.map((area) => (
        <Woven key={`${area.xUm} ${area.yUm}`} box={box(area)} />
      ))}
      <rect className={s.line} x={left} y={top} width={width} height={height} />
      {cutBox && <rect className={s.line} {...cutBox} />}
      {stitched && (
        <>
          <Woven box={stitched} />
          <rect className={s.line} {...stitched} />
        </>
      )}
      {cuts.map((line, index) => {
        const mark = marks[index] ?? { side: 'middle' as const }
        const x1 = left + px(line.x1Um) - (mark.side === 'left' ? 10 : 0)
        const x2 = left + px(line.x2Um) + (mark.side === 'right' ? 10 : 0)
        const y1 = top + px(line.y1Um) - (mark.side === 'top' ? 10 : 0)
        const y2 = top + px(line.y2Um) + (mark.side === 'bottom' ? 10 : 0)
        return <path key={`${x1} ${y1} ${x2} ${y2}`} className={s.cut} d={`M${at(x1)} ${at(y1)}L${at(x2)} ${at(y2)}`} />
      })}
      {stitched && cutBox && margins && (
        <>
          <Across x1={cutBox.x} x2={stitched.x} y={stitched.y + stitched.height * 0.5} label={margins.left} isWithin />
          <Across
            x1={stitched.x + stitched.width}
            x2={cutBox.x + cutBox.width}
            y={stitched.y + stitched.height * 0.5}
            label={margins.right}
            isWithin
          />
          <Upright y1={cutBox.y} y2={stitched.y} x={stitched.x + stitched.width * 0.5} label={margins.top} />
          <Upright
            y1={stitched.y + stitched.height}
            y2={cutBox.y + cutBox.height}
            x={stitched.x + stitched.width * 0.5}
            label={margins.bottom}
          />
        </>
      )}
      {stitched && finished && <AreaLabel box={stitched} label={finished.label} note={finished.note} />}
      {leftovers.map((area) => (
        <AreaLabel key={`${area.xUm} ${area.yUm}`} box={box(area)} label={area.label} note={area.note} />
      ))}
      <Across x1={left} x2={right} y={20} label={piece.widthLabel} />
      <Upright y1={top} y2={foot} x={18} label={piece.heightLabel} isTurned />
      {cut && cutBox && (
        <>
          <Across x1={cutBox.x} x2={cutBox.x + cutBox.width} y={cutFoot} label={cut.widthLabel} />
          <Upright y1={cutBox.y} y2={cutBox.y + cutBox.height} x={right + 48} label={cut.heightLabel} isTurned />
        </>
      )}
      {cuts.map((line, index) => {
        const mark = marks[index] ?? { side: 'middle' as const }
        const middleX = left + px((line.x1Um + line.x2Um) / 2)
        const middleY = top + px((line.y1Um + line.y2Um) / 2)
        const x = mark.side === 'left' ? left - 19 : mark.side === 'right' ? right + 19 : middleX
        const y = mark.side === 'top' ? top - 19 : mark.side === 'bottom' ? foot + 19 : middleY
        return (
          <g key={`${line.x1Um} ${line.y1Um} ${line.x2Um} ${line.y2Um}`}>
            <circle className={s.ring} cx={at(x)} cy={at(y)} r="9" />
            <text className={s.cutText} x={at(x)} y={at(y + 4)} textAnchor="middle">
              {index + 1}
            </text>
          </g>
        )
      })}
      {warp && <Warp x={right + 82} y={top} way={warp} />}
      <Ruler x={left} y={rulerTop} lengthUm={piece.widthUm} pxPerUm={pxPerUm} unit={unit} />
    </svg>
  )
}

type Box = { x: number; y: number; width: number; height: number }

const at = (value: number) => Math.round(value * 10) / 10

/** Bare or stitched cloth: a hairline weave, kept within its box. */
function Woven({ box }: { box: Box }) {
  let weave = ''
  for (let x = box.x + 3; x < box.x + box.width; x += 6) weave += `M${at(x)} ${at(box.y)}v${at(box.height)}`
  for (let y = box.y + 3; y < box.y + box.height; y += 6) weave += `M${at(box.x)} ${at(y)}h${at(box.width)}`
  return <path className={s.weave} d={weave} />
}

/** The largest size at which the words fit, or null when they cannot be read in there: the sentence beside the drawing has them. */
function fitText(texts: readonly string[], box: { width: number; height: number }): number | null {
  const size = [12, 11, 10].find(
    (candidate) =>
      texts.every((text) => textWidth(text, candidate) + 6 <= box.width) && texts.length * candidate * 1.4 <= box.height,
  )
  return size ?? null
}

function AreaLabel({ box, label, note }: { box: Box; label: string; note?: string }) {
  const lines = note ? [label, note] : [label]
  const lying = fitText(lines, box)
  const standing = lying === null ? fitText(lines, { width: box.height, height: box.width }) : null
  const size = lying ?? standing
  if (size === null) return null
  const paper = Math.max(...lines.map((line) => textWidth(line, size))) + 8
  const high = lines.length * size * 1.4
  const turn = standing === null ? '' : ' rotate(-90)'
  return (
    <g transform={`translate(${at(box.x + box.width / 2)} ${at(box.y + box.height / 2)})${turn}`}>
      <rect className={s.paper} x={at(-paper / 2)} y={at(-high / 2)} width={at(paper)} height={at(high)} />
      {lines.map((line, index) => (
        <text
          key={line}
          className={index === 0 ? s.strong : s.second}
          y={at((index - (lines.length - 1) / 2) * size * 1.35 + size * 0.34)}
          fontSize={size}
          textAnchor="middle"
        >
          {line}
        </text>
      ))}
    </g>
  )
}

type AcrossProps = { x1: number; x2: number; y: number; label: string; isWithin?: boolean }

/** A dimension line from left to right. Too short for its words, it carries them above; within the cloth it then goes without. */
function Across({ x1, x2, y, label, isWithin = false }: AcrossProps) {
  if (x2 - x1 < 1) return null
  const words = textWidth(label) + 8
  const isTight = x2 - x1 < words + (isWithin ? 2 : 8)
  const middle = (x1 + x2) / 2
  return (
    <g>
      <path className={s.dimension} d={`M${at(x1)} ${at(y - 4)}v8M${at(x2)} ${at(y - 4)}v8M${at(x1)} ${at(y)}H${at(x2)}`} />
      {!isTight && <rect className={s.paper} x={at(middle - words / 2)} y={at(y - 8)} width={at(words)} height="16" />}
      {!(isTight && isWithin) && (
        <text x={at(middle)} y={at(isTight ? y - 6 : y + 4)} textAnchor="middle">
          {label}
        </text>
      )}
    </g>
  )
}

/** A dimension line from top to bottom. Outside the cloth its words stand along it, `isTurned`; within, they lie level where there is room. */
function Upright({
  y1,
  y2,
  x,
  label,
  isTurned = false,
}: {
  y1: number
  y2: number
  x: number
  label: string
  isTurned?: boolean
}) {
  if (y2 - y1 < 1) return null
  const words = textWidth(label) + 8
  const middle = (y1 + y2) / 2
  const isTight = isTurned ? y2 - y1 < words + 8 : y2 - y1 < 22
  const line = (
    <path className={s.dimension} d={`M${at(x - 4)} ${at(y1)}h8M${at(x - 4)} ${at(y2)}h8M${at(x)} ${at(y1)}V${at(y2)}`} />
  )
  if (isTurned)
    return (
      <g>
        {line}
        <g transform={`translate(${at(isTight ? x - 6 : x)} ${at(middle)}) rotate(-90)`}>
          {!isTight && <rect className={s.paper} x={at(-words / 2)} y="-8" width={at(words)} height="16" />}
          <text y={isTight ? 0 : 4} textAnchor="middle">
            {label}
          </text>
        </g>
      </g>
    )
  return (
    <g>
      {line}
      {!isTight && <rect className={s.paper} x={at(x - words / 2)} y={at(middle - 8)} width={at(words)} height="16" />}
      {!isTight && (
        <text x={at(x)} y={at(middle + 4)} textAnchor="middle">
          {label}
        </text>
      )}
    </g>
  )
}

function Warp({ x, y, way }: { x: number; y: number; way: 'up' | 'across' }) {
  const arrow: ReactNode =
    way === 'up' ? (
      <path className={s.line} d={`M${at(x)} ${at(y + 44)}V${at(y)}m-5 9 5-9 5 9`} />
    ) : (
      <path className={s.line} d={`M${at(x - 20)} ${at(y + 44)}h40m-9-5 9 5-9 5`} />
    )
  return (
    <g>
      {arrow}
      <text className={s.second} x={at(x)} y={at(y + 60)} textAnchor="middle">
        {say('warp')}
      </text>
    </g>
  )
}

type RulerProps = { x: number; y: number; lengthUm: number; pxPerUm: number; unit: 'in' | 'cm' }

function Ruler({ x, y, lengthUm, pxPerUm, unit }: RulerProps) {
  const pxPerUnit = pxPerUm * umPerUnit[unit]
  const marks = listRulerMarks(lengthUm / umPerUnit[unit], pxPerUnit, fontSize)
  const last = marks.at(-1)?.value ?? 0
  return (
    <g>
      <path
        className={s.dimension}
        d={`M${at(x)} ${at(y)}H${at(x + last * pxPerUnit)}${marks.map((mark) => `M${at(x + mark.value * pxPerUnit)} ${at(y)}v${mark.isNumbered ? 8 : 4}`).join('')}`}
      />
      {marks
        .filter((mark) => mark.isNumbered)
        .map((mark) => (
          <text key={mark.value} className={s.second} x={at(x + mark.value * pxPerUnit)} y={at(y + 20)} textAnchor="middle">
            {mark.value}
          </text>
        ))}
      <text className={s.second} x={at(x + last * pxPerUnit + 12)} y={at(y + 5)}>
        {unitWords[unit]}
      </text>
    </g>
  )
}
