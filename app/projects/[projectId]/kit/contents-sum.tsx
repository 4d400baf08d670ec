import { numberText } from '#language/figures'
import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import type { Kit } from '#lib/db/kit/read-kit'
import type { ReckonedLine } from '#lib/project/kit/reckoning'
import type { Settings } from '#lib/settings/settings'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { KitSum } from '../../../_things/kit-sum'

type ContentsSumProps = { row: ReckonedLine; kit: Kit; settings: Settings }

/** How many kits there is enough of one line for, and what is to be bought of it, written out. */
export function ContentsSum({ row, kit, settings }: ContentsSumProps) {
  const { copies, spares, soldSpares } = kit.reckoning
  switch (row.kind) {
    case 'thread': {
      const thread = kit.threads.get(row.threadId)
      if (!thread) return null
      const { line, lots } = thread
      const marked = line.lotsMatter ? lots.find(({ lot, kits }) => lot !== null && kits > 0) : undefined
      return (
        <KitSum
          thread={{
            ...row,
            ...{ line, lots, kits: (row.kits ?? 0) - row.cut, toBuyPutUps: row.toBuy?.kind === 'thread' ? row.toBuy.putUps : 0 },
            lotToMatch: marked ? { lot: marked.lot as string, kits: marked.kits } : null,
          }}
          wanted={copies}
          unit={settings.threadUnit}
          batch={{ alreadyCut: row.cut }}
        />
      )
    }
    case 'cloth': {
      const { cut, kept, free } = row
      return (
        <Slip
          there={[
            { label: say('Have their cut'), figure: numberText(cut) },
            { label: say('From what is kept for it'), figure: numberText(kept) },
            { label: say('From what is free'), figure: numberText(free) },
          ]}
          possible={cut + kept + free}
          wanted={[{ label: say('Kits and spares'), figure: numberText(copies) }]}
          copies={copies}
          lacking={row.toBuy?.kind === 'cloth' ? row.toBuy.pieces : 0}
          bought={
            row.toBuy?.kind === 'cloth' && row.toBuy.lengthUm !== null
              ? say('{length} off the bolt, in rows of cuts and the shop’s steps', {
                  length: formatClothLength(row.toBuy.lengthUm, settings.lengthUnit),
                })
              : undefined
          }
        />
      )
    }
    case 'chart': {
      const withoutOne = copies - row.wanted
      return (
        <Slip
          there={[
            { label: say('Charts there are'), figure: numberText(row.copies) },
            ...(row.copies >= row.wanted && withoutOne > 0
              ? [{ label: say('Spares not sold yet: they want none'), figure: `+ ${numberText(withoutOne)}` }]
              : []),
          ]}
          possible={row.kits ?? 0}
          wanted={[
            { label: say('Kits'), figure: numberText(copies - spares) },
            ...(soldSpares > 0 ? [{ label: say('Spares that are sold'), figure: `+ ${numberText(soldSpares)}` }] : []),
          ]}
          copies={copies}
          lacking={row.toBuy?.kind === 'chart' ? row.toBuy.copies : 0}
          have={row.copies}
        />
      )
    }
    case 'item': {
      const have = row.have ?? 0
      const packOf = kit.items.find(({ id }) => id === row.itemId)?.notion?.packOf ?? null
      const toBuy = row.toBuy?.kind === 'item' ? row.toBuy : null
      return (
        <Slip
          there={[
            { label: say('For these kits and free'), figure: numberText(have) },
            {
              label: say('In one kit'),
              how: say('rounded down'),
              figure: `÷ ${numberText(row.perKit)}`,
            },
          ]}
          possible={row.kits ?? 0}
          wanted={[
            {
              label: say('For all kits'),
              how: `${numberText(copies)} × ${numberText(row.perKit)}`,
              figure: numberText(row.wanted),
            },
          ]}
          copies={copies}
          lacking={toBuy?.count ?? 0}
          have={have}
          bought={
            toBuy?.packs != null && packOf !== null
              ? say('÷ {packOf} in a pack, rounded up: {packs, plural, one {# pack} other {# packs}}', {
                  packOf,
                  packs: toBuy.packs,
                })
              : undefined
          }
        />
      )
    }
  }
}

type SlipProps = {
  there: readonly SumRow[]
  /** Kits that gives; more may be than are wanted. */
  possible: number
  wanted: readonly SumRow[]
  copies: number
  lacking: number
  /** What is taken off what is wanted; left out, it is the kits that are possible. */
  have?: number
  bought?: string
}

function Slip({ there, possible, wanted, copies, lacking, have = possible, bought }: SlipProps) {
  return (
    <Sums>
      <Sum
        title={say('Kits from what there is')}
        rows={[
          ...there,
          {
            label: say('Kits'),
            how: possible > copies ? say('enough for {possible, number}, no more are wanted', { possible }) : undefined,
            figure: numberText(Math.min(possible, copies)),
            kind: 'end',
          },
        ]}
      />
      {lacking > 0 && (
        <Sum
          title={say('To buy')}
          rows={[
            ...wanted,
            { label: say('There is'), figure: `− ${numberText(have)}` },
            { label: say('Lacking'), figure: numberText(lacking), kind: 'end' },
          ]}
          note={bought}
        />
      )}
    </Sums>
  )
}
