import type { Metadata } from 'next'
import { z } from 'zod'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { type GlossaryGroup, glossaryEntries, glossaryGroups, searchGlossary } from '#words/glossary'
import { FindBox } from '../_find/find-box'
import s from './glossary.module.css'
import { WordDrawing } from './word-drawing'

export const generateMetadata = (): Metadata => ({ title: say('Words of the trade') })

const querySchema = z.object({ q: z.string().trim().max(100).catch('') })

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function GlossaryPage({ searchParams }: Props) {
  const { q } = querySchema.parse(await searchParams)
  const found = searchGlossary(q)
  const groups = (Object.keys(glossaryGroups) as GlossaryGroup[])
    .map((group) => ({ group, entries: found.filter((entry) => entry.group === group) }))
    .filter(({ entries }) => entries.length > 0)
  return (
    <>
      <PageHead
        title={say('Words of the trade')}
        note={
          q === ''
            ? counted(glossaryEntries().length, 'word')
            : say('{found, plural, one {# word} other {# words}} with “{q}”', { found: found.length, q })
        }
        byline={say('As they are meant on these screens. A word with a dotted line under it says the same where it stands.')}
      />
      <div className={s.box}>
        <FindBox
          words={q}
          isFocused={false}
          at="/glossary"
          label={say('A word, or what you would call it')}
          placeholder={say('lot, skein, fat quarter …')}
        />
      </div>
      {groups.length === 0 && (
        <Empty title={say('No such word here')} actions={<LinkButton href="/glossary">{say('All words')}</LinkButton>}>
          {sayParts('It may be the name of a thing of your own: <link>look for it under Find</link>.', {
            link: (words) => <Link href={`/?q=${encodeURIComponent(q)}`}>{words}</Link>,
          })}
        </Empty>
      )}
      {groups.map(({ group, entries }) => (
        <Section key={group} title={glossaryGroups[group]} id={group}>
          <dl className={s.words}>
            {entries.map(({ key, word, also, says, drawing }) => (
              <div key={key} id={key} className={s.entry}>
                <dt>
                  {word}
                  {also && <span className={s.also}> {sayParts('or {also}', { also })}</span>}
                </dt>
                <dd>
                  {says}
                  {drawing && <WordDrawing of={drawing} />}
                </dd>
              </div>
            ))}
          </dl>
        </Section>
      ))}
    </>
  )
}
