import { formatClothLength, formatClothSize } from '#language/lengths'
import { drumStrip } from '#lib/cloth/drum-strip'
import { marginsFor } from '#lib/cloth/margins'
import type { DesignCloth } from '#lib/coverage/design-cloth'
import { formatCount } from '#lib/quantity/count'
import type { Settings } from '#lib/settings/settings'
import { Button } from '#ui/button'
import { TextField } from '#ui/field'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { marginWords, overWords } from '#words/cloth-size'
import type { ClothAddress } from './choices'
import s from './cloth.module.css'

type FinishingsSectionProps = {
  cloth: DesignCloth
  address: ClothAddress
  settings: Settings
  href: (changed: Record<string, string>) => string
  action: string
}

/** What to cut for framing, for an ornament, for anything: every way of finishing on one cloth, with the margins kept in Settings. */
export function FinishingsSection({ cloth, address, settings, href, action }: FinishingsSectionProps) {
  const { sizedOn } = cloth
  if (!sizedOn) return null
  const unit = settings.lengthUnit
  const isAbove = (name: string) => name === address.finishing && !address.hasOwnMargins
  return (
    <Section
      title="What to cut for each way of finishing"
      id="finishings"
      note={`On ${formatCount(sizedOn.ends, sizedOn.picks)} ${overWords(sizedOn.over)}${sizedOn.isTurned ? ', turned' : ''}.`}
      actions={<Link href="/settings#margins">Change the margins</Link>}
    >
      <Ledger
        caption="What to cut for each way of finishing"
        isTight
        rows={cloth.finishings}
        rowKey={({ name }) => name}
        rowHref={({ name }) => (isAbove(name) ? undefined : href({ finishing: name, left: '', right: '', top: '', bottom: '' }))}
        columns={[
          {
            key: 'name',
            head: 'Finished as',
            phone: 'lead',
            cell: ({ name }) => (isAbove(name) ? <b>{name}, as above</b> : name),
          },
          { key: 'cut', head: 'To cut', isNumeric: true, phone: 'side', cell: ({ cut }) => formatClothSize(cut, unit) },
          { key: 'margins', head: 'Margins', phone: 'line', cell: ({ margins }) => marginWords(margins, unit) },
        ]}
      />
      <div className={s.gap}>
        <Unfold
          label="A strip for a drum, by the drum itself"
          isOpenAtFirst={address.finishing === 'drum' || address.drum !== null}
        >
          <DrumStrip address={address} settings={settings} action={action} />
        </Unfold>
      </div>
    </Section>
  )
}

const drumFields = ['drumRound', 'drumAcross', 'drumHigh'] as const

function DrumStrip({ address, settings, action }: { address: ClothAddress; settings: Settings; action: string }) {
  const unit = settings.lengthUnit
  const { drum, said } = address
  const margins = marginsFor(settings, 'drum')
  const strip = drum && drumStrip(drum, { margins, shrinkPercent: settings.shrinkPercent, roundingUm: settings.roundingUm })
  const length = (um: number) => formatClothLength(um, unit)
  return (
    <div className={s.words}>
      <form action={`${action}#finishings`} className={s.drum} aria-label="A strip for a drum">
        {Object.entries(said).map(([name, value]) =>
          drumFields.some((field) => field === name) ? null : <input key={name} type="hidden" name={name} value={value} />,
        )}
        <TextField
          name="drumRound"
          label="Once round"
          width="short"
          defaultValue={said.drumRound}
          placeholder={length(304_800)}
        />
        <TextField name="drumAcross" label="or across" width="short" defaultValue={said.drumAcross} />
        <TextField name="drumHigh" label="Height" width="short" defaultValue={said.drumHigh} placeholder={length(76_200)} />
        <Button type="submit">Reckon the strip</Button>
      </form>
      {strip && drum ? (
        <p>
          <b>Cut {formatClothSize(strip, unit)}</b>: once round {length(drum.roundUm)} and{' '}
          {length(margins.leftUm + margins.rightUm)} of lap, {length(drum.heightUm)} high and {length(margins.topUm)} above,{' '}
          {length(margins.bottomUm)} below
          {settings.shrinkPercent > 0 ? `, and ${settings.shrinkPercent} % for washing` : ''}, rounded up.
        </p>
      ) : (
        <p className="quiet">Measure the padded drum once round at its widest, or straight across, and its height.</p>
      )}
    </div>
  )
}
