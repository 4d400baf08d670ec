import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Button } from '#ui/button'
import { Notice } from '#ui/notice'
import type { Overruled } from './overruled'

type OverruledNoticeProps = {
  overruled: readonly Overruled[]
  nameOf: (lineId: string) => string | undefined
  saidOf: (status: string) => string
  onRead: () => void
}

/** Says whose later ticks stand over one's own that waited: look whether something is in hand twice, or nobody has it. */
export function OverruledNotice({ overruled, nameOf, saidOf, onRead }: OverruledNoticeProps) {
  if (overruled.length === 0) return null
  return (
    <Notice
      kind="caution"
      title={say('Ticked otherwise meanwhile; the later tick stands.')}
      actions={<Button onClick={onRead}>{say('I have seen it')}</Button>}
    >
      <ul>
        {overruled.map(({ lineId, status, by }) => (
          <li key={lineId}>
            {sayParts('{nameOf}: {saidOf}, says {by}', {
              nameOf: nameOf(lineId) ?? say('One line'),
              saidOf: saidOf(status),
              by: by ?? say('somebody else'),
            })}
          </li>
        ))}
      </ul>
    </Notice>
  )
}
