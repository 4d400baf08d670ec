import { numberText } from '#language/figures'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { sparesFor } from '#lib/coverage/kit-count'
import type { Answers } from '#lib/db/answers/answers'
import type { DesignCoverage } from '#lib/db/coverage/design-coverage'
import type { DesignKits, KitBatch, KitThread } from '#lib/db/coverage/design-kits'
import type { Settings } from '#lib/settings/settings'
import { hoopWords } from '#trade/hoop'
import { ThreadName } from '#trade/thread-bar'
import { ButtonRow, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripSelect, StripStep } from '#ui/form-strip'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { UnfoldButton } from '#ui/unfold'
import { counted, singular, threadLength } from '#words/amounts'
import { midSentence } from '#words/capital'
import { hexesOf } from '#words/colour'
import { cutPlanHref } from '#words/cut-plan-href'
import { kitsClothWords } from '#words/yardage'
import { KitSum } from '../../_things/kit-sum'
import s from './design.module.css'
import {
  batchLotWords,
  boughtWords,
  chartWords,
  kitsAnswer,
  numberWords,
  oneLotWords,
  putUpWordOf,
  toBuyWords,
} from './kit-words'

/** More than any shop bags at once. */
export const mostKits = 9_999

type KitsSectionProps = {
  answers: Answers
  coverage: DesignCoverage
  kits: DesignKits
  batches: readonly KitBatch[]
  /** What the page is asked, to be kept when the number changes. */
  choices: { list: string; piece?: string | undefined; over?: string | undefined }
  asked: { kits: number | null; spares: number | null }
  designId: string
  cut: { widthUm: number; heightUm: number } | null
  settings: Settings
}

/** How many kits can be made, what stops the next one, and what so many take. */
export function KitsSection({ answers, coverage, kits, batches, choices, asked, designId, cut, settings }: KitsSectionProps) {
  const { threadUnit: unit, lengthUnit } = settings
  const nameOf = (threadId: string) => {
    const thread = answers.world.threads.get(threadId)
    if (!thread) return say('a thread that was removed')
    // A code alone is enough of a name unless another of the list's makers has it too, or it might be read as a count.
    const needsMaker =
      thread.code.length < 3 ||
      kits.threads.some((other) => other.threadId !== threadId && answers.world.threads.get(other.threadId)?.code === thread.code)
    const line = answers.world.lines.get(thread.lineId)
    return needsMaker && line ? `${line.makerName} ${thread.code}` : thread.code
  }
  const wanted = kits.asked + kits.spares
  const { answer, stops } = kitsAnswer(kits, nameOf)
  const lots = oneLotWords(kits, nameOf)
  const isAsked = asked.kits !== null
  const { list: listId, ...others } = choices
  const hidden = Object.fromEntries(Object.entries(others).filter((entry): entry is [string, string] => entry[1] !== undefined))
  const list = coverage.lists.find((covered) => covered.list.id === listId)?.list
  return (
    <Section
      title={say('Kits')}
      id="kits"
      note={say(
        'From what is free, by thread. A cut has no join, so what is left of a put-up too short for another cut is not counted on.',
      )}
    >
      {kits.threads.length === 0 ? (
        <Empty>{say('Once its thread list is in, the kits that can be made of it are counted here.')}</Empty>
      ) : (
        <>
          <p className={s.big}>
            <b>{answer}</b> {stops}
          </p>
          {isAsked && <p>{boughtWords(kits)}</p>}
          {isAsked && (
            <ButtonRow>
              <LinkButton
                href={`/projects/new?${new URLSearchParams({ design: designId, list: listId, kits: String(kits.asked), spares: String(kits.spares) })}`}
              >
                {say('Start {number}', { number: numberWords(kits) })}
              </LinkButton>
            </ButtonRow>
          )}
          {list?.isIncomplete && <p>{say('Part of the key is not in yet; this counts what is.')}</p>}
          <FormStrip
            action={`/designs/${designId}`}
            label={say('How many kits')}
            summary={isAsked ? `${numberWords(kits)}, ${list?.name ?? ''}` : say('Say how many kits are to be made')}
            hidden={hidden}
            second={
              <>
                <StripStep
                  name="kits"
                  label={say('Kits')}
                  unit={say('to make')}
                  value={asked.kits}
                  min={1}
                  max={mostKits}
                  none="?"
                />
                {isAsked && (
                  <StripStep
                    name="spares"
                    label={say('Spares')}
                    unit={asked.spares === null ? say('proposed: one to each dozen') : say('beside them')}
                    value={asked.spares}
                    min={0}
                    max={mostKits}
                    none={String(sparesFor(kits.asked))}
                  />
                )}
              </>
            }
            clear={
              isAsked
                ? {
                    href: `/designs/${designId}?${new URLSearchParams({ ...hidden, list: listId })}`,
                    label: say('Leave the number'),
                  }
                : undefined
            }
          >
            <StripSelect
              name="list"
              label={say('Thread list')}
              value={listId}
              options={coverage.lists.map((covered) => ({ value: covered.list.id, label: covered.list.name }))}
            />
          </FormStrip>
          {isAsked && <KitTable kits={kits} answers={answers} unit={unit} />}
          {isAsked && (
            <div className={s.kitNotes}>
              <div>
                <h3>{say('Are all {wanted, number} from one lot?', { wanted })}</h3>
                <p>
                  <b>{lots.answer}</b>
                </p>
                <Notes notes={lots.notes} />
              </div>
              <div>
                <h3>
                  {sayParts('Cloth for {wanted, number}{rest}', {
                    wanted,
                    rest: cut && say(', each {cut}', { cut: formatClothSize(cut, lengthUnit) }),
                  })}
                </h3>
                <Notes notes={kitsClothWords(kits.cloth, lengthUnit)} />
                {kits.cloth.kind === 'cloth' && (
                  <div className={s.gap}>
                    <ButtonRow>
                      {kits.cloth.plan.onHand > 0 && (
                        <LinkButton
                          href={cutPlanHref(
                            [{ id: designId, copies: kits.cloth.plan.onHand }],
                            kits.cloth.plan.from.map(({ pieceId }) => pieceId),
                          )}
                        >
                          {say('Plan the cuts')}
                        </LinkButton>
                      )}
                      <LinkButton
                        href={`/cloth/yardage?${new URLSearchParams({ design: designId, kits: String(kits.asked), spares: String(kits.spares) })}`}
                      >
                        {say('How much off the bolt')}
                      </LinkButton>
                    </ButtonRow>
                  </div>
                )}
              </div>
              <div>
                <h3>{say('Besides thread and cloth')}</h3>
                <Notes
                  notes={[
                    ...chartWords(kits),
                    ...(kits.beadsPerKit > 0
                      ? [
                          say('{wanted, plural, one {# bead} other {# beads}}, {beadsPerKit, number} in each kit.', {
                            wanted: wanted * kits.beadsPerKit,
                            beadsPerKit: kits.beadsPerKit,
                          }),
                        ]
                      : []),
                  ]}
                />
              </div>
            </div>
          )}
          {batches.length > 0 && (
            <div className={s.gap}>
              <h3>{say('Kits under way')}</h3>
              <ul>
                {batches.map((batch) => (
                  <li key={batch.projectId}>
                    <Link href={`/projects/${batch.projectId}/kit`}>
                      {counted(batch.quantity, 'kit')}
                      {batch.forWhom && say(' for {forWhom}', { forWhom: batch.forWhom })}
                    </Link>
                    , {midSentence(hoopWords[batch.status])}: {batchLotWords(batch, nameOf)}.
                  </li>
                ))}
              </ul>
            </div>
          )}
        </>
      )}
    </Section>
  )
}

const Notes = ({ notes }: { notes: readonly string[] }) => (
  <ul>
    {notes.map((note) => (
      <li key={note}>{note}</li>
    ))}
  </ul>
)

function KitTable({ kits, answers, unit }: { kits: DesignKits; answers: Answers; unit: Settings['threadUnit'] }) {
  const wanted = kits.asked + kits.spares
  const length = (strandTenths: number, { line }: KitThread) => threadLength(strandTenths, line.strands, unit)
  const fewest = new Set(kits.stops.map(({ thread }) => thread.threadId))
  const hasLots = kits.threads.some(({ line }) => line.lotsMatter)
  const word = putUpWordOf(kits.threads)
  return (
    <Ledger
      caption={say('Threads for {number}', { number: numberWords(kits) })}
      rows={kits.threads}
      rowKey={({ threadId }) => threadId}
      columns={[
        {
          key: 'thread',
          head: say('Thread'),
          phone: 'lead',
          cell: ({ threadId, line }) => {
            const thread = answers.world.threads.get(threadId)
            return (
              <ThreadName
                maker={line.makerName}
                code={thread?.code ?? say('removed thread')}
                name={thread?.name ?? undefined}
                note={line.name === '' ? undefined : line.name}
                hexes={hexesOf(thread?.lab ?? null)}
                dye={line.dyeing === 'solid' ? 'solid' : 'overdyed'}
                href={`/threads/${threadId}`}
              />
            )
          },
        },
        {
          key: 'cut',
          head: say('Cut for one kit'),
          isNumeric: true,
          phone: 'labelled',
          cell: (thread) => length(thread.perKitStrandTenths, thread),
        },
        {
          key: 'cuts',
          head: say('Cuts in one {word}', { word: singular(word) }),
          isNumeric: true,
          phone: 'labelled',
          cell: ({ cutsPerPutUp, perKitStrandTenths, line }) =>
            cutsPerPutUp > 0
              ? numberText(cutsPerPutUp)
              : say('{counted} a kit', {
                  counted: counted(Math.ceil(perKitStrandTenths / line.putUpStrandTenths), line.putUpWord),
                }),
        },
        {
          key: 'all',
          head: say('For {wanted, number}', { wanted }),
          isNumeric: true,
          phone: 'labelled',
          cell: ({ putUpsForAll, line }) => counted(putUpsForAll, line.putUpWord),
        },
        {
          key: 'free',
          head: say('Free now'),
          isNumeric: true,
          phone: 'labelled',
          cell: (thread) => (thread.freeStrandTenths === 0 ? say('none') : length(thread.freeStrandTenths, thread)),
        },
        {
          key: 'kits',
          head: say('Kits possible'),
          isNumeric: true,
          phone: 'side',
          cell: ({ threadId, kits: possible }) => (
            <UnfoldButton
              label={say('{possible, plural, one {# kit} other {# kits}} possible: how it is worked out', { possible })}
            >
              {fewest.has(threadId) ? <b>{counted(possible, 'kit')}</b> : counted(possible, 'kit')}
            </UnfoldButton>
          ),
        },
        ...(hasLots
          ? [
              {
                key: 'lot',
                head: say('Lot'),
                phone: 'labelled' as const,
                cell: ({ lot, line, kits: possible }: KitThread) =>
                  line.lotsMatter ? (
                    possible === 0 ? (
                      say('none')
                    ) : (
                      (lot ?? say('no mark'))
                    )
                  ) : (
                    <span className="quiet">{say('any')}</span>
                  ),
              },
            ]
          : []),
        {
          key: 'buy',
          head: say('To buy'),
          isNumeric: true,
          phone: 'labelled',
          cell: (thread) =>
            thread.toBuyPutUps > 0 ? (
              <b className="do">{toBuyWords(thread, thread.toBuyPutUps)}</b>
            ) : (
              <span className="quiet">{say('nothing')}</span>
            ),
        },
      ]}
      under={(thread) => <KitSum thread={thread} wanted={wanted} unit={unit} />}
    />
  )
}
