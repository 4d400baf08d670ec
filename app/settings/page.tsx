import type { Metadata } from 'next'
import { cookies } from 'next/headers'
import { plainFigure } from '#language/figures'
import { formatClothLength } from '#language/lengths'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { mayDo } from '#lib/access/who'
import { listFinishings } from '#lib/cloth/margins'
import { who } from '#lib/db/access/asking'
import { dataFolder } from '#lib/db/data-folder'
import { ownerKinds } from '#lib/db/owner/owners'
import { roundingSteps } from '#lib/settings/settings'
import { allowanceProfiles } from '#lib/thread/allowance'
import { CheckField, ChoiceField, FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { JumpMarks } from '#ui/jump-marks'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { givenName } from '#words/given'
import { profileWords } from '../_charts/words'
import { languageCookie } from '../_language/choose'
import { TourSection } from '../_tour/tour-section'
import { slashCookie } from '../_ui/slash-key'
import { findTheme, themeCookie } from '../_ui/theme'
import { chooseSlashAction, chooseThemeAction, saveOwnerAction, saveSettingsAction } from './actions'
import { BackupStanding } from './backup-standing'
import { BoltForm } from './bolt-form'
import { InstallHint } from './install-hint'
import { LanguageSection } from './language-section'
import { MarginsSection } from './margins-section'
import { OccasionsSection } from './occasions-section'
import { OwnAllowance } from './own-allowance'
import { PlanningSection } from './planning-section'

export const generateMetadata = (): Metadata => ({ title: say('Settings') })

const kindWords = sayings({ own: 'a stash at home', shop: 'a shop', person: 'another person' })

export default async function SettingsPage() {
  const [viewer, jar] = await Promise.all([getViewer(), cookies()])
  const { settings, owners } = viewer
  return (
    <>
      <PageHead title={say('Settings')} />
      <JumpMarks
        items={[
          { href: '#errands', label: say('First errands') },
          { href: '#reckoning', label: say('Units and reckoning') },
          { href: '#margins', label: say('Margins') },
          { href: '#planning', label: say('Pace and planning') },
          { href: '#occasions', label: say('Occasions') },
          { href: '#owners', label: say('Owners') },
          { href: '#people', label: say('People') },
          { href: '#theme', label: say('Light and dark') },
          { href: '#language', label: say('Language') },
          { href: '#data', label: say('Where your data is') },
        ]}
      />
      {!mayDo(who(), 'keep') && (
        <Notice kind="caution" title={say('A keeper sets these. How this device looks is yours to choose.')} />
      )}
      <TourSection />
      <Section title={say('Units and reckoning')} id="reckoning" note={say('Every answer is worked out anew when these change.')}>
        <Form action={saveSettingsAction} submit={say('Keep these')}>
          <FieldRow>
            <ChoiceField
              name="lengthUnit"
              label={say('Cloth in')}
              defaultValue={settings.lengthUnit}
              options={[
                { value: 'in', label: say('inches') },
                { value: 'cm', label: say('centimetres') },
              ]}
            />
            <ChoiceField
              name="threadUnit"
              label={say('Thread in')}
              defaultValue={settings.threadUnit}
              options={[
                { value: 'm', label: say('metres') },
                { value: 'yd', label: say('yards') },
              ]}
            />
          </FieldRow>
          <FieldRow>
            <NumberField
              name="allowance"
              label={say('Allowance for thread')}
              defaultValue={String(settings.allowance)}
              hint={say('What is used against what lies in the stitches: {entries}.', {
                entries: Object.entries(allowanceProfiles)
                  .map(([name, factor]) => `${profileWords[name as keyof typeof allowanceProfiles]} ${plainFigure(factor)}`)
                  .join(', '),
              })}
            />
            <SelectField
              name="roundingUm"
              label={say('Cuts rounded up to')}
              defaultValue={String(settings.roundingUm)}
              options={roundingSteps.map((step) => ({
                value: String(step),
                label: formatClothLength(step, step === 10_000 ? 'cm' : 'in'),
              }))}
            />
          </FieldRow>
          <FieldRow>
            <SelectField
              name="finishing"
              label={say('Margins as for')}
              defaultValue={settings.finishing}
              options={listFinishings(settings).map(({ name }) => ({ value: name, label: givenName(name) }))}
              hint={say('The way of finishing that fit and cuts are reckoned for.')}
            />
            <NumberField
              name="shrinkPercent"
              label={say('Cloth shrinks by')}
              unit="%"
              defaultValue={String(settings.shrinkPercent)}
              hint={say('0 for washed cloth; 3 is usual where it will be washed after cutting.')}
            />
            <TextField name="currency" label={say('Prices in')} defaultValue={settings.currency} width="short" />
          </FieldRow>
        </Form>
      </Section>
      <OwnAllowance ownerIds={viewer.ownerIds} allowance={settings.allowance} unit={settings.threadUnit} />
      <MarginsSection settings={settings} />
      <BoltForm settings={settings} />
      <PlanningSection viewer={viewer} />
      <OccasionsSection viewer={viewer} />
      <Section
        title={say('Owners')}
        id="owners"
        note={say("Whose goods they are. One owner's stock is never mixed into another's unasked.")}
      >
        {owners.map((owner) => (
          <Form
            key={`${owner.id} ${owner.version}`}
            action={saveOwnerAction}
            submit={say('Change')}
            submitKind="plain"
            isInline
            label={say('Change {name}', { name: owner.name })}
            hidden={{ id: owner.id, version: String(owner.version) }}
          >
            <TextField name="name" label={say('Name')} defaultValue={owner.name} width="half" />
            <SelectField
              name="kind"
              label={say('Kind')}
              defaultValue={owner.kind}
              options={ownerKinds.map((kind) => ({ value: kind, label: kindWords[kind] }))}
            />
          </Form>
        ))}
        <Form action={saveOwnerAction} submit={say('Add an owner')} isInline clearsWhenDone label={say('Add an owner')}>
          <TextField name="name" label={say('Name')} width="half" />
          <SelectField
            name="kind"
            label={say('Kind')}
            defaultValue="person"
            options={ownerKinds.map((kind) => ({ value: kind, label: kindWords[kind] }))}
          />
        </Form>
      </Section>
      <Section title={say('People')} id="people">
        <p>
          {sayParts(
            'Who signs in, what they may do and whose goods they see: <link>people</link>, and <link2>who did what</link2>.',
            {
              link: (words) => <Link href="/settings/people">{words}</Link>,
              link2: (words) => <Link href="/settings/people/log">{words}</Link>,
            },
          )}
        </p>
        <p>
          {sayParts('Your own password, passkeys, devices and tokens: <link>your account</link>.', {
            link: (words) => <Link href="/account">{words}</Link>,
          })}
        </p>
      </Section>
      <Section title={say('Light and dark')} id="theme" note={say('On this device.')}>
        <Form action={chooseThemeAction} submit={say('Keep')} isInline>
          <ChoiceField
            name="theme"
            label={say('The page is')}
            defaultValue={findTheme(jar.get(themeCookie)?.value) ?? 'device'}
            options={[
              { value: 'device', label: say('as the device has it') },
              { value: 'light', label: say('light') },
              { value: 'dark', label: say('dark') },
            ]}
          />
        </Form>
      </Section>
      <Section title={say('Keys')} id="keys" note={say('On this device.')}>
        <Form action={chooseSlashAction} submit={say('Keep')} isInline label={say('Keys')}>
          <CheckField
            name="slash"
            label={say('The slash key (/) goes to Find')}
            defaultChecked={jar.get(slashCookie)?.value !== 'off'}
            hint={say('Take it off where you speak to your device, or a key is pressed by mistake. Ctrl+K stays.')}
          />
        </Form>
      </Section>
      <LanguageSection chosen={jar.get(languageCookie)?.value} />
      <InstallHint />
      <Section title={say('Where your data is')} id="data">
        <p>
          {sayParts('Everything is in one folder on this machine: {dataFolder}.', { dataFolder: <code>{dataFolder()}</code> })}
        </p>
        <BackupStanding />
        <p>
          {sayParts(
            'Does it still add up? <link>Check the whole collection</link>: what is wrong is told, and set right only when you ask for it.',
            { link: (words) => <Link href="/settings/check">{words}</Link> },
          )}
        </p>
        <p>
          {sayParts('All of it leaves again, too: <link>everything in a file</link>, and sheets to read.', {
            link: (words) => <Link href="/archive">{words}</Link>,
          })}
        </p>
        <p>
          {sayParts('For an insurer: <link>what it would cost to replace, with photographs</link>.', {
            link: (words) => <Link href="/insurance">{words}</Link>,
          })}
        </p>
        <p>
          {sayParts('Programs can ask and write too: <link>how the HTTP API works</link>.', {
            link: (words) => <Link href="/reference">{words}</Link>,
          })}
        </p>
      </Section>
    </>
  )
}
