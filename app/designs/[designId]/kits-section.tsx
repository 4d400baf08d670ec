import { numberText } from '#language/figures'
import { formatClothSize } from '#language/lengths'
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
import { counted, threadLength } from '#words/amounts'
import { midSentence } from '#words/capital'
import { hexesOf } from '#words/colour'
import { cutPlanHref } from '#words/cut-plan-href'
import { kitsClothWords } from '#words/yardage'
import s from './design.module.css'
import { KitSum } from './kit-sum'
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
    if (!thread) return 'a thread that was removed'
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
      title="Kits"
      id="kits"
      note="From what is free, by thread. A cut has no join, so what is left of a put-up too short for another cut is not counted on."
    >
      {kits.threads.length === 0 ? (
        <Empty>Once its thread list is in, the kits that can be made of it are counted here.</Empty>
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
                Start {numberWords(kits)}
              </LinkButton>
            </ButtonRow>
          )}
          {list?.isIncomplete && <p>Part of the key is not in yet; this counts what is.</p>}
          <FormStrip
            action={`/designs/${designId}`}
            label="How many kits"
            summary={isAsked ? `${numberWords(kits)}, ${list?.name ?? ''}` : 'Say how many kits are to be made'}
            hidden={hidden}
            second={
              <>
                <StripStep name="kits" label="Kits" unit="to make" value={asked.kits} min={1} max={mostKits} none="?" />
                {isAsked && (
                  <StripStep
                    name="spares"
                    label="Spares"
                    unit={asked.spares === null ? 'proposed: one to each dozen' : 'beside them'}
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
                ? { href: `/designs/${designId}?${new URLSearchParams({ ...hidden, list: listId })}`, label: 'Leave the number' }
                : undefined
            }
          >
            <StripSelect
              name="list"
              label="Thread list"
              value={listId}
              options={coverage.lists.map((covered) => ({ value: covered.list.id, label: covered.list.name }))}
            />
          </FormStrip>
          {isAsked && <KitTable kits={kits} answers={answers} unit={unit} />}
          {isAsked && (
            <div className={s.kitNotes}>
              <div>
                <h3>Are all {numberText(wanted)} from one lot?</h3>
                <p>
                  <b>{lots.answer}</b>
                </p>
                <Notes notes={lots.notes} />
              </div>
              <div>
                <h3>
                  Cloth for {numberText(wanted)}
                  {cut && `, each ${formatClothSize(cut, lengthUnit)}`}
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
                          Plan the cuts
                        </LinkButton>
                      )}
                      <LinkButton
                        href={`/cloth/yardage?${new URLSearchParams({ design: designId, kits: String(kits.asked), spares: String(kits.spares) })}`}
                      >
                        How much off the bolt
                      </LinkButton>
                    </ButtonRow>
                  </div>
                )}
              </div>
              <div>
                <h3>Besides thread and cloth</h3>
                <Notes
                  notes={[
                    ...chartWords(kits),
                    ...(kits.beadsPerKit > 0
                      ? [`${counted(wanted * kits.beadsPerKit, 'bead')}, ${numberText(kits.beadsPerKit)} in each kit.`]
                      : []),
                  ]}
                />
              </div>
            </div>
          )}
          {batches.length > 0 && (
            <div className={s.gap}>
              <h3>Kits under way</h3>
              <ul>
                {batches.map((batch) => (
                  <li key={batch.projectId}>
                    <Link href={`/projects/${batch.projectId}/kit`}>
                      {counted(batch.quantity, 'kit')}
                      {batch.forWhom && ` for ${batch.forWhom}`}
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
      caption={`Threads for ${numberWords(kits)}`}
      rows={kits.threads}
      rowKey={({ threadId }) => threadId}
      columns={[
        {
          key: 'thread',
          head: 'Thread',
          phone: 'lead',
          cell: ({ threadId, line }) => {
            const thread = answers.world.threads.get(threadId)
            return (
              <ThreadName
                maker={line.makerName}
                code={thread?.code ?? 'removed thread'}
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
          head: 'Cut for one kit',
          isNumeric: true,
          phone: 'labelled',
          cell: (thread) => length(thread.perKitStrandTenths, thread),
        },
        {
          key: 'cuts',
          head: `Cuts in one ${word}`,
          isNumeric: true,
          phone: 'labelled',
          cell: ({ cutsPerPutUp, perKitStrandTenths, line }) =>
            cutsPerPutUp > 0
              ? numberText(cutsPerPutUp)
              : `${counted(Math.ceil(perKitStrandTenths / line.putUpStrandTenths), line.putUpWord)} a kit`,
        },
        {
          key: 'all',
          head: `For ${numberText(wanted)}`,
          isNumeric: true,
          phone: 'labelled',
          cell: ({ putUpsForAll, line }) => counted(putUpsForAll, line.putUpWord),
        },
        {
          key: 'free',
          head: 'Free now',
          isNumeric: true,
          phone: 'labelled',
          cell: (thread) => (thread.freeStrandTenths === 0 ? 'none' : length(thread.freeStrandTenths, thread)),
        },
        {
          key: 'kits',
          head: 'Kits possible',
          isNumeric: true,
          phone: 'side',
          cell: ({ threadId, kits: possible }) => (
            <UnfoldButton label={`${counted(possible, 'kit')} possible: how it is worked out`}>
              {fewest.has(threadId) ? <b>{counted(possible, 'kit')}</b> : counted(possible, 'kit')}
            </UnfoldButton>
          ),
        },
        ...(hasLots
          ? [
              {
                key: 'lot',
                head: 'Lot',
                phone: 'labelled' as const,
                cell: ({ lot, line, kits: possible }: KitThread) =>
                  line.lotsMatter ? possible === 0 ? 'none' : (lot ?? 'no mark') : <span className="quiet">any</span>,
              },
            ]
          : []),
        {
          key: 'buy',
          head: 'To buy',
          isNumeric: true,
          phone: 'labelled',
          cell: (thread) =>
            thread.toBuyPutUps > 0 ? (
              <b className="do">{toBuyWords(thread, thread.toBuyPutUps)}</b>
            ) : (
              <span className="quiet">nothing</span>
            ),
        },
      ]}
      under={(thread) => <KitSum thread={thread} wanted={wanted} unit={unit} />}
    />
  )
}
