import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { WorksBegun } from '#lib/db/planning/pace/works-begun'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import s from './projects.module.css'

/** How many works are begun, and those not touched for long, the longest first. Nothing where nothing is begun. */
export function UntouchedSection({ begun: { works, untouched, limitDays } }: { begun: WorksBegun }) {
  if (works.length === 0) return null
  const resting = works.filter(({ status }) => status === 'resting').length
  return (
    <Section
      title={say('Begun and not done')}
      id="begun"
      note={say(
        '{works, plural, one {# work} other {# works}} in progress, {resting} of them resting; {untouched} untouched for more than {limitDays, plural, one {# day} other {# days}}',
        { works: works.length, resting, untouched: untouched.length, limitDays },
      )}
    >
      {untouched.length === 0 ? (
        <p>{say('Each was worked on within {limitDays, plural, one {# day} other {# days}}.', { limitDays })}</p>
      ) : (
        <Ledger
          caption={say('Begun and long untouched, the longest first')}
          rows={untouched}
          rowKey={({ work }) => work.id}
          rowHref={({ work }) => `/projects/${work.id}`}
          columns={[
            { key: 'what', head: say('What'), cell: ({ work }) => work.title, phone: 'lead' },
            {
              key: 'since',
              head: say('Last touched'),
              cell: ({ work, since }) => (
                <>
                  {work.lastWorkedOn === since ? say('last worked on') : say('begun')}{' '}
                  <span className="nb">{formatDate(since)}</span>
                </>
              ),
              phone: 'line',
            },
            { key: 'days', head: say('Ago'), cell: ({ days }) => agoWords(days), isNumeric: true, phone: 'side' },
          ]}
        />
      )}
      <p className={`${s.set} quiet`}>
        {sayParts('What counts as long is set in <link>Settings</link>.', {
          link: (words) => <Link href="/settings#planning">{words}</Link>,
        })}
      </p>
    </Section>
  )
}

/** "95 days", "20 months", "3 years". */
function agoWords(days: number): string {
  if (days < 180) return counted(days, 'day')
  return days < 730 ? counted(Math.round(days / 30.44), 'month') : counted(Math.floor(days / 365.25), 'year')
}
