import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { drumStrip } from '#lib/cloth/drum-strip'
import { marginsFor } from '#lib/cloth/margins'
import type { DesignCloth } from '#lib/coverage/design-cloth'
import type { Settings } from '#lib/settings/settings'
import { Button } from '#ui/button'
import { TextField } from '#ui/field'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { countWords } from '#words/cloth-count'
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
      title={say('What to cut for each way of finishing')}
      id="finishings"
      note={say('On {ends} {over}{isTurned, select, yes {, turned} other {}}.', {
        ends: countWords(sizedOn.ends, sizedOn.picks),
        over: overWords(sizedOn.over),
        isTurned: sizedOn.isTurned,
      })}
      actions={<Link href="/settings#margins">{say('Change the margins')}</Link>}
    >
      <Ledger
        caption={say('What to cut for each way of finishing')}
        isTight
        rows={cloth.finishings}
        rowKey={({ name }) => name}
        rowHref={({ name }) => (isAbove(name) ? undefined : href({ finishing: name, left: '', right: '', top: '', bottom: '' }))}
        columns={[
          {
            key: 'name',
            head: say('Finished as'),
            phone: 'lead',
            cell: ({ name }) => (isAbove(name) ? <b>{sayParts('{name}, as above', { name })}</b> : name),
          },
          { key: 'cut', head: say('To cut'), isNumeric: true, phone: 'side', cell: ({ cut }) => formatClothSize(cut, unit) },
          { key: 'margins', head: say('Margins'), phone: 'line', cell: ({ margins }) => marginWords(margins, unit) },
        ]}
      />
      <div className={s.gap}>
        <Unfold
          label={say('A strip for a drum, by the drum itself')}
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
      <form action={`${action}#finishings`} className={s.drum} aria-label={say('A strip for a drum')}>
        {Object.entries(said).map(([name, value]) =>
          drumFields.some((field) => field === name) ? null : <input key={name} type="hidden" name={name} value={value} />,
        )}
        <TextField
          name="drumRound"
          label={say('Once round')}
          width="short"
          defaultValue={said.drumRound}
          placeholder={length(304_800)}
        />
        <TextField name="drumAcross" label={say('or across')} width="short" defaultValue={said.drumAcross} />
        <TextField
          name="drumHigh"
          label={say('Height')}
          width="short"
          defaultValue={said.drumHigh}
          placeholder={length(76_200)}
        />
        <Button type="submit">{say('Reckon the strip')}</Button>
      </form>
      {strip && drum ? (
        <p>
          {sayParts(
            '<b>Cut {strip}</b>: once round {length} and {length2} of lap, {length3} high and {length4} above, {length5} below{rest}, rounded up.',
            {
              b: (words) => <b>{words}</b>,
              strip: formatClothSize(strip, unit),
              length: length(drum.roundUm),
              length2: length(margins.leftUm + margins.rightUm),
              length3: length(drum.heightUm),
              length4: length(margins.topUm),
              length5: length(margins.bottomUm),
              rest:
                settings.shrinkPercent > 0
                  ? say(', and {shrinkPercent} % for washing', { shrinkPercent: settings.shrinkPercent })
                  : '',
            },
          )}
        </p>
      ) : (
        <p className="quiet">{say('Measure the padded drum once round at its widest, or straight across, and its height.')}</p>
      )}
    </div>
  )
}
