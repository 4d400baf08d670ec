import { formatClothSize } from '#language/lengths'
import { type FinishRecord, findFinish } from '#lib/db/finish/read-finishes'
import { formatPrice } from '#lib/quantity/money'
import type { Settings } from '#lib/settings/settings'
import { Facts } from '#ui/facts'
import { FieldRow, NumberField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, listed, threadLength } from '#words/amounts'
import { areaWords } from '#words/cloth-size'
import { costWords, frameWords, sentWords, uncounted, usedHowWords } from '#words/finish'
import { priceWords } from '#words/price'
import { ThreadCell } from '../_things/thread-cell'
import { setFrameAction } from './actions'
import s from './finish.module.css'

/** What is on record of a piece once its last stitch is made: frame and framer, colours really used, what it cost. */
export async function FinishedSections({ projectId }: { projectId: string }) {
  const [record, { settings }] = await Promise.all([findFinish(projectId), getViewer()])
  if (!record) return null
  return (
    <>
      <FrameSection record={record} settings={settings} />
      <ColoursSection record={record} settings={settings} />
      <CostSection record={record} settings={settings} />
    </>
  )
}

type PartProps = { record: FinishRecord; settings: Settings }

function FrameSection({ record, settings }: PartProps) {
  const { frame, sent, finishing, forWhom, otherCostMinor } = record
  const { lengthUnit, currency } = settings
  const [away, ...others] = [
    ...sent.filter(({ closedOn }) => closedOn === null),
    ...sent.filter(({ closedOn }) => closedOn !== null),
  ]
  const facts = [
    { label: 'Finishing', value: finishing },
    {
      label: away?.closedOn === null ? 'Now with' : 'Was with',
      value: away && (
        <>
          <Link href={`/loans/${away.loanId}`}>{away.place.label}</Link>, {away.place.kind}: {sentWords(away, currency)}
        </>
      ),
    },
    ...others.map((one, at) => ({
      label: at === 0 ? 'Before that' : `Before that (${at + 1})`,
      value: (
        <>
          <Link href={`/loans/${one.loanId}`}>{one.place.label}</Link>: {sentWords(one, currency)}
        </>
      ),
    })),
    { label: 'Frame', value: frameWords(frame, lengthUnit) ?? 'not known: neither measured nor to be reckoned' },
    {
      label: 'Board to lace it on',
      value: !frame.measured && frame.reckoned && `${formatClothSize(frame.reckoned.board, lengthUnit)}, by the sum`,
    },
    { label: 'Who has it', value: forWhom },
  ].filter(({ value }) => value)
  return (
    <Section title="Frame and finisher" id="frame">
      <Facts items={facts} isStacked />
      <Unfold label="Say the frame’s size and other costs">
        <Form
          action={setFrameAction}
          hidden={{ projectId: record.id, version: String(record.version) }}
          submit="Keep these"
          submitKind="plain"
          label="Frame and other costs"
        >
          <FieldRow>
            <TextField
              name="frame"
              label="Frame, outside"
              hint="Width x height, as measured; blank where there is none"
              defaultValue={frame.measured ? formatClothSize(frame.measured, lengthUnit) : ''}
              width="half"
              maxLength={60}
            />
            <NumberField
              name="otherCost"
              label="Other costs"
              unit={currency}
              hint="Beside thread, cloth, chart and what a framer or finisher was paid: a ready-made frame, beads, post"
              defaultValue={otherCostMinor === null ? '' : formatPrice(otherCostMinor, null)}
            />
          </FieldRow>
        </Form>
      </Unfold>
    </Section>
  )
}

function ColoursSection({ record: { colours, cloth, cost }, settings }: PartProps) {
  if (colours.length === 0 && cloth.length === 0) return null
  const { threadUnit, lengthUnit } = settings
  const total = colours.reduce((sum, { thread, strandTenths }) => sum + strandTenths / thread.strands, 0)
  return (
    <Section
      title="Colours really used"
      id="colours"
      note={colours.length > 0 && `${counted(colours.length, 'colour')}, ${threadLength(total, 1, threadUnit)} of thread`}
    >
      {colours.length > 0 && (
        <div className={s.column}>
          <Ledger
            caption="Colours really used, the most first"
            isTight
            rows={colours}
            rowKey={({ thread }) => thread.id}
            columns={[
              {
                key: 'thread',
                head: 'Thread',
                phone: 'lead',
                cell: ({ thread }) => <ThreadCell thread={thread} />,
              },
              {
                key: 'how',
                head: 'Known by',
                phone: 'line',
                cell: ({ how }) => (how ? usedHowWords[how] : 'as it was put down'),
              },
              {
                key: 'length',
                head: 'Used',
                isNumeric: true,
                phone: 'side',
                cell: ({ thread, strandTenths }) => threadLength(strandTenths, thread.strands, threadUnit),
              },
            ]}
          />
        </div>
      )}
      {cost.lines.map((line) => {
        const piece = line.kind === 'cloth' && cloth.find(({ id }) => id === line.pieceId)
        return (
          piece && (
            <p key={piece.id} className={s.cloth}>
              Cloth:{' '}
              <Link href={`/cloth/${piece.id}`}>{[piece.label, piece.name, piece.colourName].filter(Boolean).join(', ')}</Link>,{' '}
              {areaWords(line.usedUm2, lengthUnit)} of it.
            </p>
          )
        )
      })}
    </Section>
  )
}

function CostSection({ record, settings }: PartProps) {
  const { cost } = record
  const { currency } = settings
  const left = uncounted(record)
  return (
    <Section title="What it cost" id="cost">
      <p>
        {cost.unknown === cost.lines.length ? (
          'Nothing that went into it has a price on record.'
        ) : (
          <>
            <b>{priceWords(cost.totalMinor, currency)}</b>
            {cost.unknown > 0 && `, without ${counted(cost.unknown, 'thing')} nobody has priced`}.
          </>
        )}
        {left.length > 0 && ` Nobody put down how much of ${listed(left)} was used.`}
      </p>
      <Unfold label="How this is reckoned">
        <Sums>
          <Sum
            title={record.title}
            rows={[
              ...cost.lines.map((line) => ({
                ...costWords(line, record, settings),
                figure: line.costMinor === null ? 'not known' : priceWords(line.costMinor, currency),
              })),
              { label: 'Together', figure: priceWords(cost.totalMinor, currency), kind: 'end' as const },
            ]}
            note="A put-up costs what its line says today. Needles, hoops and hours are not in it."
          />
        </Sums>
      </Unfold>
    </Section>
  )
}
