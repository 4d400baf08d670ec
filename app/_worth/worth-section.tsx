import { say } from '#language/say'
import { listFiles } from '#lib/db/file/queries'
import { findWorth, type Worth } from '#lib/db/insurance/find-worth'
import { readLooks } from '#lib/db/photo/photo-looks'
import { formatPrice } from '#lib/quantity/money'
import { Photo } from '#trade/photo'
import { CheckField, FileField, NumberField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { FilesSection } from '../_files/files-section'
import { keepWorthAction } from './actions'
import s from './worth.module.css'

type Thing = { noun: 'cloth' | 'notion' | 'chart' | 'project'; id: string }

/** What an insurer asks of a thing, where its own card has no room for it: what it cost, a photograph, its receipts. */
export async function WorthSection({ noun, id }: Thing) {
  const [worth, files, { settings, ownerIds }] = await Promise.all([
    noun === 'project' ? null : findWorth(noun, id),
    // A chart lists its receipts among its files.
    noun === 'chart' ? [] : listFiles({ noun, id }),
    getViewer(),
  ])
  return (
    <>
      {noun !== 'project' && worth && (
        <Section title={say('For the insurer')} id="worth" note={<Link href="/insurance">{say('Insurance list')}</Link>}>
          <WorthForm noun={noun} id={id} worth={worth} currency={settings.currency} />
        </Section>
      )}
      {noun !== 'chart' && <FilesSection thing={{ noun, id }} files={files} ownerIds={ownerIds} roles={['receipt']} />}
    </>
  )
}

type WorthFormProps = { noun: Exclude<Thing['noun'], 'project'>; id: string; worth: Worth; currency: string }

const photoRoom = { widthPx: 224, heightPx: 176 }

async function WorthForm({ noun, id, worth, currency }: WorthFormProps) {
  const { version, priceMinor, photoFile, isOutOfPrint } = worth
  const look = photoFile === null ? undefined : (await readLooks([photoFile])).get(photoFile)
  return (
    <div>
      {noun !== 'chart' && photoFile && (
        <a href={`/photos/${photoFile}`}>
          <Photo className={s.photo} file={photoFile} look={look} alt={say('As it looks')} room={photoRoom} />
        </a>
      )}
      <Form action={keepWorthAction} hidden={{ noun, id, version: String(version) }} submit={say('Keep')} submitKind="plain">
        {noun === 'cloth' && (
          <NumberField
            name="price"
            label={say('What it cost')}
            unit={currency}
            defaultValue={priceMinor === null ? '' : formatPrice(priceMinor, null)}
          />
        )}
        {noun === 'chart' ? (
          <CheckField
            name="isOutOfPrint"
            label={say('Out of print')}
            defaultChecked={isOutOfPrint}
            hint={say('No longer published: listed apart, with the price it has as the last one known.')}
          />
        ) : (
          <FileField
            name="photo"
            label={photoFile ? say('Another photo') : say('Photo of it')}
            accept="image/jpeg,image/png,image/webp"
            hint={say('JPEG, PNG or WebP, up to 30 MB. Where and with what it was taken is not kept.')}
          />
        )}
      </Form>
    </div>
  )
}
