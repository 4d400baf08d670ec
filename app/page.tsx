import type { Metadata } from 'next'
import { cookies } from 'next/headers'
import { z } from 'zod'
import { namesInOrder } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { seenOwners } from '#lib/access/who'
import type { CatalogueFilter } from '#lib/chart/catalogue'
import { clothKindKey } from '#lib/cloth/match-cloth'
import { who } from '#lib/db/access/asking'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { countMissing } from '#lib/db/missing/queries'
import { lookUpLabel } from '#lib/db/place/look-up-label'
import { readToday } from '#lib/db/planning/days/read-today'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'
import { underWayStatuses } from '#lib/project/life-cycle'
import { isOut } from '#lib/stock/batch'
import type { BrokenPromiseNamed } from '#lib/stock/broken-promises'
import { Empty } from '#ui/empty'
import { Link } from '#ui/link'
import { Unfold } from '#ui/unfold'
import { BackupTrouble } from './_backups/backup-trouble'
import { readBackupTrouble } from './_backups/read-trouble'
import s from './_find/find.module.css'
import { FindBox } from './_find/find-box'
import { FirstRun } from './_find/first-run'
import { foundWords, Hits } from './_find/hits'
import { Today } from './_find/today'
import { OldLabels } from './_places/old-labels'
import { slashCookie } from './_ui/slash-key'
import { getViewer } from './_viewer/viewer'
import { OpenWalks } from './_walk/open-walks'
import { counted } from './_words/amounts'
import { clothKindWords } from './_words/cloth-kind'
import { calendarDay } from './_words/date'

// A layout's own page is not put through its template.
export const generateMetadata = (): Metadata => ({ title: { absolute: say('Find · Chart Larder') } })

const shownAtOnce = 40

const querySchema = z.object({
  q: z.string().trim().max(200).catch(''),
  focus: z.string().optional().catch(undefined),
})

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function FindPage({ searchParams }: Props) {
  const { q, focus } = querySchema.parse(await searchParams)
  const [viewer, answers] = await Promise.all([getViewer(), getAnswers()])
  const seesAll = seenOwners(who()) === null
  if (viewer.owners.length === 0) return seesAll ? <FirstRun /> : <NobodysGoods />
  const [broken, missing, today, backups] = await Promise.all([
    listBrokenPromises({ ownerIds: viewer.ownerIds }),
    countMissing(viewer.ownerIds),
    // Whoever looks something up does not wait for it.
    q === '' ? readToday({ ownerIds: viewer.ownerIds, today: calendarDay(new Date()) }) : null,
    readBackupTrouble(),
  ])
  const isSlashOff = (await cookies()).get(slashCookie)?.value === 'off'
  const { world, catalogue } = answers
  const isEmpty = catalogue.size === 0 && world.threads.size === 0 && world.pieces.length === 0 && world.places.size === 0
  const oldLabels = q === '' || q.length > 60 ? null : await lookUpLabel(q)
  const answer = q === '' ? null : answers.search.search(q, { limit: shownAtOnce })
  return (
    <>
      <h1 className="vh">{say('Find')}</h1>
      <FindBox words={q} isFocused={focus !== undefined} opensBest />
      <p className={s.note} role="status">
        <span>
          {answer
            ? foundWords(answer, q)
            : isSlashOff
              ? sayParts('Charts, threads, cloth, notions, places and projects.<span> Press Ctrl+K to go anywhere.</span>', {
                  span: (words) => <span className={s.keys}>{words}</span>,
                })
              : sayParts(
                  'Charts, threads, cloth, notions, places and projects.<span> Press / to come back here, Ctrl+K to go anywhere.</span>',
                  { span: (words) => <span className={s.keys}>{words}</span> },
                )}
        </span>
        <span className={s.ways}>
          {!isEmpty && <Link href="/charts?stitchableNow=1">{say('What can I stitch now?')}</Link>}
          <Link href="/charts/had">{say('Have I bought this before?')}</Link>
          <Link href="/scan">{say('Scan a label')}</Link>
        </span>
      </p>
      {backups.trouble !== null && <BackupTrouble trouble={backups.trouble} />}
      <OpenWalks />
      {isEmpty && seesAll && <FirstRun ownerName={viewer.ownerName} />}
      <div className={s.columns}>
        <div>
          {today && !isEmpty && <Today lines={today} />}
          {oldLabels && <OldLabels lookUp={oldLabels} />}
          {answer && <Hits answer={answer} words={q} answers={answers} ownerIds={viewer.ownerIds} />}
        </div>
        {!isEmpty && (
          <Standing
            answers={answers}
            ownerIds={viewer.ownerIds}
            ownerName={viewer.ownerName}
            broken={broken}
            missing={missing}
            hasCloth={q === ''}
          />
        )}
      </div>
    </>
  )
}

/** For an account that was given no owner to look after. */
function NobodysGoods() {
  return (
    <>
      <h1 className="vh">{say('Find')}</h1>
      <Empty title={say('Nobody’s goods are shown here yet')}>
        {say(
          'A keeper says whose goods each account sees. Ask one to add an owner to yours; until then threads and places can be looked up, and nothing that lies in them.',
        )}
      </Empty>
    </>
  )
}

type StandingProps = {
  answers: Answers
  ownerIds: readonly string[]
  ownerName: string
  broken: readonly BrokenPromiseNamed[]
  /** Open questions where a thing may be. */
  missing: number
  /** Says on which cloth on hand; whoever looks something up does not wait for it. */
  hasCloth: boolean
}

/** The questions asked most, answered before they are asked. */
function Standing({ answers, ownerIds, ownerName, broken, missing, hasCloth }: StandingProps) {
  const { world, catalogue } = answers
  const columns = { threads: answers.coverage(ownerIds).designs, cloth: answers.cloth(ownerIds).columns }
  const ownCharts: CatalogueFilter = { owner: ownerIds }
  const { switches, slots } = catalogue.filter(ownCharts, columns, 'title')
  const isOwn = (thing: { ownerId: string }) => ownerIds.includes(thing.ownerId)
  const now = hasCloth ? catalogue.filter({ ...ownCharts, stitchableNow: true }, columns, 'title') : null
  const byCloth = now ? listByCloth(now.facets.clothCount, world.pieces.filter(isOwn)) : []
  const [firstCloths, otherCloths] = [byCloth.slice(0, clothsAtOnce), byCloth.slice(clothsAtOnce)]
  const outCount = [...world.stock.batches.values()].flat().filter((batch) => isOwn(batch) && isOut(batch)).length
  const underWay = [...world.projects.values()].filter(
    (project) => isOwn(project) && (underWayStatuses as readonly string[]).includes(project.status),
  )
  const short = (switches.shortByAtMost[2] ?? 0) - switches.stitchableNow
  return (
    <aside className={s.side} aria-label={say('How things stand')}>
      <h2>{say('How things stand')}</h2>
      <ul>
        <li>
          <Link href="/charts?stitchableNow=1">
            {say('{stitchableNow, plural, one {# design} other {# designs}} stitchable now', {
              stitchableNow: switches.stitchableNow,
            })}
          </Link>
          <small>{sayParts('of {slots, number}, from the stock of {ownerName}', { slots: slots.length, ownerName })}</small>
          {now && now.switches.clothFits < switches.stitchableNow && (
            <small className={s.fits}>
              <Link href="/charts?stitchableNow=1&clothFits=1">
                {say('{clothFits, number} of them with cloth that fits', { clothFits: now.switches.clothFits })}
              </Link>
            </small>
          )}
          {firstCloths.length > 0 && <Cloths cloths={firstCloths} label={say('Stitchable now, by cloth on hand')} />}
          {otherCloths.length > 0 && (
            <Unfold
              label={say('{otherCloths, plural, one {# other cloth} other {# other cloths}} on hand', {
                otherCloths: otherCloths.length,
              })}
            >
              <Cloths cloths={otherCloths} label={say('Stitchable now, by other cloth on hand')} />
            </Unfold>
          )}
        </li>
        {short > 0 && (
          <li>
            <Link href="/charts?shortByAtMost=2#wanting">
              {say('{short, plural, one {# design} other {# designs}} within two put-ups', { short })}
            </Link>
            <small>{say('little to buy')}</small>
          </li>
        )}
        {broken.length > 0 && (
          <li>
            <Link href={brokenHref(broken)} className="do">
              {say('{broken, plural, one {# promise} other {# promises}} no longer {broken, plural, one {holds} other {hold}}', {
                broken: broken.length,
              })}
            </Link>
            <small>{[...new Set(broken.map(({ project }) => project.title))].slice(0, 3).join(', ')}</small>
          </li>
        )}
        {missing > 0 && (
          <li>
            <Link href="/missing" className="do">
              {say('{missing, plural, one {# thing} other {# things}} missing', { missing })}
            </Link>
            <small>{say('looked for and not there')}</small>
          </li>
        )}
        {underWay.length > 0 && (
          <li>
            <Link href="/projects">
              {say('{underWay, plural, one {# project} other {# projects}} under way', { underWay: underWay.length })}
            </Link>
            <small>
              {underWay
                .slice(0, 3)
                .map(({ designId }) => world.designs.get(designId)?.design.title ?? '')
                .join(', ')}
            </small>
          </li>
        )}
        {outCount > 0 && (
          <li>
            <Link href="/places#out">
              {say('{outCount, plural, one {# batch} other {# batches}} of thread out', { outCount })}
            </Link>
            <small>{say('not in their homes')}</small>
          </li>
        )}
        <li>
          <Link href="/lists">{say('Lists to share')}</Link>
          <small>{say('doubles, wants and the stash, without prices')}</small>
        </li>
      </ul>
    </aside>
  )
}

const Cloths = ({ cloths, label }: { cloths: readonly ClothOnHand[]; label: string }) => (
  <ul className={s.cloths} aria-label={label}>
    {cloths.map(({ kind, count, pieces }) => (
      <li key={kind}>
        <Link href={`/charts?${new URLSearchParams({ stitchableNow: '1', clothCount: kind })}`}>
          {say('{kind}: {count, plural, one {# design} other {# designs}}', { kind: clothKindWords(kind), count })}
        </Link>{' '}
        <small className="nb">{counted(pieces, 'piece')}</small>
      </li>
    ))}
  </ul>
)

/** Shown at once; the others are unfolded. */
const clothsAtOnce = 2
/** Longer, it is a list to look through, and Charts has that. */
const mostCloths = 12

type ClothOnHand = { kind: string; count: number; pieces: number }

/**
 * On which kinds of cloth on hand how many designs can be stitched now, those with the most first. Where as many can be, that of which there
 * are more pieces goes before: one is more likely to like the colour of one.
 */
function listByCloth(designs: ReadonlyMap<string, number>, pieces: Answers['world']['pieces']): ClothOnHand[] {
  const held = new Map<string, number>()
  for (const piece of pieces) held.set(clothKindKey(piece), (held.get(clothKindKey(piece)) ?? 0) + 1)
  const byName = namesInOrder()
  return [...designs]
    .map(([kind, count]) => ({ kind, count, pieces: held.get(kind) ?? 0 }))
    .sort((a, b) => b.count - a.count || b.pieces - a.pieces || byName.compare(clothKindWords(a.kind), clothKindWords(b.kind)))
    .slice(0, mostCloths)
}

/** To the one project that is hit, or to the list that marks them all. */
function brokenHref(broken: readonly BrokenPromiseNamed[]): string {
  const projectIds = new Set(broken.map(({ projectId }) => projectId))
  return projectIds.size === 1 ? `/projects/${[...projectIds][0]}` : '/projects'
}
