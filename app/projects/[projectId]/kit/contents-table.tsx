import { numberText } from '#language/figures'
import { formatClothLength, formatClothSize } from '#language/lengths'
import type { Kit } from '#lib/db/kit/read-kit'
import type { ReckonedLine } from '#lib/project/kit/reckoning'
import type { Settings } from '#lib/settings/settings'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { counted, threadLength } from '#words/amounts'
import { midSentence } from '#words/capital'
import { itemKindWords } from '#words/kit-item'
import { boltLength } from '#words/yardage'
import { ThreadCell } from '../../../_things/thread-cell'
import { chartStandingWords, clothStandingWords, type LineNames, numberWords, toBuyWords } from './kit-words'

type Row = ReckonedLine

/** Everything a kit takes: what goes into one, what all of them take, what there is, how many kits it gives, what to buy. */
export function ContentsTable({ kit, nameOf, settings }: { kit: Kit; nameOf: LineNames; settings: Settings }) {
  const { reckoning } = kit
  const { lines, makeable, copies } = reckoning
  const groups = [
    { key: 'thread', title: 'Thread', rows: lines.filter(({ kind }) => kind === 'thread') },
    { key: 'other', title: 'Cloth and chart', rows: lines.filter(({ kind }) => kind === 'cloth' || kind === 'chart') },
    { key: 'item', title: 'Other things', rows: lines.filter(({ kind }) => kind === 'item') },
  ].filter(({ rows }) => rows.length > 0)
  return (
    <Ledger
      caption={`What ${numberWords(reckoning)} take`}
      groups={groups}
      rowKey={({ key }) => key}
      columns={[
        { key: 'line', head: 'What', phone: 'lead', cell: (row) => <LineCell row={row} kit={kit} /> },
        { key: 'one', head: 'In one kit', isNumeric: true, phone: 'labelled', cell: (row) => oneWords(row, kit, settings) },
        { key: 'all', head: `For ${copies}`, isNumeric: true, phone: 'labelled', cell: (row) => allWords(row, kit, settings) },
        { key: 'there', head: 'There is', phone: 'labelled', cell: (row) => thereWords(row, kit, settings) },
        {
          key: 'kits',
          head: 'Kits possible',
          isNumeric: true,
          phone: 'side',
          cell: ({ kits }) =>
            kits === null ? (
              <span className="quiet">not counted</span>
            ) : kits === makeable && kits < copies ? (
              <b className="do">{counted(Math.min(kits, copies), 'kit')}</b>
            ) : (
              counted(Math.min(kits, copies), 'kit')
            ),
        },
        {
          key: 'buy',
          head: 'To buy',
          isNumeric: true,
          phone: 'labelled',
          cell: ({ key, toBuy }) => {
            const { lot, putUpWord } = nameOf(key)
            return toBuy ? (
              <b className="do">{toBuyWords(toBuy, lot, putUpWord, settings.lengthUnit)}</b>
            ) : (
              <span className="quiet">nothing</span>
            )
          },
        },
      ]}
    />
  )
}

function LineCell({ row, kit }: { row: Row; kit: Kit }) {
  switch (row.kind) {
    case 'thread': {
      const thread = kit.threads.get(row.threadId)
      return thread ? (
        <ThreadCell thread={thread.tag} note={thread.line.lotsMatter ? 'all of one lot' : null} />
      ) : (
        'A removed thread'
      )
    }
    case 'cloth':
      return (
        <>
          <b>Cloth</b>
          {kit.cloth?.like && (
            <>
              {' '}
              <span className="quiet">{[kit.cloth.like.name, kit.cloth.like.colourName].filter(Boolean).join(', ')}</span>
            </>
          )}
        </>
      )
    case 'chart':
      return (
        <>
          <b>Chart</b> <span className="quiet">{row.isFile ? 'a file' : 'bought, one to a kit'}</span>
        </>
      )
    case 'item': {
      const item = kit.items.find(({ id }) => id === row.itemId)
      if (!item) return null
      return (
        <>
          <b>{item.name}</b>{' '}
          <span className="quiet">
            {[midSentence(itemKindWords[item.kind]), item.notion?.size, item.note].filter(Boolean).join(', ')}
          </span>
        </>
      )
    }
  }
}

function oneWords(row: Row, kit: Kit, { threadUnit, lengthUnit }: Settings) {
  switch (row.kind) {
    case 'thread': {
      const strands = kit.threads.get(row.threadId)?.line.strands ?? 1
      return threadLength(row.perKitStrandTenths, strands, threadUnit)
    }
    case 'cloth':
      return kit.cloth?.cutSize ? formatClothSize(kit.cloth.cutSize, lengthUnit) : 'size not known'
    case 'chart':
      return '1'
    case 'item':
      return numberText(row.perKit)
  }
}

function allWords(row: Row, kit: Kit, { lengthUnit }: Settings) {
  switch (row.kind) {
    case 'thread':
      return counted(row.putUpsForAll, kit.threads.get(row.threadId)?.line.putUpWord ?? 'put-up')
    case 'cloth': {
      const best = row.boltForAll?.best
      return best
        ? `${formatClothLength(best.toBuyUm, lengthUnit)} (${boltLength(best.toBuyUm, lengthUnit)}), ${best.gives} cuts`
        : counted(row.wanted, 'cut')
    }
    case 'chart':
      return counted(row.wanted, 'copy')
    case 'item':
      return row.packsForAll === null ? numberText(row.wanted) : `${row.wanted}, ${counted(row.packsForAll, 'pack')}`
  }
}

function thereWords(row: Row, kit: Kit, { threadUnit }: Settings) {
  switch (row.kind) {
    case 'thread': {
      const thread = kit.threads.get(row.threadId)
      if (!thread) return null
      const free = thread.lots.reduce((sum, { freeStrandTenths }) => sum + freeStrandTenths, 0)
      const lot = thread.line.lotsMatter && row.lot !== null ? `, lot ${row.lot}` : ''
      const parts = [
        ...(row.cut > 0 ? [`${row.cut} cut`] : []),
        ...(free > 0 ? [`${threadLength(free, thread.line.strands, threadUnit)}${lot}`] : []),
      ]
      return parts.length === 0 ? 'none' : parts.join(', ')
    }
    case 'cloth':
      return kit.cloth ? clothStandingWords(kit.cloth) : 'the size of the design is not known'
    case 'chart':
      return chartStandingWords(kit.chart)
    case 'item': {
      const item = kit.items.find(({ id }) => id === row.itemId)
      if (!item?.have) return <span className="quiet">no stock is kept of it</span>
      const { taken, reserved, free } = item.have
      const parts = [
        ...(taken > 0 ? [`${taken} taken`] : []),
        ...(reserved > 0 ? [`${reserved} reserved`] : []),
        ...(free > 0 ? [`${free} free`] : []),
      ]
      const words = parts.length === 0 ? 'none' : parts.join(', ')
      return item.notion ? <Link href={`/notions/${item.notion.id}`}>{words}</Link> : words
    }
  }
}
