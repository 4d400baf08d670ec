import { say } from '#language/say'
import { getAnswers } from '#lib/db/answers/get-answers'
import { isOut } from '#lib/stock/batch'
import { Button } from '#ui/button'
import { TextField } from '#ui/field'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import s from './loans.module.css'
import { type ThingsQuery, thingsHref } from './schema'

type Found = { key: string; title: string; note: string; more: Parameters<typeof thingsHref>[2] }

type FindThingsProps = {
  page: string
  query: ThingsQuery
  /** Whose things are offered. */
  ownerIds: readonly string[]
  title: string
}

/** A box to find what goes by its words, code or label; what is found is put on the form by a press. */
export async function FindThings({ page, query, ownerIds, title }: FindThingsProps) {
  const found = query.q === '' ? null : await findThings(query.q, ownerIds)
  return (
    <Section title={title} id="find">
      <form action={page} className={s.search}>
        {query.project && <input type="hidden" name="project" value={query.project} />}
        {(['chart', 'batch', 'cloth', 'notion'] as const).flatMap((noun) =>
          query[noun].map((id) => <input key={id} type="hidden" name={noun} value={id} />),
        )}
        <TextField
          name="q"
          label={say('Title, code or label')}
          defaultValue={query.q}
          maxLength={200}
          width="half"
          type="search"
        />
        <Button type="submit">{say('Find')}</Button>
      </form>
      {found && found.length === 0 && <p>{say('Nothing of that name can be handed over.')}</p>}
      {found && found.length > 0 && (
        <ul className={s.found}>
          {found.map(({ key, title: name, note, more }) => (
            <li key={key}>
              <Link href={thingsHref(page, query, more)}>{name}</Link>
              <small className="quiet">{note}</small>
            </li>
          ))}
        </ul>
      )}
    </Section>
  )
}

async function findThings(words: string, ownerIds: readonly string[]): Promise<Found[]> {
  const { search, world } = await getAnswers()
  const isOffered = ({ ownerId }: { ownerId: string }) => ownerIds.includes(ownerId)
  const placeOf = (id: string | null) =>
    id === null ? say('no place yet') : say('in {place}', { place: world.places.get(id)?.label })
  const found = new Map<string, Found>()
  for (const hit of search.search(words, { limit: 40 }).hits) {
    const id = hit.id.slice(hit.id.indexOf(':') + 1)
    if (hit.noun === 'design') {
      const facts = world.designs.get(id)
      if (!facts || !isOffered(facts)) continue
      const { chartId } = facts.design
      const note = `${facts.kind}, ${placeOf(facts.currentPlaceId ?? facts.homePlaceId)}`
      found.set(chartId, { key: chartId, title: facts.chartTitle, note, more: { chart: chartId } })
    } else if (hit.noun === 'cloth') {
      const piece = world.pieces.find((one) => one.id === id)
      if (piece && isOffered(piece))
        found.set(id, {
          key: id,
          title: hit.title,
          note: say('cloth, {placeOf}', { placeOf: placeOf(piece.currentPlaceId ?? piece.homePlaceId) }),
          more: { cloth: id },
        })
    } else if (hit.noun === 'notion') {
      const notion = world.notions.get(id)
      if (notion && isOffered(notion))
        found.set(id, {
          key: id,
          title: hit.title,
          note: say('notion, {placeOf}', { placeOf: placeOf(notion.currentPlaceId ?? notion.homePlaceId) }),
          more: { notion: id },
        })
    } else if (hit.noun === 'thread') {
      for (const batch of world.stock.batches.get(id) ?? []) {
        if (!isOffered(batch) || isOut(batch)) continue
        const note = [
          counted(batch.wholePutUps, 'put-up'),
          batch.lot && say('lot {lot}', { lot: batch.lot }),
          placeOf(batch.currentPlaceId ?? batch.homePlaceId),
        ]
        found.set(batch.id, { key: batch.id, title: hit.title, note: note.filter(Boolean).join(', '), more: { batch: batch.id } })
      }
    }
  }
  return [...found.values()].slice(0, 20)
}
