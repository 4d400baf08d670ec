import { say } from '#language/say'
import { labToHex } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import type { Dyeing } from '#lib/thread/thread'
import s from './cloth-lay.module.css'
import { type Dye, type Hex, Winding } from './winding'

/** A thread as it is laid: its recorded colour and how it is dyed. */
export type LaidThread = { lab: Lab | null; dyeing: Dyeing }

/** How far the tones of a dyed thread are drawn from its one recorded colour, in lightness. Chosen by eye. */
const toneStep = 9
/** Cloth whose colour nobody recorded is drawn as a plain light cream. */
export const unknownCloth: Lab = { L: 92, a: 0.5, b: 6 }

function wound({ lab, dyeing }: LaidThread): { hexes: Hex[]; dye: Dye } {
  if (lab === null) return { hexes: [], dye: 'solid' }
  const tones = dyeing === 'solid' ? [0] : [0, toneStep, -toneStep]
  const hexes = tones.map((tone) => labToHex({ ...lab, L: Math.min(100, Math.max(0, lab.L + tone)) }) as Hex)
  return { hexes, dye: dyeing === 'solid' ? 'solid' : 'overdyed' }
}

const gridPath = (width: number, height: number, step: number): string => {
  let path = ''
  for (let x = step; x < width; x += step) path += `M${x} 0v${height}`
  for (let y = step; y < height; y += step) path += `M0 ${y}h${width}`
  return path
}

function Ground({ width, height, lab }: { width: number; height: number; lab: Lab }) {
  return (
    <g style={{ forcedColorAdjust: 'none' }}>
      <path d={`M0 0h${width}v${height}H0z`} fill={labToHex(lab)} />
      <path d={gridPath(width, height, 6)} stroke={lab.L > 50 ? '#000' : '#fff'} strokeOpacity=".07" fill="none" />
      <path d={`M.5.5h${width - 1}v${height - 1}H.5z`} stroke="var(--edge)" fill="none" />
    </g>
  )
}

type ClothLayProps = {
  cloth: Lab | null
  original: LaidThread
  /** Null: nothing is laid beside it. */
  swap: LaidThread | null
  /** Colours it has to keep clear of, the first three. */
  neighbours: readonly LaidThread[]
  label: string
}

/** Original above, swap below it, touching, on the cloth; beside them the colours that stand next to them in the chart. */
export function ClothLay({ cloth, original, swap, neighbours, label }: ClothLayProps) {
  return (
    <svg className={s.lay} viewBox="0 0 228 96" role="img" aria-label={label}>
      <Ground width={228} height={96} lab={cloth ?? unknownCloth} />
      <Winding x={15} y={12} width={114} height={36} {...wound(original)} />
      {swap && <Winding x={15} y={48} width={114} height={36} {...wound(swap)} />}
      {neighbours.slice(0, 3).map((neighbour, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: drawn once, in a fixed order
        <Winding key={at} x={144} y={12 + at * 25} width={69} height={22} {...wound(neighbour)} />
      ))}
    </svg>
  )
}

type PaletteProps = {
  cloth: Lab | null
  colours: readonly {
    key: string
    charted: LaidThread
    chosen: LaidThread
    /** Under it: the code it is worked in. */
    name: string
    isSwapped: boolean
  }[]
}

/** A whole palette on the cloth: as charted above, as chosen below; the changed ones are marked under their code. */
export function Palette({ cloth, colours }: PaletteProps) {
  return (
    <ul className={s.palette}>
      {colours.map(({ key, charted, chosen, name, isSwapped }) => (
        <li key={key} data-swapped={isSwapped || undefined}>
          <svg viewBox="0 0 48 76" width="48" height="76" aria-hidden="true">
            <Ground width={48} height={76} lab={cloth ?? unknownCloth} />
            <Winding x={6} y={8} width={36} height={27} {...wound(charted)} />
            <Winding x={6} y={41} width={36} height={27} {...wound(chosen)} />
          </svg>
          <span className={s.name}>{name}</span>
          {isSwapped && <span className="vh"> {say('in place of the charted one')}</span>}
        </li>
      ))}
    </ul>
  )
}
