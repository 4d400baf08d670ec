import type { ReactNode } from 'react'
import { say } from '#language/say'
import type { GlossaryDrawing } from '#words/glossary'
import s from './glossary.module.css'

const [wide, high] = [112, 64]
const steps = (count: number, of: number) => Array.from({ length: count }, (_, at) => (at + 0.5) * (of / count))

/** Threads of cloth, crossing. */
const Weave = ({ across, down }: { across: number; down: number }) => (
  <g className={s.hair}>
    {steps(across, wide).map((x) => (
      <path key={`x${x}`} d={`M${x} 0V${high}`} />
    ))}
    {steps(down, high).map((y) => (
      <path key={`y${y}`} d={`M0 ${y}H${wide}`} />
    ))}
  </g>
)

const Cross = ({ x, y, side }: { x: number; y: number; side: number }) => (
  <path className={s.stitch} d={`M${x} ${y + side}L${x + side} ${y}M${x} ${y}L${x + side} ${y + side}`} />
)

const drawings: Record<GlossaryDrawing, ReactNode> = {
  'over-one': (
    <>
      <Weave across={14} down={8} />
      <Cross x={32} y={24} side={8} />
      <Cross x={40} y={24} side={8} />
      <Cross x={48} y={24} side={8} />
    </>
  ),
  'over-two': (
    <>
      <Weave across={14} down={8} />
      <Cross x={24} y={16} side={16} />
      <Cross x={40} y={16} side={16} />
      <Cross x={56} y={16} side={16} />
    </>
  ),
  count: (
    <>
      <Weave across={14} down={5} />
      <path className={s.line} d="M4 58H108M4 54v8M108 54v8" />
    </>
  ),
  warp: (
    <>
      <Weave across={10} down={5} />
      <path className={s.strong} d="M5 0V64" />
      <path className={s.line} d="M56 52V12m-4 5 4-5 4 5" />
    </>
  ),
  margin: (
    <>
      <path className={s.line} d="M6 3H106V61H6Z" />
      <path className={s.fill} d="M32 19H80V45H32Z" />
      <path className={s.line} d="M8 32H30M12 29l-4 3 4 3M26 29l4 3-4 3" />
    </>
  ),
  lot: (
    <>
      <path className={s.fill} d="M8 20H50V44H8Z" />
      <path className={s.other} d="M62 20H104V44H62Z" />
      <path className={s.line} d="M8 20H50V44H8ZM62 20H104V44H62Z" />
      <text x="29" y="58" textAnchor="middle">
        {say('lot 18')}
      </text>
      <text x="83" y="58" textAnchor="middle">
        {say('lot 22')}
      </text>
    </>
  ),
  'put-up': (
    <>
      <path className={s.fill} d="M8 10H104V22H8Z" />
      <path className={s.fill} d="M8 38H63V50H8Z" />
      <path className={s.line} d="M8 10H104V22H8ZM8 38H63V50H8Z" />
      <text x="8" y="33">
        8 m
      </text>
      <text x="8" y="61">
        {say('5 yd')}
      </text>
    </>
  ),
  part: (
    <>
      <path className={s.fill} d="M8 24H44V40H8Z" />
      <path className={s.line} d="M8 24H104V40H8Z" />
      <text x="8" y="56">
        {say('what is left')}
      </text>
    </>
  ),
  drawer: (
    <>
      <path className={s.line} d="M12 8H100V56H12Z" />
      <path className={s.line} d="M36 20H76V38H36ZM52 47H60" />
      <text x="56" y="33" textAnchor="middle">
        T2.1
      </text>
    </>
  ),
}

/** What a word means, drawn; the words beside it say the same. */
export const WordDrawing = ({ of }: { of: GlossaryDrawing }) => (
  <svg className={s.drawing} viewBox={`0 0 ${wide} ${high}`} width={wide} height={high} aria-hidden="true">
    {drawings[of]}
  </svg>
)
