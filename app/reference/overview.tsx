import { operations } from '#api/operations'
import { problemKinds } from '#api/problem'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { JumpMarks } from '#ui/jump-marks'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import s from './reference.module.css'
import { operationGroups } from './views'

const idOf = (group: string): string => group.toLowerCase().replaceAll(' ', '-')

/** Every operation in a line, and what holds for all of them. */
export function ReferenceOverview() {
  const groups = operationGroups()
  return (
    <>
      <PageHead
        title={say('Reference of the API')}
        note={say('{count} operations', { count: operations.length })}
        byline={sayParts(
          'For programs: the same answers as the screens give, as JSON under <code>/api/v1</code>. The same page for machines is <link>openapi.json</link>.',
          { code: (words) => <code>{words}</code>, link: (words) => <a href="/api/v1/openapi.json">{words}</a> },
        )}
      />
      <JumpMarks
        items={[
          ...groups.map(({ group, operations }) => ({
            href: `#${idOf(group)}` as const,
            label: group,
            note: String(operations.length),
          })),
          { href: '#problems', label: say('Problems') },
        ]}
      />
      <Section title={say('Manners')} id="manners">
        <div className={s.manners}>
          <p>
            {sayParts(
              'Amounts are whole numbers in one unit, which their name ends with. Thread is in tenths of a millimetre of one strand (<code>strandTenths</code>: 8 m of six strands is 480,000). Cloth is in micrometres (<code>widthUm</code>: one inch is 25,400). Figures worked out along the way need not be whole.',
              { code: (words) => <code>{words}</code> },
            )}
          </p>
          <p>
            {sayParts(
              'Lists come in pages: <code>limit</code> says how many, and the <code>next</code> of one page is the <code>after</code> of the following one. Owners are never mixed unasked: name them with <code>owner</code>, or the first one is meant.',
              { code: (words) => <code>{words}</code> },
            )}
          </p>
          <p>
            {sayParts(
              'A POST that changes stock takes an <code>Idempotency-Key</code> header: a repeat with the same key is answered as the first was and does nothing again. A key is good for a day.',
              { code: (words) => <code>{words}</code> },
            )}
          </p>
        </div>
      </Section>
      {groups.map(({ group, operations }) => (
        <Section key={group} title={group} id={idOf(group)}>
          <Ledger
            caption={say('Operations: {group}', { group })}
            isTight
            rows={operations}
            rowKey={({ id }) => id}
            columns={[
              {
                key: 'summary',
                head: say('What it does'),
                cell: ({ id, summary }) => (
                  <Link id={id} href={`/reference?operation=${id}`}>
                    {summary}
                  </Link>
                ),
                phone: 'lead',
                width: '50%',
              },
              {
                key: 'address',
                head: say('Address'),
                cell: ({ method, path }) => (
                  <code className={s.line}>
                    {method.toUpperCase()} {path}
                  </code>
                ),
                phone: 'wide',
              },
            ]}
          />
        </Section>
      ))}
      <Section title={say('Problems')} id="problems" note={say('application/problem+json, RFC 9457')}>
        {Object.entries(problemKinds).map(([kind, { status, title, meaning }]) => (
          <article key={kind} className={s.problem} id={`problem-${kind}`}>
            <h3>
              {title}
              <code>
                {status} {kind}
              </code>
            </h3>
            <p>{meaning}</p>
          </article>
        ))}
      </Section>
    </>
  )
}
