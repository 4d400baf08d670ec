import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { LabelLookUp, OldLabel } from '#lib/db/place/look-up-label'
import { PlaceLabel } from '#trade/place-label'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { beforeWords, formerUseWords, oldLabelWords } from '#words/old-label'
import s from './old-labels.module.css'

/** What a label that was typed or scanned meant before. Nothing when it never meant anything else. */
export function OldLabels({ lookUp }: { lookUp: LabelLookUp }) {
  const { place, former } = lookUp
  const meant = place ? null : (former.find(({ why }) => why !== 'split') ?? former[0])
  const others = former.filter((old) => old !== meant)
  if (meant)
    return (
      <Notice
        kind="caution"
        title={oldLabelWords(meant)}
        actions={<PlaceLabel label={meant.place.label} href={`/places/${meant.place.id}`} />}
      >
        {others.length > 0 && <FormerUses former={others} />}
      </Notice>
    )
  return others.length > 0 ? <FormerUses former={others} /> : null
}

const FormerUses = ({ former }: { former: readonly OldLabel[] }) => (
  <ul className={s.labels}>
    {former.map((old) => (
      <li key={`${old.place.id} ${old.until.getTime()}`}>
        {formerUseWords(old)}{' '}
        <Link href={`/places/${old.place.id}`}>{sayParts('Look at {label}', { label: old.place.label })}</Link>
      </li>
    ))}
  </ul>
)

type LabelsBeforeProps = { former: readonly Omit<OldLabel, 'place'>[]; splitOff: readonly OldLabel[] }

/** What the labels of a place said before, and what was split off under its label. Nothing when it always said the same. */
export function LabelsBefore({ former, splitOff }: LabelsBeforeProps) {
  if (former.length + splitOff.length === 0) return null
  return (
    <ul className={s.labels} aria-label={say('Labels before')}>
      {former.map((old) => (
        <li key={`${old.label} ${old.until.getTime()}`}>{beforeWords(old)}</li>
      ))}
      {splitOff.map((old) => (
        <li key={old.place.id}>
          {oldLabelWords(old)}{' '}
          <Link href={`/places/${old.place.id}`}>{sayParts('Look at {label}', { label: old.place.label })}</Link>
        </li>
      ))}
    </ul>
  )
}
