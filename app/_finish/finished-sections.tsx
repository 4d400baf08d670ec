import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type FinishRecord, findFinish } from '#lib/db/finish/read-finishes'
import type { LengthUnit } from '#lib/quantity/cloth-length'
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
import { listed, threadLength } from '#words/amounts'
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
    { label: say('Finishing'), value: finishing },
    {
      label: away?.closedOn === null ? say('Now with') : say('Was with'),
      value: away && (
        <>
          <Link href={`/loans/${away.loanId}`}>{away.place.label}</Link>, {away.place.kind}: {sentWords(away, currency)}
        </>
      ),
    },
    ...others.map((one, at) => ({
      label: at === 0 ? say('Before that') : say('Before that ({at})', { at: at + 1 }),
      value: (
        <>
          <Link href={`/loans/${one.loanId}`}>{one.place.label}</Link>: {sentWords(one, currency)}
        </>
      ),
    })),
    { label: say('Frame'), value: frameWords(frame, lengthUnit) ?? say('not known: neither measured nor to be reckoned') },
    {
      label: say('Board to lace it on'),
      value:
        !frame.measured &&
        frame.reckoned &&
        say('{board}, by the sum', { board: formatClothSize(frame.reckoned.board, lengthUnit) }),
    },
    { label: say('Who has it'), value: forWhom },
  ].filter(({ value }) => value)
  return (
    <Section title={say('Frame and finisher')} id="frame">
      <Facts items={facts} isStacked />
      {!frame.measured && frame.reckoned && (
        <Unfold label={say('How the frame comes about')}>
          <FrameSums reckoned={frame.reckoned} unit={lengthUnit} />
        </Unfold>
      )}
      <Unfold label={say('Say the frame’s size and other costs')}>
        <Form
          action={setFrameAction}
          hidden={{ projectId: record.id, version: String(record.version) }}
          submit={say('Keep these')}
          submitKind="plain"
          label={say('Frame and other costs')}
        >
          <FieldRow>
            <TextField
              name="frame"
              label={say('Frame, outside')}
              hint={say('Width x height, as measured; blank where there is none')}
              defaultValue={frame.measured ? formatClothSize(frame.measured, lengthUnit) : ''}
              width="half"
              maxLength={60}
            />
            <NumberField
              name="otherCost"
              label={say('Other costs')}
              unit={currency}
              hint={say('Beside thread, cloth, chart and what a framer or finisher was paid: a ready-made frame, beads, post')}
              defaultValue={otherCostMinor === null ? '' : formatPrice(otherCostMinor, null)}
            />
          </FieldRow>
        </Form>
      </Unfold>
    </Section>
  )
}

type FrameSumsProps = { reckoned: NonNullable<FinishRecord['frame']['reckoned']>; unit: LengthUnit }

/** What is seen in the frame and the board behind it, both ways. */
function FrameSums({ reckoned: { stitched, framing, opening, board }, unit }: FrameSumsProps) {
  const length = (um: number) => formatClothLength(um, unit)
  const side = (title: string, stitches: number, [stitchedUm, openingUm, boardUm]: readonly [number, number, number]) => (
    <Sum
      title={title}
      rows={[
        {
          label: say('Stitched'),
          how: say('{stitches, plural, one {# stitch} other {# stitches}} on its cloth', { stitches }),
          figure: length(stitchedUm),
        },
        { label: say('Plain cloth seen'), how: `2 × ${length(framing.seenUm)}`, figure: length(2 * framing.seenUm) },
        { label: say('Opening'), figure: length(openingUm), kind: 'rule' },
        { label: say('Under the rabbet'), how: `2 × ${length(framing.rabbetUm)}`, figure: length(2 * framing.rabbetUm) },
        { label: say('Board'), figure: length(boardUm), kind: 'end' },
      ]}
    />
  )
  return (
    <Sums>
      {side(say('Width'), stitched.width, [stitched.widthUm, opening.widthUm, board.widthUm])}
      {side(say('Height'), stitched.height, [stitched.heightUm, opening.heightUm, board.heightUm])}
    </Sums>
  )
}

function ColoursSection({ record: { colours, cloth, cost }, settings }: PartProps) {
  if (colours.length === 0 && cloth.length === 0) return null
  const { threadUnit, lengthUnit } = settings
  const total = colours.reduce((sum, { thread, strandTenths }) => sum + strandTenths / thread.strands, 0)
  return (
    <Section
      title={say('Colours really used')}
      id="colours"
      note={
        colours.length > 0 &&
        say('{colours, plural, one {# colour} other {# colours}}, {threadLength} of thread', {
          colours: colours.length,
          threadLength: threadLength(total, 1, threadUnit),
        })
      }
    >
      {colours.length > 0 && (
        <div className={s.column}>
          <Ledger
            caption={say('Colours really used, the most first')}
            isTight
            rows={colours}
            rowKey={({ thread }) => thread.id}
            columns={[
              {
                key: 'thread',
                head: say('Thread'),
                phone: 'lead',
                cell: ({ thread }) => <ThreadCell thread={thread} />,
              },
              {
                key: 'how',
                head: say('Known by'),
                phone: 'line',
                cell: ({ how }) => (how ? usedHowWords[how] : say('as it was put down')),
              },
              {
                key: 'length',
                head: say('Used'),
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
              {sayParts('Cloth: {what}, {area} of it.', {
                what: (
                  <Link href={`/cloth/${piece.id}`}>
                    {[piece.label, piece.name, piece.colourName].filter(Boolean).join(', ')}
                  </Link>
                ),
                area: areaWords(line.usedUm2, lengthUnit),
              })}
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
    <Section title={say('What it cost')} id="cost">
      <p>
        {cost.unknown === cost.lines.length ? (
          say('Nothing that went into it has a price on record.')
        ) : (
          <>
            <b>{priceWords(cost.totalMinor, currency)}</b>
            {cost.unknown > 0 &&
              say(', without {unknown, plural, one {# thing} other {# things}} nobody has priced', { unknown: cost.unknown })}
            .
          </>
        )}
        {left.length > 0 && say(' Nobody put down how much of {left} was used.', { left: listed(left) })}
      </p>
      <Unfold label={say('How this is reckoned')}>
        <Sums>
          <Sum
            title={record.title}
            rows={[
              ...cost.lines.map((line) => ({
                ...costWords(line, record, settings),
                figure: line.costMinor === null ? say('not known') : priceWords(line.costMinor, currency),
              })),
              { label: say('Together'), figure: priceWords(cost.totalMinor, currency), kind: 'end' as const },
            ]}
            note={say('A put-up costs what its line says today. Needles, hoops and hours are not in it.')}
          />
        </Sums>
      </Unfold>
    </Section>
  )
}
