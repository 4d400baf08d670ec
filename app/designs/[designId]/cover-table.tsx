import { say } from '#language/say'
import { labToHex } from '#lib/colour/convert'
import type { LineStatus, ThreadCover } from '#lib/coverage/line-status'
import type { ThreadNeed } from '#lib/coverage/need'
import type { Answers } from '#lib/db/answers/answers'
import type { CoveredList, DesignCoverage } from '#lib/db/coverage/design-coverage'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { isOut } from '#lib/stock/batch'
import type { ThreadLine } from '#lib/thread/thread'
import { CoverBar, CoverScaleHead } from '#trade/cover-bar'
import { KeySymbol } from '#trade/key-symbol'
import { PlaceLabel } from '#trade/place-label'
import { ThreadName } from '#trade/thread-bar'
import { TrayWord } from '#trade/tray'
import type { Hex } from '#trade/winding'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { UnfoldButton } from '#ui/unfold'
import { counted, threadLength } from '#words/amounts'
import { coverScale } from '../../_trade/cover-scale'
import s from './design.module.css'
import { NeedSum } from './need-sum'

type CoverTableProps = {
  answers: Answers
  coverage: DesignCoverage
  covered: CoveredList
  ownerIds: readonly string[]
  unit: ThreadLengthUnit
}

type Row = { need: ThreadNeed; cover: ThreadCover; line: ThreadLine; symbols: string[] }

/** Cover of a list, thread by thread: need, free, state with its arithmetic, place. */
export function CoverTable({ answers, coverage, covered, ownerIds, unit }: CoverTableProps) {
  const { list, needs, cover } = covered
  const rows: Row[] = cover.threads.flatMap((thread, at) => {
    const line =
      coverage.threads.get(thread.threadId)?.line ??
      answers.world.lines.get(answers.world.lineOfThread.get(thread.threadId) ?? '')
    const need = needs[at]
    if (!line || !need) return []
    const symbols = list.keyLines
      .filter((keyLine) => keyLine.threads.some(({ threadId }) => threadId === thread.threadId))
      .flatMap(({ symbol }) => (symbol === null ? [] : [symbol]))
    return [{ need, cover: thread, line, symbols: [...new Set(symbols)] }]
  })
  const perUnit = unit === 'm' ? 10_000 : 9_144
  const shown = (strandTenths: number, line: ThreadLine) => strandTenths / line.strands / perUnit
  const scale = coverScale(rows.map(({ need, line }) => shown(need.strandTenths, line)))
  const placeWords = (placeId: string | null) => {
    const place = answers.world.places.get(placeId ?? '')
    return place ? <Link href={`/places/${place.id}`}>{place.label}</Link> : say('no place')
  }
  const total = rows.reduce((sum, { need, line }) => sum + need.strandTenths / line.strands, 0)

  return (
    <Ledger
      caption={say('Cover, thread by thread')}
      rows={rows}
      rowKey={(row) => row.cover.threadId}
      columns={[
        {
          key: 'key',
          head: say('Key'),
          width: '2.75rem',
          phone: 'mark',
          cell: ({ symbols }) => symbols.map((symbol) => <KeySymbol key={symbol} symbol={symbol} />),
        },
        {
          key: 'thread',
          head: say('Thread'),
          phone: 'lead',
          cell: ({ cover: { threadId }, line }) => {
            const known = coverage.threads.get(threadId)?.thread
            return (
              <ThreadName
                maker={line.makerName}
                code={known?.code ?? say('removed thread')}
                name={known?.name}
                note={line.name === '' ? undefined : line.name}
                hexes={known?.lab ? [labToHex(known.lab) as Hex] : []}
                dye={line.dyeing === 'solid' ? 'solid' : 'overdyed'}
                href={`/threads/${threadId}`}
              />
            )
          },
        },
        {
          key: 'need',
          head: say('Need'),
          isNumeric: true,
          width: '6rem',
          phone: 'hide',
          cell: ({ need, cover: { needPutUps }, line }) => (
            <>
              {counted(needPutUps, line.putUpWord)}
              <small className={s.under}>
                {need.leastStrandTenths < need.strandTenths &&
                  need.leastStrandTenths > 0 &&
                  say('above {threadLength}, up to ', { threadLength: threadLength(need.leastStrandTenths, line.strands, unit) })}
                {threadLength(need.strandTenths, line.strands, unit)}
              </small>
            </>
          ),
        },
        {
          key: 'free',
          head: say('Free'),
          isNumeric: true,
          width: '6rem',
          phone: 'side',
          cell: ({ cover: { freeStrandTenths, isSomeHeld }, line }) =>
            freeStrandTenths === 0
              ? isSomeHeld
                ? say('some')
                : say('none')
              : threadLength(freeStrandTenths, line.strands, unit),
        },
        {
          key: 'bar',
          head: <CoverScaleHead scale={scale} unit={unit} />,
          width: '14rem',
          phone: 'wide',
          cell: ({ need, cover: thread, line }) => {
            const lab = coverage.threads.get(thread.threadId)?.thread.lab
            return (
              <CoverBar
                need={shown(need.strandTenths, line)}
                free={thread.status === 'unknown' && thread.freeStrandTenths === 0 ? null : shown(thread.freeStrandTenths, line)}
                scale={scale}
                hexes={lab ? [labToHex(lab) as Hex] : []}
                dye={line.dyeing === 'solid' ? 'solid' : 'overdyed'}
                isWanting={['none', 'short', 'lots'].includes(thread.status)}
                label={say('need {threadLength}, free {threadLength2}', {
                  threadLength: threadLength(need.strandTenths, line.strands, unit),
                  threadLength2: threadLength(thread.freeStrandTenths, line.strands, unit),
                })}
              />
            )
          },
        },
        {
          key: 'state',
          head: say('State'),
          width: '14rem',
          phone: 'line',
          cell: ({ cover: thread, line }) => (
            <TrayWord
              state={thread.status}
              word={<UnfoldButton>{stateWord(thread, line)}</UnfoldButton>}
              note={stateNote(thread, line, unit, answers, coverage)}
            />
          ),
        },
        {
          key: 'place',
          head: say('Place'),
          width: '8rem',
          isAtEnd: true,
          phone: 'side',
          cell: ({ cover: { threadId, standInThreadId } }) => (
            <WhereKept answers={answers} threadId={standInThreadId ?? threadId} ownerIds={ownerIds} />
          ),
        },
      ]}
      under={({ need, cover: thread, line }) => (
        <NeedSum
          need={need}
          cover={thread}
          free={coverage.free.get(thread.threadId)}
          line={line}
          unit={unit}
          placeWords={placeWords}
        />
      )}
      foot={say('{rows, plural, one {# thread} other {# threads}}, {threadLength} in all', {
        rows: rows.length,
        threadLength: threadLength(total, 1, unit),
      })}
    />
  )
}

/** The place of the fullest batch of a thread, the one to walk to first, and how many more there are. */
function WhereKept({ answers, threadId, ownerIds }: { answers: Answers; threadId: string; ownerIds: readonly string[] }) {
  const batches = answers
    .batchesOf(threadId, ownerIds)
    .filter((batch) => batch.wholePutUps > 0 || batch.partCertainty !== 'none')
    .sort((a, b) => Number(isOut(a)) - Number(isOut(b)) || b.wholePutUps - a.wholePutUps || (a.id < b.id ? -1 : 1))
  const { places } = answers.world
  const first = batches[0]
  if (!first) return <span className="quiet">{say('nowhere')}</span>
  const current = places.get(first.currentPlaceId ?? first.homePlaceId ?? '')
  const home = places.get(first.homePlaceId ?? '')
  if (!current) return <span className="quiet">{say('no place yet')}</span>
  const elsewhere = new Set(batches.map((batch) => batch.currentPlaceId ?? batch.homePlaceId)).size - 1
  return (
    <PlaceLabel
      label={current.label}
      href={`/places/${current.id}`}
      livesIn={isOut(first) ? home?.label : undefined}
      note={elsewhere > 0 ? say('and {elsewhere, plural, one {# place} other {# places}} more', { elsewhere }) : undefined}
    />
  )
}

function stateWord(thread: ThreadCover, line: ThreadLine): string {
  const words: Record<LineStatus, string> = {
    none: say('None'),
    short: say('Short by {counted}', { counted: counted(thread.shortPutUps, line.putUpWord) }),
    lots: say("Lots don't match"),
    elsewhere: thread.elsewhere.every(({ why }) => why === 'promised') ? say('Promised elsewhere') : say('Out'),
    unknown: say('Amount unknown'),
    swap: say('Swap held'),
    mixed: say('Enough, mixed lots'),
    enough: say('Enough'),
  }
  return words[thread.status]
}

function stateNote(
  thread: ThreadCover,
  line: ThreadLine,
  unit: ThreadLengthUnit,
  answers: Answers,
  coverage: DesignCoverage,
): string | null {
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  switch (thread.status) {
    case 'none':
      return say('{counted} to buy{hasLotToBuy, select, yes {, of one lot} other {}}', {
        counted: counted(thread.shortPutUps, line.putUpWord),
        hasLotToBuy: Boolean(thread.lotToBuy),
      })
    case 'short':
      return thread.lotToBuy?.lot
        ? say('lot {lot}, or {counted} of a new lot', {
            lot: thread.lotToBuy.lot,
            counted: counted(thread.lotToBuy.wholePutUps, line.putUpWord),
          })
        : say('{length} wanting', { length: length(thread.shortStrandTenths) })
    case 'lots':
      return say('{lots}; {counted} of one lot if they differ by eye', {
        lots: thread.lots
          .filter(({ freeStrandTenths }) => freeStrandTenths > 0)
          .map(({ lot, freeStrandTenths }) =>
            say('{rest} {length}', {
              rest: lot === null ? say('no lot mark') : say('lot {lot}', { lot }),
              length: length(freeStrandTenths),
            }),
          )
          .join(', '),
        counted: counted(thread.lotToBuy?.wholePutUps ?? thread.shortPutUps, line.putUpWord),
      })
    case 'elsewhere': {
      const places = thread.elsewhere.map(({ placeId }) => answers.world.places.get(placeId ?? '')?.label ?? say('no place'))
      return say('in {what}', { what: [...new Set(places)].join(', ') })
    }
    case 'unknown':
      return say('a part nobody has measured')
    case 'swap': {
      const standIn = coverage.threads.get(thread.standInThreadId ?? '')
      return standIn
        ? say('{makerName} {code} stands in', { makerName: standIn.line.makerName, code: standIn.thread.code })
        : null
    }
    case 'mixed':
      return say('{lots} lots; compare them by daylight', { lots: thread.lots.length })
    case 'enough':
      return thread.certainty === 'guess' || thread.certainty === 'estimated' || thread.certainty === 'assumed'
        ? thread.certainty
        : null
  }
}
