import type { Filing } from '#lib/db/filing/read-filing'
import { type FilingChoice, type FilingMove, filingMoves, frontsChanged } from '#lib/place/filing-moves'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
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
      <Section title="List of moves">
        <p>Nothing moves: every code is in order and has its room.</p>
      </Section>
    )
  }
  const columns: Column<FilingMove>[] = [
    {
      key: 'from',
      head: 'From',
      cell: ({ from, to }) => <b>{from === null ? 'Coming in' : from === to ? `Inside ${labelOf(to)}` : labelOf(from)}</b>,
      width: '7rem',
      phone: 'lead',
    },
    { key: 'to', head: 'To', cell: ({ to }) => <b>{labelOf(to)}</b>, width: '5rem', phone: 'labelled' },
    { key: 'count', head: 'How many', cell: ({ items }) => items.length, isNumeric: true, width: '6rem', phone: 'side' },
    {
      key: 'codes',
      head: 'Codes',
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
        title="List of moves"
        note={`${wayWords(chosen.way, filing, choices.fill)}. In walking order; lift out what leaves a drawer before what comes to it goes in.`}
      >
        {filing.compartments && (
          <p className={s.aside}>
            {counted(chosen.moved, 'line')} change{chosen.moved === 1 && 's'} drawer; {counted(chosen.shifted, 'line')} shift
            {chosen.shifted === 1 && 's'} inside {chosen.shifted === 1 ? 'its' : 'their'} drawer. Shift inside a drawer in the
            order written, once what leaves it is lifted out: each compartment is then free when its turn comes.
          </p>
        )}
        <Ledger caption="Moves in walking order" columns={columns} rows={moves} rowKey={({ from, to }) => `${from} ${to}`} />
        {fronts.length > 0 && (
          <>
            <h3 className={s.labels}>Drawer labels to print</h3>
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
          {chosen.way === 'added' && 'Once the drawer is put in, its own labels are among those to print. '}
          <Link href={labelsHref(filing, chosen)}>Labels to print, of places and threads that changed</Link>
        </p>
      </Section>
      <div className="no-print">
        <Section
          title="Carry it out"
          note="Once the moves are made: writes every new home in one, or nothing at all. It can be taken back afterwards."
        >
          {batches === 0 ? (
            <p>Nothing on record changes its home: the codes that come in are not held yet.</p>
          ) : (
            <Form
              label="Carry the plan out"
              action={carryOutFilingAction}
              submit={`Give ${counted(batches, 'batch')} their new home`}
              hidden={{ search: searchOf(choices), way: chosen.way, fingerprint: filing.fingerprint }}
            >
              {chosen.way === 'added' && filing.added && (
                <p>
                  The drawer {filing.added.label}
                  {filing.added.compartments.length > 0 &&
                    `, with its ${counted(filing.added.compartments.length, 'compartment')} ${rangeWords(filing.added.compartments)},`}{' '}
                  is added to the places, next on the walk, and stays if the moves are taken back.
                </p>
              )}
              <TextField name="who" label="Who does it" hint="For the journal; may be left empty." width="half" maxLength={200} />
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
            {step?.from && `${step.from} to `}
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
