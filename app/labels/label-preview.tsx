import { useId } from 'react'
import type { Mark, Measure, PrintedPage } from '#lib/printing/mark'
import s from './labels.module.css'

/** Letters of the face used are half as wide as they are high on the whole, bold ones a little wider. */
export const measure: Measure = ({ text, size, isBold }) => text.length * size * (isBold ? 0.56 : 0.52)

/** A page as it will be printed, in the light whatever the theme: its codes are read off the screen too. */
export function LabelPreview({ page, sentence, widthRem }: { page: PrintedPage; sentence: string; widthRem: number }) {
  const titleId = useId()
  return (
    <svg
      className={s.page}
      viewBox={`0 0 ${at(page.widthMm)} ${at(page.heightMm)}`}
      style={{ maxWidth: `${widthRem}rem` }}
      role="img"
      aria-labelledby={titleId}
    >
      <title id={titleId}>{sentence}</title>
      {page.marks.map((mark, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: drawn once, in a fixed order
        <Drawn key={index} mark={mark} />
      ))}
    </svg>
  )
}

const at = (value: number) => Math.round(value * 100) / 100

function Drawn({ mark }: { mark: Mark }) {
  switch (mark.kind) {
    case 'box':
      return <rect className={s.edge} x={at(mark.x)} y={at(mark.y)} width={at(mark.width)} height={at(mark.height)} />
    case 'words':
      return (
        <text x={at(mark.x)} y={at(mark.y)} fontSize={at(mark.size)} fontWeight={mark.isBold ? 650 : undefined}>
          {mark.text}
        </text>
      )
    case 'squares':
      return <path d={pathOf(mark.runs)} transform={`translate(${at(mark.x)} ${at(mark.y)}) scale(${mark.sideMm.toFixed(4)})`} />
    default:
      return null
  }
}

function pathOf(runs: readonly number[]): string {
  let path = ''
  for (let run = 0; run < runs.length; run += 4) {
    path += `M${runs[run]} ${runs[run + 1]}h${runs[run + 2]}v${runs[run + 3]}h-${runs[run + 2]}z`
  }
  return path
}
