import { deltaE00 } from '#lib/colour/convert'
import { chosenThread, type JudgedCandidate } from '#lib/coverage/assign-swaps'
import type { Answers } from '#lib/db/answers/answers'
import type { SwapProject } from '#lib/db/swap/list-swap-projects'
import type { SwapBoard, SwapBoardLine } from '#lib/db/swap/propose-swaps'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { compareExact } from '#lib/stock/batch'
import type { SwapFinding } from '#lib/thread/substitution'
import { ClothLay } from '#trade/cloth-lay'
import { KeySymbol } from '#trade/key-symbol'
import { ThreadName } from '#trade/thread-bar'
import { ButtonRow, LinkButton } from '#ui/button'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Unfold } from '#ui/unfold'
import { counted, threadLength } from '#words/amounts'
import { hexesOf } from '#words/colour'
import { describeAgainst, describeFinding, differenceWords, isWorthALine, ruleWords } from '#words/swaps'
import { acceptForGoodAction, acceptForProjectAction, tryThreadAction } from './actions'
import { addressPairs, type SwapAddress, swapsHref, withMerge, withPick } from './choices'
import s from './swaps.module.css'

type SwapCardProps = {
  designId: string
  address: SwapAddress
  board: SwapBoard
  line: SwapBoardLine
  answers: Answers
  project: SwapProject | null
  nameOf: (threadId: string) => string
  unit: ThreadLengthUnit
}

const chosenWords = {
  assignment: 'proposed',
  hand: 'your choice',
  project: 'chosen for the project',
  'stand-in': 'an accepted stand-in',
} as const

/** One missing thread: what could stand in for it, on the cloth, and why that one and not a nearer. */
export function SwapCard(props: SwapCardProps) {
  const { designId, address, board, line, answers, project, nameOf, unit } = props
  const { charted, chosen, need } = line
  const symbols = board.list.keyLines.flatMap(({ symbol, threads }) =>
    symbol !== null && threads.some(({ threadId }) => threadId === charted.threadId) ? [symbol] : [],
  )
  const isForced = address.picks.has(charted.threadId)
  const neighbours = neighboursOf(board, line)
  return (
    <article className={s.card} aria-label={`In place of ${nameOf(charted.threadId)}`}>
      <div className={s.lay}>
        <ClothLay
          cloth={board.task.cloth}
          original={{ lab: charted.lab, dyeing: charted.line.dyeing }}
          swap={chosen && { lab: chosen.candidate.thread.lab, dyeing: chosen.candidate.thread.line.dyeing }}
          neighbours={neighbours.map(({ lab, line: { dyeing } }) => ({ lab, dyeing }))}
          label={
            chosen
              ? `${nameOf(charted.threadId)} above, ${nameOf(chosen.candidate.thread.threadId)} below it, on the cloth`
              : `${nameOf(charted.threadId)} on the cloth, nothing beside it`
          }
        />
        {neighbours.length > 0 && (
          <p className={s.beside}>Beside them: {neighbours.map(({ threadId }) => codeOf(answers, threadId)).join(', ')}</p>
        )}
      </div>
      <div className={s.words}>
        <div className={s.pair}>
          <p>
            <span className={s.role}>Charted</span>
            {[...new Set(symbols)].map((symbol) => (
              <KeySymbol key={symbol} symbol={symbol} />
            ))}
            <Named answers={answers} threadId={charted.threadId} />{' '}
            <span className="nb quiet">needs {threadLength(need.strandTenths, charted.line.strands, unit)}</span>
          </p>
          {chosen ? (
            <p>
              <span className={s.role}>Swap</span>
              <Named answers={answers} threadId={chosen.candidate.thread.threadId} />{' '}
              <span>
                <b>{differenceWords(chosen.verdict)}</b>
                {line.chosenBy && <span className="quiet"> ({chosenWords[line.chosenBy]})</span>}
              </span>
            </p>
          ) : (
            <p>
              <span className={s.role}>Swap</span>
              <b className="do">{line.isBought ? 'None wanted: to buy' : 'None that keeps every rule: to buy'}</b>
            </p>
          )}
        </div>
        <div className={s.folds}>
          {chosen && <Findings {...props} findings={chosen.verdict.findings} strands={chosen.candidate.thread.line.strands} />}
          <Opinions {...props} />
          {line.nearer.length > 0 && (
            <Unfold
              label={
                chosen
                  ? `${counted(line.nearer.length, 'nearer thread')} not taken`
                  : `${counted(line.nearer.length, 'near thread')}, none taken`
              }
            >
              <ul className={s.candidates}>
                {line.nearer.map((candidate) => (
                  <Candidate key={candidate.candidate.thread.threadId} {...props} judged={candidate} />
                ))}
              </ul>
            </Unfold>
          )}
          {line.others.length > 0 && (
            <Unfold label={`${counted(line.others.length, 'other')} that would do`}>
              <ul className={s.candidates}>
                {line.others.map((candidate) => (
                  <Candidate key={candidate.candidate.thread.threadId} {...props} judged={candidate} />
                ))}
              </ul>
            </Unfold>
          )}
        </div>
        <div className={s.acts}>
          {chosen && project && line.chosenBy !== 'project' && (
            <Unfold label="Work this project in it">
              <Form
                label={`Work the project in ${nameOf(chosen.candidate.thread.threadId)}`}
                action={acceptForProjectAction}
                submit="Keep it with the project"
                hidden={{
                  projectId: project.id,
                  version: String(project.version),
                  threadId: charted.threadId,
                  standInThreadId: chosen.candidate.thread.threadId,
                  ...(chosen.verdict.findings.some(({ kind }) => kind === 'merged') ? { mayMerge: '1' } : {}),
                }}
              >
                <TextField name="reason" label="Why" hint="Kept with the project: seen by daylight, by whom." maxLength={300} />
              </Form>
            </Unfold>
          )}
          {chosen && line.chosenBy !== 'stand-in' && (
            <Unfold label="Accept it for good">
              <Form
                label={`Accept ${nameOf(chosen.candidate.thread.threadId)} for good`}
                action={acceptForGoodAction}
                submit="Let it stand in from now on"
                hidden={{ threadId: charted.threadId, standInThreadId: chosen.candidate.thread.threadId }}
              >
                <TextField
                  name="source"
                  label="Who says so"
                  hint="It then counts in every design that uses the charted thread."
                  maxLength={200}
                />
              </Form>
            </Unfold>
          )}
          <Unfold label="Try another thread">
            <Form
              label={`Try another thread in place of ${nameOf(charted.threadId)}`}
              action={tryThreadAction}
              submit="Judge it"
              submitKind="plain"
              hidden={{
                designId,
                threadId: charted.threadId,
                address: new URLSearchParams(addressPairs(address)).toString(),
              }}
            >
              <TextField name="standIn" label="Thread" hint="Maker and exact code, such as Larkholm 0017." isRequired />
            </Form>
          </Unfold>
          <ButtonRow>
            {isForced && (
              <LinkButton kind="quiet" href={swapsHref(designId, withPick(address, charted.threadId, undefined))} scroll={false}>
                Leave it to the proposal
              </LinkButton>
            )}
            {project && line.chosenBy === 'project' && (
              <LinkButton kind="quiet" href={`/projects/${project.id}`}>
                Take it back on the project’s page
              </LinkButton>
            )}
            {!line.isBought && (
              <LinkButton kind="quiet" href={swapsHref(designId, withPick(address, charted.threadId, null))} scroll={false}>
                Buy the charted one
              </LinkButton>
            )}
            <LinkButton kind="quiet" href={`/threads/${charted.threadId}/swaps`}>
              Search for this thread alone
            </LinkButton>
          </ButtonRow>
        </div>
      </div>
    </article>
  )
}

/** What to look at and what speaks against it, in sight; the rules it keeps folded under them. */
function Findings(props: SwapCardProps & { findings: readonly SwapFinding[]; strands: number }) {
  const { board, findings, strands, nameOf, unit } = props
  const said = findings.filter((finding) => isWorthALine(finding, board.task.cloth !== null))
  const kept = said.filter(({ weight }) => weight === 'passes')
  const list = (some: readonly SwapFinding[]) => (
    <ul className={s.findings}>
      {some.map((finding) => (
        <Finding
          key={`${finding.rule} ${finding.kind} ${'chartedThreadId' in finding ? finding.chartedThreadId : ''}`}
          finding={finding}
        >
          {describeFinding(finding, { nameOf, strands, unit })}
          <MergeLink {...props} finding={finding} />
        </Finding>
      ))}
    </ul>
  )
  return (
    <>
      {kept.length < said.length && list(said.filter(({ weight }) => weight !== 'passes'))}
      {kept.length > 0 && <Unfold label={`${counted(kept.length, 'rule')} kept`}>{list(kept)}</Unfold>}
    </>
  )
}

const weightWords = { passes: 'good', flagged: 'look', rejects: 'against' } as const

function Finding({ finding, children }: { finding: SwapFinding; children: React.ReactNode }) {
  return (
    <li data-weight={finding.weight}>
      <svg viewBox="0 0 14 14" width="14" height="14" aria-hidden="true">
        {finding.weight === 'passes' && <path d="M2 7.500l3.200 3.300 6.500-7.500" />}
        {finding.weight === 'flagged' && <path d="M7 1.500v7M7 11v1.800" />}
        {finding.weight === 'rejects' && <path d="M2.500 2.500l9 9M11.500 2.500l-9 9" />}
      </svg>
      <span>
        <span className="vh">
          {ruleWords[finding.rule]}, {weightWords[finding.weight]}:{' '}
        </span>
        {children}
      </span>
    </li>
  )
}

/** Two colours in one thread is only ever a person's choice: the link that makes it. */
function MergeLink({ designId, address, line, finding }: SwapCardProps & { finding: SwapFinding }) {
  if (finding.kind !== 'shared-thread') return null
  const merged = withMerge(address, line.charted.threadId, finding.chartedThreadId)
  return (
    <>
      {' '}
      <Link href={swapsHref(designId, merged)} scroll={false}>
        Work both in one thread
      </Link>
    </>
  )
}

function Opinions({ line, nameOf, answers, designId, address }: SwapCardProps) {
  if (line.opinions.length === 0) return null
  return (
    <ul className={s.opinions}>
      {line.opinions.map(({ sourceName, otherThreadId }) => (
        <li key={`${sourceName} ${otherThreadId}`}>
          {sourceName} says{' '}
          <Link href={swapsHref(designId, withPick(address, line.charted.threadId, otherThreadId))} scroll={false}>
            {nameOf(otherThreadId)}
          </Link>
          {isHeld(answers, otherThreadId) ? '' : ', not held'}: an opinion, not accepted.
        </li>
      ))}
    </ul>
  )
}

const isHeld = ({ world }: Answers, threadId: string): boolean => (world.stock.batches.get(threadId)?.length ?? 0) > 0

function Candidate(props: SwapCardProps & { judged: JudgedCandidate }) {
  const { designId, address, line, answers, nameOf, unit, judged } = props
  const { thread } = judged.candidate
  const rejections = judged.verdict.findings.filter(({ weight }) => weight === 'rejects')
  const against = describeAgainst(judged.verdict, { nameOf, strands: thread.line.strands, unit })
  return (
    <li>
      <Named answers={answers} threadId={thread.threadId} />
      <span>
        {[differenceWords(judged.verdict), ...against].join('. ')}.
        {rejections.map((finding) => (
          <MergeLink
            key={`${finding.rule} ${'chartedThreadId' in finding ? finding.chartedThreadId : ''}`}
            {...props}
            finding={finding}
          />
        ))}{' '}
        <Link href={swapsHref(designId, withPick(address, line.charted.threadId, thread.threadId))} scroll={false}>
          Choose<span className="vh"> {nameOf(thread.threadId)}</span>
        </Link>
      </span>
    </li>
  )
}

export function Named({ answers, threadId }: { answers: Answers; threadId: string }) {
  const thread = answers.world.threads.get(threadId)
  const line = answers.world.lines.get(answers.world.lineOfThread.get(threadId) ?? '')
  return (
    <ThreadName
      maker={line?.makerName ?? ''}
      code={thread?.code ?? 'removed thread'}
      name={thread?.name}
      hexes={hexesOf(thread?.lab ?? null)}
      dye={line?.dyeing === 'solid' ? 'solid' : 'overdyed'}
      href={`/threads/${threadId}`}
    />
  )
}

const codeOf = ({ world }: Answers, threadId: string): string => world.threads.get(threadId)?.code ?? '?'

/** The colours, as chosen, that come nearest to this one's: what it must not be mistaken for. */
function neighboursOf(board: SwapBoard, line: SwapBoardLine) {
  const own = line.chosen?.candidate.thread ?? line.charted
  const colour = board.task.colours.find(({ charted }) => charted.threadId === line.charted.threadId)
  return board.task.colours
    .filter((other) => other !== colour)
    .map((other) => chosenThread(other, board.assignment))
    .flatMap((thread) => (thread.lab && own.lab ? [{ ...thread, deltaE: deltaE00(thread.lab, own.lab) }] : []))
    .sort((a, b) => a.deltaE - b.deltaE || compareExact(a.threadId, b.threadId))
    .slice(0, 3)
}
