import type { ReactNode } from 'react'
import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import type { DesignDetail } from '#lib/db/chart/find-design'
import type { CoveredList, DesignCoverage } from '#lib/db/coverage/design-coverage'
import type { Place } from '#lib/place/place'
import { walkRanks } from '#lib/place/walk-order'
import { isOut } from '#lib/stock/batch'
import { DrawerFront } from '#trade/drawer-front'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { pieceName } from '#words/cloth'
import s from './design.module.css'

type Stop = { place: Place | null; isAway: boolean; things: { key: string; what: ReactNode; note?: string }[] }

type RouteProps = {
  answers: Answers
  detail: DesignDetail
  coverage: DesignCoverage
  covered: CoveredList | null
  ownerIds: readonly string[]
}

/** Where the chart, its threads and its cloth are, in walking order. */
export function RouteSection({ answers, detail, coverage, covered, ownerIds }: RouteProps) {
  const { places } = answers.world
  const stops = new Map<string, Stop>()
  const stopAt = (placeId: string | null, isAway: boolean): Stop => {
    const place = places.get(placeId ?? '') ?? null
    const key = `${place?.id ?? 'none'} ${isAway}`
    const stop = stops.get(key) ?? { place, isAway, things: [] }
    stops.set(key, stop)
    return stop
  }
  const { chart } = detail
  stopAt(chart.current?.id ?? null, chart.current?.id !== chart.home?.id).things.push({
    key: 'chart',
    what: say('The chart'),
    note:
      chart.current?.id === chart.home?.id
        ? counted(chart.copies, 'copy')
        : say('lives in {label}', { label: chart.home?.label ?? say('no place') }),
  })
  for (const { threadId, standInThreadId } of covered?.cover.threads ?? []) {
    const walked = standInThreadId ?? threadId
    const known = coverage.threads.get(walked)
    for (const batch of answers.batchesOf(walked, ownerIds)) {
      if (batch.wholePutUps === 0 && batch.partCertainty === 'none') continue
      const parts = [
        ...(batch.wholePutUps > 0 ? [counted(batch.wholePutUps, known?.line.putUpWord ?? 'put-up')] : []),
        ...(batch.partCertainty === 'none' ? [] : [say('a part')]),
        ...(batch.lot === null ? [] : [say('lot {lot}', { lot: batch.lot })]),
      ]
      stopAt(batch.currentPlaceId ?? batch.homePlaceId, isOut(batch)).things.push({
        key: batch.id,
        what: `${known?.line.makerName ?? ''} ${known?.thread.code ?? ''}${standInThreadId ? say(', stands in') : ''}`,
        note: parts.join(', '),
      })
    }
  }
  if (coverage.cloth.kind === 'answer' && coverage.cloth.choice.best) {
    const { piece } = coverage.cloth.choice.best
    stopAt(piece.currentPlaceId ?? piece.homePlaceId, piece.currentPlaceId !== piece.homePlaceId).things.push({
      key: piece.id,
      what: say('Cloth {piece}', { piece: pieceName(piece) }),
      note: piece.name,
    })
  }
  const ranks = walkRanks([...places.values()])
  const inOrder = [...stops.values()].sort(
    (a, b) =>
      (ranks.get(a.place?.id ?? '') ?? Number.MAX_SAFE_INTEGER) - (ranks.get(b.place?.id ?? '') ?? Number.MAX_SAFE_INTEGER),
  )
  const away = inOrder.filter(({ isAway }) => isAway).length
  return (
    <Section
      title={say('Where everything is')}
      id="where"
      note={say('In walking order: {inOrder, plural, one {# stop} other {# stops}}{rest}.', {
        inOrder: inOrder.length,
        rest: away > 0 ? say(', {away} of them not its home', { away }) : '',
      })}
    >
      <ol className={s.route}>
        {inOrder.map(({ place, isAway, things }) => (
          <li key={`${place?.id ?? 'none'} ${isAway}`}>
            {place ? (
              <DrawerFront label={place.label} kind={place.kind} href={`/places/${place.id}`} isAway={isAway} size="small" />
            ) : (
              <p>{say('No place yet')}</p>
            )}
            {things.map(({ key, what, note }) => (
              <p key={key} className={s.stop}>
                {what}
                {note && <small>{note}</small>}
              </p>
            ))}
          </li>
        ))}
      </ol>
    </Section>
  )
}
