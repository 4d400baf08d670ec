import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Filing } from '#lib/db/filing/read-filing'
import { type FilingChoice, type FilingMove, filingMoves, frontsChanged } from '#lib/place/filing-moves'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { carryOutFilingAction } from './actions'
import s from './filing.module.css'
import { type FilingChoices, searchOf } from './schema'
import { drawerLabel, rangeWords, stepOf, wayWords } from './words'

type MovesSectionProps = { filing: Filing; choices: FilingChoices; chosen: FilingChoice }

/** The moves of the way chosen, as one walks; the labels to print anew; and the button that carries it out. */
export function MovesSection({ filing, choices, chosen }: MovesSectionProps) {
  const filed = filing.lines.map(({ drawer }) => drawer)
  const moves = filingMoves(chosen, filed, filing.compartments)
  const labelOf = (drawer: number) => drawerLabel(filing, chosen, drawer)
  const codesOf = (items: readonly number[]) => items.map((item) => filing.lines[item]?.code ?? '')
  const fronts = frontsChanged(chosen, filed)
  const batches = moves.reduce(
    (sum, { items }) => sum + items.reduce((count, item) => count + (filing.lines[item]?.batches.length ?? 0), 0),
    0,
  )
  if (moves.length === 0) {
    return (
      <Section title={say('List of moves')}>
        <p>{say('Nothing moves: every code is in order and has its room.')}</p>
      </Section>
    )
  }
  const columns: Column<FilingMove>[] = [
    {
      key: 'from',
      head: say('From'),
      cell: ({ from, to }) => (
        <b>
          {from === null ? say('Coming in') : from === to ? say('Inside {labelOf}', { labelOf: labelOf(to) }) : labelOf(from)}
        </b>
      ),
      width: '7rem',
      phone: 'lead',
    },
    { key: 'to', head: say('To'), cell: ({ to }) => <b>{labelOf(to)}</b>, width: '5rem', phone: 'labelled' },
    { key: 'count', head: say('How many'), cell: ({ items }) => items.length, isNumeric: true, width: '6rem', phone: 'side' },
    {
      key: 'codes',
      head: say('Codes'),
      cell: ({ items }) =>
        filing.compartments ? (
          <Steps filing={filing} chosen={chosen} items={items} />
        ) : (
          <span className={s.codes}>{codesOf(items).join(', ')}</span>
        ),
      phone: 'wide',
    },
  ]
  return (
    <>
      <Section
        title={say('List of moves')}
        note={say('{way}. In walking order; lift out what leaves a drawer before what comes to it goes in.', {
          way: wayWords(chosen.way, filing, choices.fill),
        })}
      >
        {filing.compartments && (
          <p className={s.aside}>
            {sayParts(
              '{moved, plural, one {# line} other {# lines}} change{rest} drawer; {shifted, plural, one {# line} other {# lines}} shift{rest2} inside {shifted, plural, one {its} other {their}} drawer. Shift inside a drawer in the order written, once what leaves it is lifted out: each compartment is then free when its turn comes.',
              {
                moved: chosen.moved,
                rest: chosen.moved === 1 && 's',
                shifted: chosen.shifted,
                rest2: chosen.shifted === 1 && 's',
              },
            )}
          </p>
        )}
        <Ledger
          caption={say('Moves in walking order')}
          columns={columns}
          rows={moves}
          rowKey={({ from, to }) => `${from} ${to}`}
        />
        {fronts.length > 0 && (
          <>
            <h3 className={s.labels}>{say('Drawer labels to print')}</h3>
            <ul className={s.fronts}>
              {fronts.map((drawer) => (
                <li key={drawer}>
                  <b>{labelOf(drawer)}</b> {rangeWords(codesOf(chosen.drawers[drawer]?.items ?? []))}
                </li>
              ))}
            </ul>
          </>
        )}
        <p className={`no-print ${s.after}`}>
          {chosen.way === 'added' && say('Once the drawer is put in, its own labels are among those to print. ')}
          <Link href={labelsHref(filing, chosen)}>{say('Labels to print, of places and threads that changed')}</Link>
        </p>
      </Section>
      <div className="no-print">
        <Section
          title={say('Carry it out')}
          note={say('Once the moves are made: writes every new home in one, or nothing at all. It can be taken back afterwards.')}
        >
          {batches === 0 ? (
            <p>{say('Nothing on record changes its home: the codes that come in are not held yet.')}</p>
          ) : (
            <Form
              label={say('Carry the plan out')}
              action={carryOutFilingAction}
              submit={say('Give {batches, plural, one {# batch} other {# batches}} their new home', { batches })}
              hidden={{ search: searchOf(choices), way: chosen.way, fingerprint: filing.fingerprint }}
            >
              {chosen.way === 'added' && filing.added && (
                <p>
                  {sayParts(
                    'The drawer {label}{rest} is added to the places, next on the walk, and stays if the moves are taken back.',
                    {
                      label: filing.added.label,
                      rest:
                        filing.added.compartments.length > 0 &&
                        say(', with its {compartments, plural, one {# compartment} other {# compartments}} {range},', {
                          compartments: filing.added.compartments.length,
                          range: rangeWords(filing.added.compartments),
                        }),
                    },
                  )}
                </p>
              )}
              <TextField
                name="who"
                label={say('Who does it')}
                hint={say('For the journal; may be left empty.')}
                width="half"
                maxLength={200}
              />
            </Form>
          )}
        </Section>
      </div>
    </>
  )
}

/** Each code with the compartment it is lifted from and the one it goes in. */
const Steps = ({ filing, chosen, items }: { filing: Filing; chosen: FilingChoice; items: readonly number[] }) => (
  <ol className={s.steps}>
    {items.map((item) => {
      const step = stepOf(filing, chosen, item)
      return (
        <li key={item}>
          <b>{filing.lines[item]?.code}</b>{' '}
          <span>
            {step?.from && say('{from} to ', { from: step.from })}
            {step?.to}
          </span>
        </li>
      )
    })}
  </ol>
)

/** Labels of the places and threads in what all these drawers stand in, or of all places where they stand in nothing. */
function labelsHref({ drawers }: Filing, { way }: FilingChoice): string {
  const search = new URLSearchParams({ which: 'changed' })
  const [parent, ...others] = new Set(drawers.map(({ parentId }) => parentId))
  if (parent && others.length === 0) search.set('place', parent)
  if (way === 'added') search.append('what', 'place')
  search.append('what', 'batch')
  return `/labels?${search}`
}
