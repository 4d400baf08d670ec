import type { Metadata } from 'next'
import { say } from '#language/say'
import { getAnswers } from '#lib/db/answers/get-answers'
import { mostDesignsWeighed } from '#lib/db/planning/together/read-choice'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { SelectField } from '#ui/field'
import { FormStrip, StripSelect, StripText } from '#ui/form-strip'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { neverWords } from '#words/choice'
import { calendarDay } from '#words/date'
import { namesIn } from '#words/names'
import s from '../../_choice/choice.module.css'
import { ChoiceForm } from '../../_choice/choice-form'
import { FoundDesigns } from '../../_choice/found-designs'
import { readAskedPage } from '../../_choice/read-page'
import { choosePageSchema, pageSources, sourceWords } from '../../_choice/schema'
import { WhyList } from '../../_choice/why-list'

export const generateMetadata = (): Metadata => ({ title: say('Which together') })

const address = '/projects/together'

type PageProps = { searchParams: Promise<Record<string, unknown>> }

export default async function TogetherPage({ searchParams }: PageProps) {
  const asked = choosePageSchema.parse(await searchParams)
  const [{ settings, ownerIds, ownerName }, answers] = await Promise.all([getViewer(), getAnswers()])
  const shared = { ownerIds, pieceIds: null, isClothAside: true, today: calendarDay(new Date()) }
  const { query, found, also, usual, candidates, never } = await readAskedPage(answers, asked, shared, {
    wantsWish: (wishes) => wishes.candidates.length > 0,
    otherwise: 'near',
  })
  const { names, length } = namesIn(answers)
  return (
    <>
      <PageHead
        title={say('Which together')}
        crumbs={[{ label: say('Projects'), href: '/projects' }, { label: say('Which together') }]}
        byline={say(
          'The designs worth most that can all be stitched from the free thread of {ownerName}, with nothing bought or only so much. Nothing is set aside by asking.',
          { ownerName: ownerName || say('nobody yet') },
        )}
        actions={
          <>
            <LinkButton href="/projects/together/pairs">{say('Kit two at once')}</LinkButton>
            <LinkButton href="/cloth/choose">{say('By the cloth')}</LinkButton>
          </>
        }
      />
      <FormStrip
        action={address}
        label={say('Chosen from')}
        summary={say('From {source}', { source: sourceWords()[query.from] })}
      >
        <StripSelect
          name="from"
          label={say('Chosen from')}
          value={query.from}
          options={pageSources.map((value) => ({ value, label: sourceWords()[value] }))}
        />
        <StripText
          name="q"
          label={say('Add a design')}
          value={found.length === 1 ? '' : query.q}
          placeholder={say('Seven Lanterns')}
        />
        {also.map((id) => (
          <input key={id} type="hidden" name="also" value={id} />
        ))}
      </FormStrip>
      <FoundDesigns answers={answers} query={query} found={found} address={address} />
      {candidates.length === 0 ? (
        <Empty
          title={query.from === 'wished' ? say('No wish to choose from') : say('Nothing to choose from')}
          actions={<LinkButton href="/charts">{say('Charts')}</LinkButton>}
        >
          {query.from === 'wished'
            ? say(
                'A wish is a project that is only wanted so far: open a design, press “Start this” and tick that it is a wish. Or add a design above by its title.',
              )
            : say(
                'No design has all its threads free. Choose from the wishes, where what could be bought counts too, or add a design above by its title.',
              )}
        </Empty>
      ) : (
        <ChoiceForm
          screen="together"
          from={also.length > 0 ? 'ticked' : query.from}
          candidates={candidates}
          question={usual}
          mostWeighed={mostDesignsWeighed.thread}
        >
          <Section title={say('Cloth')} id="cloth" note={say('Reserved pieces are never cut.')}>
            <SelectField
              name="cloth"
              label={say('Whether cloth decides too')}
              defaultValue="aside"
              options={[
                { value: 'aside', label: say('Cloth aside: thread alone decides') },
                { value: 'any', label: say('Each must be cut from a piece that is free') },
              ]}
              hint={say('With cloth, {cloth} designs are weighed at a time, and it takes longer.', {
                cloth: mostDesignsWeighed.cloth,
              })}
            />
          </Section>
        </ChoiceForm>
      )}
      {never.length > 0 && (
        <div className={s.gap}>
          <Unfold
            label={say('{never, plural, one {# design} other {# designs}} not to be chosen, and why', { never: never.length })}
            isOpenAtFirst={also.length > 0}
          >
            <WhyList designs={never.map((one) => ({ ...one, why: [neverWords(one, names, length, settings.lengthUnit)] }))} />
          </Unfold>
        </div>
      )}
    </>
  )
}
