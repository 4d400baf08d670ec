import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { KitCuttingSeen } from '#lib/db/kit-bag/cut-kits'
import type { KitBags } from '#lib/db/kit-bag/queries'
import type { CutsOfThread } from '#lib/project/kit/cutting'
import { numbersOf } from '#lib/project/kit/record'
import type { Settings } from '#lib/settings/settings'
import { ThreadName } from '#trade/thread-bar'
import { CheckField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { listed, threadLength } from '#words/amounts'
import { hexesOf } from '#words/colour'
import { bagsWords } from '#words/kit'
import { threadName } from '#words/thread'
import { cutAction } from './actions'
import s from './bags.module.css'

type CutSectionProps = { kit: KitBags; cutting: KitCuttingSeen | null; name: string; settings: Settings }

/** What is to be cut now: for each thread which bags from which stock, and which bags would differ. */
export function CutSection({ kit, cutting, name, settings }: CutSectionProps) {
  const { project, master, threads } = kit
  const open = cutting?.threads.filter(({ runs, short }) => runs.length > 0 || short.length > 0) ?? []
  const canCut = open.some(({ runs }) => runs.length > 0)
  const mixed = cutting?.threads.filter(({ isMixed }) => isMixed) ?? []
  const nameOf = (threadId: string) => {
    const tag = threads.get(threadId)
    return tag ? threadName(tag) : say('a thread')
  }
  const lengthOf = (threadId: string) => {
    const line = master.lines.find((one) => one.kind === 'thread' && one.threadId === threadId)
    return line?.kind === 'thread' ? threadLength(line.perKit.strandTenths, line.strands, settings.threadUnit) : ''
  }
  return (
    <Section
      title={say('Cut')}
      id="cut"
      note={
        open.length === 0
          ? say('every bag has its cuts')
          : say('{open, plural, one {# thread} other {# threads}} to cut', { open: open.length })
      }
    >
      {mixed.map(({ threadId, lots }) => (
        <Notice key={threadId} kind="caution" title={say('{nameOf} is not all of one lot.', { nameOf: nameOf(threadId) })}>
          {say('{lots}. Each dye bath differs a little; the record keeps which bag has which.', {
            lots: listed(
              lots.map(({ lot, bags }) =>
                say('{bags} {rest}', {
                  bags: bagsWords(bags),
                  rest: lot === null ? say('of an unmarked batch') : say('of lot {lot}', { lot }),
                }),
              ),
            ),
          })}
        </Notice>
      ))}
      {open.length > 0 && (
        <>
          <Ledger
            caption={say('What to cut now, thread by thread')}
            rows={open}
            rowKey={({ threadId }) => threadId}
            columns={[
              {
                key: 'thread',
                head: say('Thread'),
                cell: ({ threadId }) => {
                  const tag = threads.get(threadId)
                  return (
                    tag && (
                      <ThreadName
                        maker={tag.makerName}
                        code={tag.code}
                        name={tag.name ?? undefined}
                        href={`/threads/${threadId}`}
                        hexes={hexesOf(tag.lab)}
                      />
                    )
                  )
                },
                phone: 'lead',
              },
              {
                key: 'cut',
                head: say('Each cut'),
                cell: ({ threadId }) => <b>{lengthOf(threadId)}</b>,
                isNumeric: true,
                phone: 'side',
              },
              {
                key: 'from',
                head: say('From, for'),
                cell: (one) => <From cuts={one} kit={kit} cutting={cutting} />,
                phone: 'line',
              },
            ]}
          />
          {canCut && cutting && (
            <div className={s.form}>
              <Form
                action={cutAction}
                hidden={{ projectId: project.id, seen: cutting.key }}
                submit={say('These are cut: take them off stock')}
                submitKind="plain"
              >
                <TextField name="by" label={say('Who cuts')} defaultValue={name} autoComplete="name" width="half" isRequired />
                {mixed.some(({ runs }) => runs.length > 0) && (
                  <CheckField name="acceptsLots" label={say('Several lots will do, as said above')} />
                )}
              </Form>
            </div>
          )}
          <p className={s.quiet}>
            {say(
              'No cut is joined. What is left of an opened put-up goes back as stock: the longest piece as the part, shorter ones as remnants, each by its own length. Mind the scissors: close them when you lay them down.',
            )}
          </p>
        </>
      )}
    </Section>
  )
}

function From({ cuts, kit, cutting }: { cuts: CutsOfThread; kit: KitBags; cutting: KitCuttingSeen | null }) {
  return (
    <>
      {cuts.runs.map(({ batchId, lot, fromBag, toBag }) => {
        const placeId = cutting?.batches.get(batchId)?.currentPlaceId
        const place = placeId ? kit.places.get(placeId) : undefined
        return (
          <div key={`${batchId} ${fromBag}`}>
            {bagsWords(numbersOf({ fromBag, toBag }))}: {lot === null ? say('unmarked stock') : say('lot {lot}', { lot })}
            {place && sayParts(' in {place}', { place: <Link href={`/places/${placeId}`}>{place}</Link> })}
          </div>
        )
      })}
      {cuts.short.length > 0 && <div className="do">{say('nothing to cut for {bags}', { bags: bagsWords(cuts.short) })}</div>}
    </>
  )
}
