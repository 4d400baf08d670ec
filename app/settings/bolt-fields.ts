import { say } from '#language/say'
import type { Bolt } from '#lib/cloth/yardage'

export type BoltFigures = Bolt & { leastOffcutUm: number; cutGapUm: number }

/** The figures of cloth off the bolt, with the least and the most that each can be, in micrometres. */
export const boltFields = () =>
  [
    { name: 'widthUm', label: say('Width of the bolt'), least: 100_000, most: 5_000_000, hint: say('Selvedges and all.') },
    { name: 'selvedgeUm', label: say('Selvedge, each side'), least: 0, most: 500_000, hint: undefined },
    { name: 'straighteningUm', label: say('Straightening takes'), least: 0, most: 500_000, hint: say('Of each length bought.') },
    {
      name: 'stepUm',
      label: say('Sold in steps of'),
      least: 1_000,
      most: 2_000_000,
      hint: say('4½ in, 11.43 cm, is an eighth of a yard.'),
    },
    {
      name: 'cutGapUm',
      label: say('Lost along a cut'),
      least: 0,
      most: 50_000,
      hint: say('Where edges are pinked or torn; 0 for shears.'),
    },
    {
      name: 'leastOffcutUm',
      label: say('Smallest offcut kept'),
      least: 0,
      most: 1_000_000,
      hint: say('Smaller either way is waste.'),
    },
  ] as const satisfies readonly {
    name: keyof BoltFigures
    label: string
    least: number
    most: number
    hint: string | undefined
  }[]
