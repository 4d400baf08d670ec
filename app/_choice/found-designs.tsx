import { say } from '#language/say'
import type { Answers } from '#lib/db/answers/answers'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import s from './choice.module.css'
import type { ChoosePageQuery } from './schema'

const mostFound = 8

/** Designs called so: those of exactly that title, else the nearest. */
export function findDesignsCalled(answers: Answers, words: string): string[] {
  const ids = answers.search
    .search(words, { limit: mostFound, noun: 'design' })
    .hits.map(({ id }) => id.slice('design:'.length))
    .filter((id) => answers.world.designs.has(id))
  const exact = ids.filter((id) => answers.world.designs.get(id)?.design.title.toLowerCase() === words.toLowerCase())
  return exact.length > 0 ? exact : ids
}

type FoundDesignsProps = { answers: Answers; query: ChoosePageQuery; found: readonly string[]; address: string }

/** What was found by a title, to be added to those that are chosen from. */
export function FoundDesigns({ answers, query, found, address }: FoundDesignsProps) {
  if (query.q === '' || found.length === 1) return null
  if (found.length === 0)
    return <Notice kind="caution" title={say('No design is called {q}. Give a part of its title.', { q: query.q })} />
  return (
    <ul className={s.found} aria-label={say('Designs found')}>
      {found.map((id) => {
        const fields = [
          ...[
            ['from', query.from],
            ['kind', query.kind],
          ],
          ...[...query.also, id].map((one) => ['also', one]),
        ]
        return (
          <li key={id}>
            <span className="title">{answers.world.designs.get(id)?.design.title}</span>
            <Link href={`${address}?${new URLSearchParams(fields.filter(([, value]) => value !== '') as [string, string][])}`}>
              {say('Add it')}
            </Link>
          </li>
        )
      })}
    </ul>
  )
}
