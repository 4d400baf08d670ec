import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
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
import { threadLength } from '#words/amounts'
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

const chosenWords = sayings({
  assignment: 'proposed',
  hand: 'your choice',
  project: 'chosen for the project',
  'stand-in': 'an accepted stand-in',
})

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
    <article className={s.card} aria-label={say('In place of {nameOf}', { nameOf: nameOf(charted.threadId) })}>
      <div className={s.lay}>
        <ClothLay
          cloth={board.task.cloth}
          original={{ lab: charted.lab, dyeing: charted.line.dyeing }}
          swap={chosen && { lab: chosen.candidate.thread.lab, dyeing: chosen.candidate.thread.line.dyeing }}
          neighbours={neighbours.map(({ lab, line: { dyeing } }) => ({ lab, dyeing }))}
          label={
            chosen
              ? say('{nameOf} above, {nameOf2} below it, on the cloth', {
                  nameOf: nameOf(charted.threadId),
                  nameOf2: nameOf(chosen.candidate.thread.threadId),
                })
              : say('{nameOf} on the cloth, nothing beside it', { nameOf: nameOf(charted.threadId) })
          }
        />
        {neighbours.length > 0 && (
          <p className={s.beside}>
            {say('Beside them: {neighbours}', {
              neighbours: neighbours.map(({ threadId }) => codeOf(answers, threadId)).join(', '),
            })}
          </p>
        )}
      </div>
      <div className={s.words}>
        <div className={s.pair}>
          <p>
            <span className={s.role}>{say('Charted')}</span>
            {[...new Set(symbols)].map((symbol) => (
              <KeySymbol key={symbol} symbol={symbol} />
            ))}
            <Named answers={answers} threadId={charted.threadId} />{' '}
            <span className="nb quiet">
              {say('needs {threadLength}', { threadLength: threadLength(need.strandTenths, charted.line.strands, unit) })}
            </span>
          </p>
          {chosen ? (
            <p>
              <span className={s.role}>{say('Swap')}</span>
              <Named answers={answers} threadId={chosen.candidate.thread.threadId} />{' '}
              <span>
                <b>{differenceWords(chosen.verdict)}</b>
                {line.chosenBy && <span className="quiet"> ({chosenWords[line.chosenBy]})</span>}
              </span>
            </p>
          ) : (
            <p>
              <span className={s.role}>{say('Swap')}</span>
              <b className="do">{line.isBought ? say('None wanted: to buy') : say('None that keeps every rule: to buy')}</b>
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
                  ? say('{nearer, plural, one {# nearer thread} other {# nearer threads}} not taken', {
                      nearer: line.nearer.length,
                    })
                  : say('{nearer, plural, one {# near thread} other {# near threads}}, none taken', {
                      nearer: line.nearer.length,
                    })
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
            <Unfold label={say('{others, plural, one {# other} other {# others}} that would do', { others: line.others.length })}>
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
            <Unfold label={say('Work this project in it')}>
              <Form
                label={say('Work the project in {nameOf}', { nameOf: nameOf(chosen.candidate.thread.threadId) })}
                action={acceptForProjectAction}
                submit={say('Keep it with the project')}
                hidden={{
                  projectId: project.id,
                  version: String(project.version),
                  threadId: charted.threadId,
                  standInThreadId: chosen.candidate.thread.threadId,
                  ...(chosen.verdict.findings.some(({ kind }) => kind === 'merged') ? { mayMerge: '1' } : {}),
                }}
              >
                <TextField
                  name="reason"
                  label={say('Why')}
                  hint={say('Kept with the project: seen by daylight, by whom.')}
                  maxLength={300}
                />
              </Form>
            </Unfold>
          )}
          {chosen && line.chosenBy !== 'stand-in' && (
            <Unfold label={say('Accept it for good')}>
              <Form
                label={say('Accept {nameOf} for good', { nameOf: nameOf(chosen.candidate.thread.threadId) })}
                action={acceptForGoodAction}
                submit={say('Let it stand in from now on')}
                hidden={{ threadId: charted.threadId, standInThreadId: chosen.candidate.thread.threadId }}
              >
                <TextField
                  name="source"
                  label={say('Who says so')}
                  hint={say('It then counts in every design that uses the charted thread.')}
                  maxLength={200}
                />
              </Form>
            </Unfold>
          )}
          <Unfold label={say('Try another thread')}>
            <Form
              label={say('Try another thread in place of {nameOf}', { nameOf: nameOf(charted.threadId) })}
              action={tryThreadAction}
              submit={say('Judge it')}
              submitKind="plain"
              hidden={{
                designId,
                threadId: charted.threadId,
                address: new URLSearchParams(addressPairs(address)).toString(),
              }}
            >
              <TextField
                name="standIn"
                label={say('Thread')}
                hint={say('Maker and exact code, such as Larkholm 0017.')}
                isRequired
              />
            </Form>
          </Unfold>
          <ButtonRow>
            {isForced && (
              <LinkButton kind="quiet" href={swapsHref(designId, withPick(address, charted.threadId, undefined))} scroll={false}>
                {say('Leave it to the proposal')}
              </LinkButton>
            )}
            {project && line.chosenBy === 'project' && (
              <LinkButton kind="quiet" href={`/projects/${project.id}`}>
                {say('Take it back on the project’s page')}
              </LinkButton>
            )}
            {!line.isBought && (
              <LinkButton kind="quiet" href={swapsHref(designId, withPick(address, charted.threadId, null))} scroll={false}>
                {say('Buy the charted one')}
              </LinkButton>
            )}
            <LinkButton kind="quiet" href={`/threads/${charted.threadId}/swaps`}>
              {say('Search for this thread alone')}
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
      {kept.length > 0 && (
        <Unfold label={say('{kept, plural, one {# rule} other {# rules}} kept', { kept: kept.length })}>{list(kept)}</Unfold>
      )}
    </>
  )
}

const weightWords = sayings({ passes: 'good', flagged: 'look', rejects: 'against' })

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
        {say('Work both in one thread')}
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
          {sayParts('{sourceName} says {nameOf}{hasIsHeld, select, yes {} other {, not held}}: an opinion, not accepted.', {
            sourceName,
            nameOf: (
              <Link href={swapsHref(designId, withPick(address, line.charted.threadId, otherThreadId))} scroll={false}>
                {nameOf(otherThreadId)}
              </Link>
            ),
            hasIsHeld: Boolean(isHeld(answers, otherThreadId)),
          })}
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
          {sayParts('Choose{nameOf}', { nameOf: <span className="vh"> {nameOf(thread.threadId)}</span> })}
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
      code={thread?.code ?? say('removed thread')}
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
