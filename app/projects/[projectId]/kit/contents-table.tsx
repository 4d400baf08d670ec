import { numberText } from '#language/figures'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { Kit } from '#lib/db/kit/read-kit'
import type { ReckonedLine } from '#lib/project/kit/reckoning'
import type { Settings } from '#lib/settings/settings'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { UnfoldButton } from '#ui/unfold'
import { counted, threadLength } from '#words/amounts'
import { midSentence } from '#words/capital'
import { itemKindWords } from '#words/kit-item'
import { boltLength } from '#words/yardage'
import { ThreadCell } from '../../../_things/thread-cell'
import { ContentsSum } from './contents-sum'
import { chartStandingWords, clothStandingWords, type LineNames, numberWords, toBuyWords } from './kit-words'

type Row = ReckonedLine

/** Everything a kit takes: what goes into one, what all of them take, what there is, how many kits it gives, what to buy. */
export function ContentsTable({ kit, nameOf, settings }: { kit: Kit; nameOf: LineNames; settings: Settings }) {
  const { reckoning } = kit
  const { lines, makeable, copies } = reckoning
  const groups = [
    { key: 'thread', title: say('Thread'), rows: lines.filter(({ kind }) => kind === 'thread') },
    { key: 'other', title: say('Cloth and chart'), rows: lines.filter(({ kind }) => kind === 'cloth' || kind === 'chart') },
    { key: 'item', title: say('Other things'), rows: lines.filter(({ kind }) => kind === 'item') },
  ].filter(({ rows }) => rows.length > 0)
  return (
    <Ledger
      caption={say('What {number} take', { number: numberWords(reckoning) })}
      groups={groups}
      rowKey={({ key }) => key}
      columns={[
        { key: 'line', head: say('What'), phone: 'lead', cell: (row) => <LineCell row={row} kit={kit} /> },
        { key: 'one', head: say('In one kit'), isNumeric: true, phone: 'labelled', cell: (row) => oneWords(row, kit, settings) },
        {
          key: 'all',
          head: say('For {copies}', { copies }),
          isNumeric: true,
          phone: 'labelled',
          cell: (row) => allWords(row, kit, settings),
        },
        { key: 'there', head: say('There is'), phone: 'labelled', cell: (row) => thereWords(row, kit, settings) },
        {
          key: 'kits',
          head: say('Kits possible'),
          isNumeric: true,
          phone: 'side',
          cell: ({ kits }) => {
            if (kits === null) return <span className="quiet">{say('not counted')}</span>
            const possible = Math.min(kits, copies)
            const words = counted(possible, 'kit')
            return (
              <UnfoldButton
                label={say('{possible, plural, one {# kit} other {# kits}} possible: how it is worked out', { possible })}
              >
                {kits === makeable && kits < copies ? <b className="do">{words}</b> : words}
              </UnfoldButton>
            )
          },
        },
        {
          key: 'buy',
          head: say('To buy'),
          isNumeric: true,
          phone: 'labelled',
          cell: ({ key, toBuy }) => {
            const { lot, putUpWord } = nameOf(key)
            return toBuy ? (
              <b className="do">{toBuyWords(toBuy, lot, putUpWord, settings.lengthUnit)}</b>
            ) : (
              <span className="quiet">{say('nothing')}</span>
            )
          },
        },
      ]}
      under={(row) => row.kits !== null && <ContentsSum row={row} kit={kit} settings={settings} />}
    />
  )
}

function LineCell({ row, kit }: { row: Row; kit: Kit }) {
  switch (row.kind) {
    case 'thread': {
      const thread = kit.threads.get(row.threadId)
      return thread ? (
        <ThreadCell thread={thread.tag} note={thread.line.lotsMatter ? say('all of one lot') : null} />
      ) : (
        say('A removed thread')
      )
    }
    case 'cloth':
      return (
        <>
          <b>{say('Cloth')}</b>
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
          <b>{say('Chart')}</b> <span className="quiet">{row.isFile ? say('a file') : say('bought, one to a kit')}</span>
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
      return kit.cloth?.cutSize ? formatClothSize(kit.cloth.cutSize, lengthUnit) : say('size not known')
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
        ? say('{toBuy} ({boltLength}), {gives} cuts', {
            toBuy: formatClothLength(best.toBuyUm, lengthUnit),
            boltLength: boltLength(best.toBuyUm, lengthUnit),
            gives: best.gives,
          })
        : counted(row.wanted, 'cut')
    }
    case 'chart':
      return counted(row.wanted, 'copy')
    case 'item':
      return row.packsForAll === null
        ? numberText(row.wanted)
        : say('{wanted}, {packsForAll, plural, one {# pack} other {# packs}}', {
            wanted: row.wanted,
            packsForAll: row.packsForAll,
          })
  }
}

function thereWords(row: Row, kit: Kit, { threadUnit }: Settings) {
  switch (row.kind) {
    case 'thread': {
      const thread = kit.threads.get(row.threadId)
      if (!thread) return null
      const free = thread.lots.reduce((sum, { freeStrandTenths }) => sum + freeStrandTenths, 0)
      const lot = thread.line.lotsMatter && row.lot !== null ? say(', lot {lot}', { lot: row.lot }) : ''
      const parts = [
        ...(row.cut > 0 ? [say('{cut} cut', { cut: row.cut })] : []),
        ...(free > 0 ? [`${threadLength(free, thread.line.strands, threadUnit)}${lot}`] : []),
      ]
      return parts.length === 0 ? say('none') : parts.join(', ')
    }
    case 'cloth':
      return kit.cloth ? clothStandingWords(kit.cloth) : say('the size of the design is not known')
    case 'chart':
      return chartStandingWords(kit.chart)
    case 'item': {
      const item = kit.items.find(({ id }) => id === row.itemId)
      if (!item?.have) return <span className="quiet">{say('no stock is kept of it')}</span>
      const { taken, reserved, free } = item.have
      const parts = [
        ...(taken > 0 ? [say('{taken} taken', { taken })] : []),
        ...(reserved > 0 ? [say('{reserved} reserved', { reserved })] : []),
        ...(free > 0 ? [say('{free} free', { free })] : []),
      ]
      const words = parts.length === 0 ? say('none') : parts.join(', ')
      return item.notion ? <Link href={`/notions/${item.notion.id}`}>{words}</Link> : words
    }
  }
}
