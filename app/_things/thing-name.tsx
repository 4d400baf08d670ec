import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { ThingHere } from '#lib/db/place/contents'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { ThreadName } from '#trade/thread-bar'
import { Link } from '#ui/link'
import { counted, listed } from '#words/amounts'
import { pieceTitle } from '#words/cloth'
import { countWords } from '#words/cloth-count'
import { hexesOf } from '#words/colour'
import { notionKindWords, notionTitle } from '#words/notion'
import { heldWords } from '#words/stock'

type ThingNameProps = { thing: ThingHere; threadUnit: ThreadLengthUnit; lengthUnit: LengthUnit }

/** A thread, a piece of cloth or a chart in a list of what lies somewhere: what it is, and how much. */
export function ThingName({ thing, threadUnit, lengthUnit }: ThingNameProps) {
  switch (thing.noun) {
    case 'thread':
      return (
        <ThreadName
          maker={thing.makerName}
          code={thing.code}
          name={thing.name}
          hexes={hexesOf(thing.lab)}
          href={`/threads/${thing.threadId}`}
          note={[heldWords(thing, thing, threadUnit), thing.lot !== null && say('lot {lot}', { lot: thing.lot })]
            .filter(Boolean)
            .join(', ')}
        />
      )
    case 'cloth':
      return (
        <>
          <Link href={`/cloth/${thing.id}`}>{pieceTitle(thing)}</Link>
          <br />
          <small className="quiet">
            {formatClothSize(thing, lengthUnit)}, {countWords(thing.ends, thing.picks)}
          </small>
        </>
      )
    case 'chart':
      return (
        <>
          <Link href={`/charts/${thing.id}`} className="title">
            {thing.title}
          </Link>
          <br />
          <small className="quiet">
            {[listed(thing.designerNames), thing.kind, thing.copies !== 1 && counted(thing.copies, 'copy')]
              .filter(Boolean)
              .join(', ')}
          </small>
        </>
      )
    case 'notion':
      return (
        <>
          <Link href={`/notions/${thing.id}`}>{notionTitle(thing)}</Link>
          <br />
          <small className="quiet">
            {notionKindWords[thing.kind].one}, × {thing.count}
          </small>
        </>
      )
  }
}

/** What a thing is called in a sentence, for buttons that stand alone to those who hear the page. */
export function thingWords(thing: ThingHere): string {
  if (thing.noun === 'thread') return `${thing.makerName} ${thing.code}`
  if (thing.noun === 'notion') return notionTitle(thing)
  return thing.noun === 'cloth' ? [thing.label, thing.name].filter(Boolean).join(' ') : thing.title
}
