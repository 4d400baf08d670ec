import type { Metadata } from 'next'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { clothKindKey } from '#lib/cloth/match-cloth'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { mostDesignsWeighed, mostPiecesWeighed, type NeverChosen } from '#lib/db/planning/together/read-choice'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { compareExact } from '#lib/stock/batch'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { CheckField } from '#ui/field'
import { FormStrip, StripSelect, StripText } from '#ui/form-strip'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { midSentence } from '#words/capital'
import { neverWords } from '#words/choice'
import { pieceDescription, pieceName } from '#words/cloth'
import { calendarDay } from '#words/date'
import { namesIn } from '#words/names'
import s from '../../_choice/choice.module.css'
import { ChoiceForm } from '../../_choice/choice-form'
import { FoundDesigns } from '../../_choice/found-designs'
import { readAskedPage } from '../../_choice/read-page'
import { choosePageSchema, pageSources, sourceWords } from '../../_choice/schema'
import { WhyList } from '../../_choice/why-list'
import { kindTitle } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('What this cloth can become') })

type PageProps = { searchParams: Promise<Record<string, unknown>> }

export default async function ChoosePage({ searchParams }: PageProps) {
  const asked = choosePageSchema.parse(await searchParams)
  const [{ settings, ownerIds, ownerName }, answers] = await Promise.all([getViewer(), getAnswers()])
  const unit = settings.lengthUnit
  const free = answers.world.pieces.filter(({ ownerId, isReserved }) => ownerIds.includes(ownerId) && !isReserved)
  const kinds = new Map(free.map((piece) => [clothKindKey(piece), kindTitle(piece)]))
  const pieceIds = asked.kind === '' ? null : free.filter((piece) => clothKindKey(piece) === asked.kind).map(({ id }) => id)
  const shared = { ownerIds, pieceIds, isClothAside: false, today: calendarDay(new Date()) }
  const read = await readAskedPage(answers, asked, shared, {
    wantsWish: (wishes) => wishes.candidates.some(({ shortPutUps }) => shortPutUps === 0),
    otherwise: 'stitchable',
  })
  const { query, found, also, usual, candidates, never } = read
  const pieces = [...read.pieces].sort((a, b) => compareExact(pieceName(a), pieceName(b)))
  const crumbs = [{ label: say('Cloth'), href: '/cloth' }, { label: say('What this cloth can become') }]
  if (free.length === 0) {
    return (
      <>
        <PageHead title={say('What this cloth can become')} crumbs={crumbs} />
        <Empty title={say('No free cloth')} actions={<LinkButton href="/cloth/new">{say('Add a piece')}</LinkButton>}>
          {say('Once there is cloth that no project keeps, the designs it can become are chosen here, from thread that is free.')}
        </Empty>
      </>
    )
  }
  return (
    <>
      <PageHead
        title={say('What this cloth can become')}
        crumbs={crumbs}
        actions={<LinkButton href="/projects/together">{say('By thread alone')}</LinkButton>}
        byline={say(
          'The designs worth most that can be stitched together from the free cloth and thread of {ownerName}, and what may be bought. Nothing is set aside by asking.',
          { ownerName },
        )}
      />
      <FormStrip
        action="/cloth/choose"
        label={say('Chosen from')}
        summary={say('From {source}, on {kinds}', {
          source: sourceWords()[query.from],
          kinds: midSentence(kinds.get(query.kind) ?? say('any cloth')),
        })}
      >
        <StripSelect
          name="from"
          label={say('Chosen from')}
          value={query.from}
          options={pageSources.map((value) => ({ value, label: sourceWords()[value] }))}
        />
        <StripSelect
          name="kind"
          label={say('Cloth')}
          value={query.kind}
          any={say('any that is free')}
          options={[...kinds].sort(([a], [b]) => compareExact(a, b)).map(([value, label]) => ({ value, label }))}
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
      <FoundDesigns answers={answers} query={query} found={found} address="/cloth/choose" />
      {candidates.length === 0 ? (
        <Empty
          title={query.from === 'wished' ? say('No wish can be stitched from this') : say('Nothing is stitchable from this')}
        >
          {query.from === 'wished'
            ? say(
                'A wish is a project that is only wanted so far. Choose from all that is stitchable now, add a design by its title, or take other cloth.',
              )
            : say(
                'No design whose threads are all there fits this cloth. Take other cloth, or add a design by its title to see what is in its way.',
              )}
        </Empty>
      ) : (
        <ChoiceForm
          screen="cloth"
          from={also.length > 0 ? 'ticked' : query.from}
          candidates={candidates}
          question={usual}
          mostWeighed={mostDesignsWeighed.cloth}
        >
          <input type="hidden" name="cloth" value="pieces" />
          <Section title={say('Cloth')} id="cloth" note={say('Reserved pieces are never cut.')}>
            <Unfold label={say('{pieces, plural, one {# piece} other {# pieces}} may be cut', { pieces: pieces.length })}>
              <ul className={s.pieces}>
                {pieces.map((piece) => (
                  <li key={piece.id}>
                    <CheckField
                      name="piece"
                      value={piece.id}
                      defaultChecked
                      label={
                        <>
                          {pieceName(piece)}, {formatClothSize(piece, unit)}
                          <small>
                            {pieceDescription(piece)}
                            {piece.isSquared ? '' : say(', not squared yet')}
                          </small>
                        </>
                      }
                    />
                  </li>
                ))}
              </ul>
            </Unfold>
            {usual.passedOver.pieces > 0 && (
              <p className="quiet">
                {sayParts(
                  '{mostPiecesWeighed} are weighed at a time, the largest: {pieces, plural, one {# smaller piece} other {# smaller pieces}} {pieces, plural, one {is} other {are}} left aside.',
                  { mostPiecesWeighed, pieces: usual.passedOver.pieces },
                )}
              </p>
            )}
          </Section>
        </ChoiceForm>
      )}
      <Never answers={answers} never={never} unit={unit} isOpen={also.length > 0 && never.length > 0} />
    </>
  )
}

type NeverProps = { answers: Answers; never: readonly NeverChosen[]; unit: LengthUnit; isOpen: boolean }

function Never({ answers, never, unit, isOpen }: NeverProps) {
  if (never.length === 0) return null
  const { names, length } = namesIn(answers)
  return (
    <div className={s.gap}>
      <Unfold
        label={say('{never, plural, one {# design} other {# designs}} not to be chosen, and why', { never: never.length })}
        isOpenAtFirst={isOpen}
      >
        <WhyList designs={never.map((one) => ({ ...one, why: [neverWords(one, names, length, unit)] }))} />
      </Unfold>
    </div>
  )
}
