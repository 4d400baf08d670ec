import { useId } from 'react'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { LaidBox } from '#lib/cloth/most-from'
import type { Bolt } from '#lib/cloth/yardage'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import s from './yardage.module.css'

type BoltDrawingProps = {
  sentence: string
  bolt: Bolt
  /** What is bought of it. */
  lengthUm: number
  boxes: readonly LaidBox[]
  unit: LengthUnit
}

/** The widest and longest a length is drawn, in px. */
const widest = 330
const longest = 460
const left = 8
const top = 34
const at = (value: number) => Math.round(value * 10) / 10
const textWidth = (text: string) => text.length * 6.2

/** A length off the bolt to scale, selvedges left and right, its end straightened at the head, and where each piece lies on it. */
export function BoltDrawing({ sentence, bolt, lengthUm, boxes, unit }: BoltDrawingProps) {
  const titleId = useId()
  const scale = Math.min(widest / bolt.widthUm, longest / lengthUm)
  const px = (um: number) => um * scale
  const [wide, high] = [px(bolt.widthUm), px(lengthUm)]
  const [selvedge, straightening] = [px(bolt.selvedgeUm), px(Math.min(lengthUm, bolt.straighteningUm))]
  const areSeveral = new Set(boxes.map(({ widthUm, heightUm }) => [widthUm, heightUm].sort().join(' '))).size > 1
  const widthLabel = say('{width} across the bolt', { width: formatClothLength(bolt.widthUm, unit) })
  const lengthLabel = say('{length} to buy', { length: formatClothLength(lengthUm, unit) })
  const viewWidth = Math.max(left + wide + 40, left + textWidth(widthLabel) + 10)
  const viewHeight = Math.max(top + high + 12, top + textWidth(lengthLabel))
  return (
    <svg
      className={s.drawing}
      viewBox={`0 0 ${at(viewWidth)} ${at(viewHeight)}`}
      style={{ maxWidth: viewWidth * 1.15 }}
      role="img"
      aria-labelledby={titleId}
    >
      <title id={titleId}>{sentence}</title>
      <text x={at(left + Math.max(wide / 2, textWidth(widthLabel) / 2))} y="13" textAnchor="middle">
        {widthLabel}
      </text>
      <path className={s.dimension} d={`M${left} 18v8M${at(left + wide)} 18v8M${left} 22h${at(wide)}`} />
      <rect className={s.cloth} x={left} y={top} width={at(wide)} height={at(high)} />
      <rect className={s.lost} x={left} y={top} width={at(selvedge)} height={at(high)} />
      <rect className={s.lost} x={at(left + wide - selvedge)} y={top} width={at(selvedge)} height={at(high)} />
      <rect className={s.lost} x={left} y={top} width={at(wide)} height={at(straightening)} />
      {boxes.map(({ xUm, yUm, widthUm, heightUm, isTurned }, index) => {
        const [x, y] = [left + selvedge + px(xUm), top + straightening + px(yUm)]
        const [w, h] = [px(widthUm), px(heightUm)]
        const words = wordsIn(formatClothSize({ widthUm, heightUm }, unit), w, h, areSeveral || index === 0)
        return (
          <g key={`${xUm} ${yUm}`}>
            <rect className={isTurned ? s.turned : s.box} x={at(x)} y={at(y)} width={at(w)} height={at(h)} />
            {(words !== null || (!areSeveral && w >= 18 && h >= 16)) && (
              <text className={words === null ? undefined : s.strong} x={at(x + w / 2)} y={at(y + h / 2 + 4)} textAnchor="middle">
                {words ?? index + 1}
              </text>
            )}
          </g>
        )
      })}
      <path
        className={s.dimension}
        d={`M${at(left + wide + 10)} ${top}h8M${at(left + wide + 10)} ${at(top + high)}h8M${at(left + wide + 14)} ${top}v${at(high)}`}
      />
      <text
        textAnchor="middle"
        transform={`translate(${at(left + wide + 30)} ${at(top + Math.max(high / 2, textWidth(lengthLabel) / 2))}) rotate(-90)`}
      >
        {lengthLabel}
      </text>
    </svg>
  )
}

/** A size as it fits into its box, without its unit where it must be; null where it is not wanted or cannot be read in there. */
function wordsIn(label: string, width: number, height: number, isWanted: boolean): string | null {
  if (!isWanted || height < 16) return null
  return [label, label.replace(/ (?:in|cm)$/, '')].find((words) => textWidth(words) + 4 <= width) ?? null
}
