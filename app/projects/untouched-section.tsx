import { formatDate } from '#language/day'
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
      title="Begun and not done"
      id="begun"
      note={`${counted(works.length, 'work')} in progress, ${resting} of them resting; ${untouched.length} untouched for more than ${counted(limitDays, 'day')}`}
    >
      {untouched.length === 0 ? (
        <p>Each was worked on within {counted(limitDays, 'day')}.</p>
      ) : (
        <Ledger
          caption="Begun and long untouched, the longest first"
          rows={untouched}
          rowKey={({ work }) => work.id}
          rowHref={({ work }) => `/projects/${work.id}`}
          columns={[
            { key: 'what', head: 'What', cell: ({ work }) => work.title, phone: 'lead' },
            {
              key: 'since',
              head: 'Last touched',
              cell: ({ work, since }) => (
                <>
                  {work.lastWorkedOn === since ? 'last worked on' : 'begun'} <span className="nb">{formatDate(since)}</span>
                </>
              ),
              phone: 'line',
            },
            { key: 'days', head: 'Ago', cell: ({ days }) => agoWords(days), isNumeric: true, phone: 'side' },
          ]}
        />
      )}
      <p className={`${s.set} quiet`}>
        What counts as long is set in <Link href="/settings#planning">Settings</Link>.
      </p>
    </Section>
  )
}

/** "95 days", "20 months", "3 years". */
function agoWords(days: number): string {
  if (days < 180) return counted(days, 'day')
  return days < 730 ? counted(Math.round(days / 30.44), 'month') : counted(Math.floor(days / 365.25), 'year')
}
