import type { Metadata } from 'next'
import { cookies } from 'next/headers'
import { formatClothLength } from '#language/lengths'
import { mayDo } from '#lib/access/who'
import { listFinishings } from '#lib/cloth/margins'
import { who } from '#lib/db/access/asking'
import { dataFolder } from '#lib/db/data-folder'
import { ownerKinds } from '#lib/db/owner/owners'
import { roundingSteps } from '#lib/settings/settings'
import { allowanceProfiles } from '#lib/thread/allowance'
import { ChoiceField, FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { givenName } from '#words/given'
import { languageCookie } from '../_language/choose'
import { TourSection } from '../_tour/tour-section'
import { findTheme, themeCookie } from '../_ui/theme'
import { chooseThemeAction, saveOwnerAction, saveSettingsAction } from './actions'
import { BackupStanding } from './backup-standing'
import { BoltForm } from './bolt-form'
import { InstallHint } from './install-hint'
import { LanguageSection } from './language-section'
import { MarginsSection } from './margins-section'
import { OccasionsSection } from './occasions-section'
import { OwnAllowance } from './own-allowance'
import { PlanningSection } from './planning-section'

export const metadata: Metadata = { title: 'Settings' }

const kindWords = { own: 'a stash at home', shop: 'a shop', person: 'another person' } as const

export default async function SettingsPage() {
  const [viewer, jar] = await Promise.all([getViewer(), cookies()])
  const { settings, owners } = viewer
  return (
    <>
      <PageHead title="Settings" />
      {!mayDo(who(), 'keep') && <Notice kind="caution" title="A keeper sets these. How this device looks is yours to choose." />}
      <Section title="Units and reckoning" note="Every answer is worked out anew when these change.">
        <Form action={saveSettingsAction} submit="Keep these">
          <FieldRow>
            <ChoiceField
              name="lengthUnit"
              label="Cloth in"
              defaultValue={settings.lengthUnit}
              options={[
                { value: 'in', label: 'inches' },
                { value: 'cm', label: 'centimetres' },
              ]}
            />
            <ChoiceField
              name="threadUnit"
              label="Thread in"
              defaultValue={settings.threadUnit}
              options={[
                { value: 'm', label: 'metres' },
                { value: 'yd', label: 'yards' },
              ]}
            />
          </FieldRow>
          <FieldRow>
            <NumberField
              name="allowance"
              label="Allowance for thread"
              defaultValue={String(settings.allowance)}
              hint={`What is used against what lies in the stitches: ${Object.entries(allowanceProfiles)
                .map(([name, factor]) => `${name} ${factor}`)
                .join(', ')}.`}
            />
            <SelectField
              name="roundingUm"
              label="Cuts rounded up to"
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
              label="Margins as for"
              defaultValue={settings.finishing}
              options={listFinishings(settings).map(({ name }) => ({ value: name, label: givenName(name) }))}
              hint="The way of finishing that fit and cuts are reckoned for."
            />
            <NumberField
              name="shrinkPercent"
              label="Cloth shrinks by"
              unit="%"
              defaultValue={String(settings.shrinkPercent)}
              hint="0 for washed cloth; 3 is usual where it will be washed after cutting."
            />
            <TextField name="currency" label="Prices in" defaultValue={settings.currency} width="short" />
          </FieldRow>
        </Form>
      </Section>
      <OwnAllowance ownerIds={viewer.ownerIds} allowance={settings.allowance} unit={settings.threadUnit} />
      <MarginsSection settings={settings} />
      <BoltForm settings={settings} />
      <PlanningSection viewer={viewer} />
      <OccasionsSection viewer={viewer} />
      <Section title="Owners" id="owners" note="Whose goods they are. One owner's stock is never mixed into another's unasked.">
        {owners.map((owner) => (
          <Form
            key={`${owner.id} ${owner.version}`}
            action={saveOwnerAction}
            submit="Change"
            submitKind="plain"
            isInline
            label={`Change ${owner.name}`}
            hidden={{ id: owner.id, version: String(owner.version) }}
          >
            <TextField name="name" label="Name" defaultValue={owner.name} width="half" />
            <SelectField
              name="kind"
              label="Kind"
              defaultValue={owner.kind}
              options={ownerKinds.map((kind) => ({ value: kind, label: kindWords[kind] }))}
            />
          </Form>
        ))}
        <Form action={saveOwnerAction} submit="Add an owner" isInline clearsWhenDone label="Add an owner">
          <TextField name="name" label="Name" width="half" />
          <SelectField
            name="kind"
            label="Kind"
            defaultValue="person"
            options={ownerKinds.map((kind) => ({ value: kind, label: kindWords[kind] }))}
          />
        </Form>
      </Section>
      <Section title="People" id="people">
        <p>
          Who signs in, what they may do and whose goods they see: <Link href="/settings/people">people</Link>, and{' '}
          <Link href="/settings/people/log">who did what</Link>.
        </p>
        <p>
          Your own password, passkeys, devices and tokens: <Link href="/account">your account</Link>.
        </p>
      </Section>
      <Section title="Light and dark" id="theme" note="On this device.">
        <Form action={chooseThemeAction} submit="Keep" isInline>
          <ChoiceField
            name="theme"
            label="The page is"
            defaultValue={findTheme(jar.get(themeCookie)?.value) ?? 'device'}
            options={[
              { value: 'device', label: 'as the device has it' },
              { value: 'light', label: 'light' },
              { value: 'dark', label: 'dark' },
            ]}
          />
        </Form>
      </Section>
      <LanguageSection chosen={jar.get(languageCookie)?.value} />
      <TourSection />
      <InstallHint />
      <Section title="Where your data is" id="data">
        <p>
          Everything is in one folder on this machine: <code>{dataFolder()}</code>.
        </p>
        <BackupStanding />
        <p>
          Does it still add up? <Link href="/settings/check">Check the whole collection</Link>: what is wrong is told, and set
          right only when you ask for it.
        </p>
        <p>
          All of it leaves again, too: <Link href="/archive">everything in a file</Link>, and sheets to read.
        </p>
        <p>
          For an insurer: <Link href="/insurance">what it would cost to replace, with photographs</Link>.
        </p>
        <p>
          Programs can ask and write too: <Link href="/reference">how the HTTP API works</Link>.
        </p>
      </Section>
    </>
  )
}
