import type { Metadata } from 'next'
import type { ReactNode } from 'react'
import { withDecimalMark } from '#language/figures'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { familyOf } from '#lib/colour/family'
import type { Lab } from '#lib/colour/lab'
import { type LikelyAnswer, type LikelyThread, listLikely, type Standing, standings } from '#lib/db/thread/list-likely'
import { listLines } from '#lib/db/thread/list-lines'
import { gradeDifference, usableDeltaE } from '#lib/thread/substitution'
import type { ThreadLine } from '#lib/thread/thread'
import { ThreadBar } from '#trade/thread-bar'
import { Button, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FieldRow, SelectField, TextField } from '#ui/field'
import { type Column, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { hexesOf } from '#words/colour'
import { givenName } from '#words/given'
import { lineTitle } from '#words/thread'
import { ColourFields } from '../colour-picker'
import { formatColour, parseColour } from '../colour-text'
import { gradeWords, roughWords } from '../colour-words'
import { PlaceCell } from '../place-cell'
import { ThreadMark, threadMarkColumn } from '../thread-mark'
import { readQuestion, type SkeinQuestion } from './question'
import s from './which.module.css'

export const generateMetadata = (): Metadata => ({ title: say('Which thread is this?') })

const perStanding = 8
/** Shown where none is near, so that one sees how far off they are. */
const notNearShown = 5

/** Of threads whose colour is near. */
const standingWords: Record<Standing, { title: string; note: string }> = sayings({
  out: { title: 'Out of their place', note: 'on record as away: the likeliest' },
  held: { title: 'All of it at home', note: 'a skein of one would be over the count' },
  none: { title: 'None held', note: 'known, but no stock on record' },
})

const columns = (): Column<LikelyThread>[] => [
  threadMarkColumn(),
  {
    key: 'thread',
    head: say('Thread'),
    cell: (row) => (
      <>
        {lineTitle(row.line)} <b>{row.code}</b>
        {row.name && ` ${row.name}`}
        <span className={s.under}>{notesOf(row)}</span>
      </>
    ),
    phone: 'lead',
  },
  {
    key: 'difference',
    head: say('Difference'),
    cell: (row) => (
      <>
        {withDecimalMark(row.deltaE00.toFixed(1))}
        <span className={s.under}>{gradeWords[gradeDifference(row.deltaE00)]}</span>
      </>
    ),
    isNumeric: true,
    phone: 'labelled',
  },
  {
    key: 'place',
    head: say('Lives in'),
    cell: (row) => <PlaceCell homes={row.homes} away={row.away} />,
    isAtEnd: true,
    width: '9rem',
    phone: 'side',
  },
]

const notesOf = ({ family, line, lots, labCertainty, isLeaving }: LikelyThread): string =>
  [
    family,
    line.fibre,
    lots.length > 0 && say('{lots, plural, one {lot} other {lots}} {lots2}', { lots: lots.length, lots2: lots.join(', ') }),
    labCertainty === 'guess' && say('its colour on record is rough'),
    isLeaving && say('no longer made'),
  ]
    .filter(Boolean)
    .join(' · ')

type WhichPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function WhichPage({ searchParams }: WhichPageProps) {
  const question = readQuestion(await searchParams)
  const [lines, { ownerIds, ownerName }] = await Promise.all([listLines(), getViewer()])
  const lab = parseColour(question.colour)
  return (
    <>
      <PageHead
        title={say('Which thread is this?')}
        crumbs={[{ label: say('Threads'), href: '/threads' }, { label: say('Which is this?') }]}
        byline={say('A loose skein without its band, held against every colour on record. Stock of {ownerName}.', {
          ownerName: ownerName || say('nobody yet'),
        })}
      />
      <QuestionForm question={question} lines={lines} />
      {lab && <Answer lab={lab} question={question} answer={await answerTo(lab, question, ownerIds)} />}
    </>
  )
}

const answerTo = (lab: Lab, { maker, line, fibre, lot }: SkeinQuestion, ownerIds: readonly string[]) =>
  listLikely({ lab, makerId: maker || null, lineId: line || null, fibre: fibre || null, lot }, { ownerIds, perStanding })

function QuestionForm({ question, lines }: { question: SkeinQuestion; lines: readonly ThreadLine[] }) {
  const makers = [...new Map(lines.map((line) => [line.makerId, line.makerName]))]
  const fibres = [...new Set(lines.flatMap(({ fibre }) => fibre ?? []))].sort()
  const isColour = question.colour === '' || parseColour(question.colour) !== null
  return (
    <form className={s.form} action="/threads/which" aria-label={say('The loose skein')} noValidate>
      <ColourFields
        key={question.colour}
        name="colour"
        label={say('Its colour')}
        isRequired
        defaultText={question.colour}
        error={isColour ? undefined : say('A colour is such as #8e2f2b, or three Lab figures: 36.2 41 27.5.')}
      />
      <FieldRow>
        <SelectField
          name="maker"
          label={say('Maker')}
          none={say('any')}
          defaultValue={question.maker}
          options={makers.map(([value, label]) => ({ value, label }))}
        />
        <SelectField
          name="line"
          label={say('Line')}
          none={say('any')}
          defaultValue={question.line}
          options={lines.map((line) => ({ value: line.id, label: lineTitle(line) }))}
        />
      </FieldRow>
      <FieldRow>
        <SelectField
          name="fibre"
          label={say('Fibre')}
          none={say('any')}
          defaultValue={question.fibre}
          options={fibres.map((fibre) => ({ value: fibre, label: givenName(fibre) }))}
        />
        <TextField
          name="lot"
          label={say('What one can read of the lot')}
          defaultValue={question.lot}
          hint={say('Only threads with stock of such a lot are then looked at.')}
          maxLength={100}
        />
      </FieldRow>
      <Button type="submit" kind="first">
        {say('Look for it')}
      </Button>
    </form>
  )
}

type AnswerProps = { lab: Lab; question: SkeinQuestion; answer: LikelyAnswer }

function Answer({ lab, question, answer }: AnswerProps) {
  const { threads, comparedCount, withoutColourCount } = answer
  const byNearness = [...threads].sort((a, b) => a.deltaE00 - b.deltaE00)
  const [nearest] = byNearness
  const near = threads.filter(({ deltaE00 }) => deltaE00 <= usableDeltaE)
  const left =
    withoutColourCount > 0 &&
    say(' {withoutColourCount, plural, one {# thread} other {# threads}} could not be compared: no colour is on record.', {
      withoutColourCount,
    })
  if (!nearest) {
    const isNarrowed = [question.maker, question.line, question.fibre, question.lot].some((choice) => choice !== '')
    return (
      <Empty
        title={say('Nothing to hold it against.')}
        actions={
          isNarrowed && (
            <LinkButton href={`/threads/which?colour=${encodeURIComponent(question.colour)}`}>
              {say('Look at every thread')}
            </LinkButton>
          )
        }
      >
        {isNarrowed ? say('No thread of that kind has its colour on record.') : say('No thread has its colour on record yet.')}
        {left}
      </Empty>
    )
  }
  return (
    <>
      <Section
        title={say('What it is likely to be')}
        note={say('the skein: {familyOf}, {lab}', { familyOf: familyOf(lab), lab: formatColour(lab) })}
      >
        <p className={s.answer}>{sentenceFor(nearest)}</p>
        <p className={s.beside}>
          {sayParts('The skein {threadBar} and {threadMark} the nearest', {
            threadBar: <ThreadBar hexes={hexesOf(lab)} size="large" />,
            threadMark: <ThreadMark lab={nearest.lab} dyeing={nearest.line.dyeing} size="large" />,
          })}
        </p>
        <p>
          {sayParts(
            '{comparedCount, plural, one {# colour} other {# colours}} compared.{left} {roughWords} Lay the skein beside the thread before you put it away.',
            { comparedCount, left, roughWords: roughWords() },
          )}
        </p>
      </Section>
      {standings.map((standing) => (
        <Group key={standing} {...standingWords[standing]} rows={near.filter((thread) => thread.standing === standing)} />
      ))}
      {near.length === 0 && (
        <Group title={say('The nearest')} note={say('each another colour')} rows={byNearness.slice(0, notNearShown)} />
      )}
    </>
  )
}

function sentenceFor(nearest: LikelyThread): ReactNode {
  const name = (
    <>
      {lineTitle(nearest.line)} <b>{nearest.code}</b>
      {nearest.name && ` ${nearest.name}`}
    </>
  )
  switch (gradeDifference(nearest.deltaE00)) {
    case 'same':
      return sayParts('Nearest of all, and the same to the eye: {name}.', { name })
    case 'very-near':
      return sayParts('Nearest of all, and very near: {name}.', { name })
    case 'usable':
      return sayParts('Nearest of all is {name}: near, but look first.', { name })
    case 'design-change':
      return sayParts('Nothing on record is near it. The nearest, another colour, is {name}.', { name })
  }
}

function Group({ title, note, rows }: { title: string; note: string; rows: readonly LikelyThread[] }) {
  if (rows.length === 0) return null
  return (
    <Section title={title} note={note}>
      <Ledger
        caption={say('{title}: nearest colours first', { title })}
        columns={columns()}
        rows={rows}
        rowKey={(row) => row.id}
        rowHref={(row) => `/threads/${row.id}`}
        isTight
      />
    </Section>
  )
}
