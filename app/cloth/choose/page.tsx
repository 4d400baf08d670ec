import type { Metadata } from 'next'
import { clothKindKey } from '#lib/cloth/match-cloth'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { mostDesignsWeighed, mostPiecesWeighed, type NeverChosen, readChoice } from '#lib/db/planning/read-choice'
import { formatClothSize, type LengthUnit } from '#lib/quantity/cloth-length'
import { compareExact } from '#lib/stock/batch'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { CheckField, NumberField, SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { FormStrip, StripSelect, StripText } from '#ui/form-strip'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, limitWords } from '#words/amounts'
import { neverWords, valueWords } from '#words/choice'
import { pieceDescription, pieceName } from '#words/cloth'
import { calendarDay } from '#words/date'
import { namesIn } from '#words/names'
import { kindTitle } from '../words'
import { startChoiceAction } from './actions'
import s from './choose.module.css'
import { type ChoosePageQuery, choiceLimits, choosePageSchema, usualLimit } from './schema'
import { WhyList } from './why-list'

export const metadata: Metadata = { title: 'What this cloth can become' }

const mostFound = 8

type PageProps = { searchParams: Promise<Record<string, unknown>> }

export default async function ChoosePage({ searchParams }: PageProps) {
  const asked = choosePageSchema.parse(await searchParams)
  const [{ settings, ownerIds, ownerName }, answers] = await Promise.all([getViewer(), getAnswers()])
  const unit = settings.lengthUnit
  const free = answers.world.pieces.filter(({ ownerId, isReserved }) => ownerIds.includes(ownerId) && !isReserved)
  const kinds = new Map(free.map((piece) => [clothKindKey(piece), kindTitle(piece)]))
  const pieceIds = asked.kind === '' ? null : free.filter((piece) => clothKindKey(piece) === asked.kind).map(({ id }) => id)
  const shared = { ownerIds, pieceIds, values: new Map<string, number>(), today: calendarDay(new Date()) }
  const wishes = asked.from === null ? await readChoice(answers, { ...shared, source: 'wished', designIds: null }) : null
  const from = asked.from ?? (wishes && wishes.candidates.length > 0 ? 'wished' : 'stitchable')
  const query: ChoosePageQuery = { ...asked, from }
  const found = query.q === '' ? [] : findCalled(answers, query.q)
  const also = [...new Set([...query.also, ...(found.length === 1 ? found : [])])]
  const usual = wishes && from === 'wished' ? wishes : await readChoice(answers, { ...shared, source: from, designIds: null })
  const added = also.length === 0 ? null : await readChoice(answers, { ...shared, source: 'ticked', designIds: also })
  const known = new Set(usual.candidates.map(({ designId }) => designId))
  const candidates = [...usual.candidates, ...(added?.candidates.filter(({ designId }) => !known.has(designId)) ?? [])]
  const never = [...(added?.never ?? []), ...usual.never.filter(({ designId }) => !also.includes(designId))]
  const pieces = [...new Map([...usual.pieces, ...(added?.pieces ?? [])].map((piece) => [piece.id, piece])).values()].sort(
    (a, b) => compareExact(pieceName(a), pieceName(b)),
  )
  const crumbs = [{ label: 'Cloth', href: '/cloth' }, { label: 'What this cloth can become' }]
  if (free.length === 0) {
    return (
      <>
        <PageHead title="What this cloth can become" crumbs={crumbs} />
        <Empty title="No free cloth" actions={<LinkButton href="/cloth/new">Add a piece</LinkButton>}>
          Once there is cloth that no project keeps, the designs it can become are chosen here, from thread that is free.
        </Empty>
      </>
    )
  }
  return (
    <>
      <PageHead
        title="What this cloth can become"
        crumbs={crumbs}
        byline={`The designs worth most that can be stitched together from the free cloth and thread of ${ownerName}, nothing bought. Nothing is set aside by asking.`}
      />
      <FormStrip
        action="/cloth/choose"
        label="Chosen from"
        summary={`${query.from === 'wished' ? 'The wishes' : 'All that is stitchable now'}, on ${kinds.get(query.kind)?.toLowerCase() ?? 'any cloth'}`}
      >
        <StripSelect
          name="from"
          label="Chosen from"
          value={query.from}
          options={[
            { value: 'wished', label: 'the wishes' },
            { value: 'stitchable', label: 'all that is stitchable now' },
          ]}
        />
        <StripSelect
          name="kind"
          label="Cloth"
          value={query.kind}
          any="any that is free"
          options={[...kinds].sort(([a], [b]) => compareExact(a, b)).map(([value, label]) => ({ value, label }))}
        />
        <StripText name="q" label="Add a design" value={found.length === 1 ? '' : query.q} placeholder="Seven Lanterns" />
        {also.map((id) => (
          <input key={id} type="hidden" name="also" value={id} />
        ))}
      </FormStrip>
      <FoundDesigns answers={answers} query={query} found={found} />
      {candidates.length === 0 ? (
        <Empty title={query.from === 'wished' ? 'No wish can be stitched from this' : 'Nothing is stitchable from this'}>
          {query.from === 'wished'
            ? 'A wish is a project that is only wanted so far. Choose from all that is stitchable now, add a design by its title, or take other cloth.'
            : 'No design whose threads are all there fits this cloth. Take other cloth, or add a design by its title to see what is in its way.'}
        </Empty>
      ) : (
        <Form action={startChoiceAction} submit="Find the best set" hidden={{ from: also.length > 0 ? 'ticked' : query.from }}>
          <Section
            title="Designs"
            id="designs"
            note={`What each counts can be changed: a wish counts 3, more when it is wanted soon, others 1.`}
          >
            <ul className={s.list}>
              {candidates.map(({ designId, title, value, because, dueOn }) => (
                <li key={designId} className={s.design}>
                  <CheckField
                    name="design"
                    value={designId}
                    defaultChecked
                    label={
                      <>
                        <span className="title">{title}</span>
                        <small>{valueWords({ because, dueOn })}</small>
                      </>
                    }
                  />
                  <NumberField
                    name={`value.${designId}`}
                    isWhole
                    defaultValue={value}
                    label={
                      <>
                        <span className="vh">{title} </span>counts
                      </>
                    }
                  />
                </li>
              ))}
            </ul>
            {usual.passedOver.designs > 0 && (
              <p className="quiet">
                {mostDesignsWeighed} are weighed at a time: {counted(usual.passedOver.designs, 'more design')} could be stitched
                and are left aside.
              </p>
            )}
          </Section>
          <Section title="Cloth" id="cloth" note="Reserved pieces are never cut.">
            <Unfold label={`${counted(pieces.length, 'piece')} may be cut`}>
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
                            {piece.isSquared ? '' : ', not squared yet'}
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
                {mostPiecesWeighed} are weighed at a time, the largest: {counted(usual.passedOver.pieces, 'smaller piece')}{' '}
                {usual.passedOver.pieces === 1 ? 'is' : 'are'} left aside.
              </p>
            )}
          </Section>
          <SelectField
            name="seconds"
            label="Search for at most"
            defaultValue={String(usualLimit)}
            options={choiceLimits.map((seconds) => ({ value: String(seconds), label: limitWords(seconds) }))}
            hint="It ends sooner when nothing better can be; what it finds by then is as good as was found."
          />
        </Form>
      )}
      <Never answers={answers} never={never} unit={unit} isOpen={also.length > 0 && never.length > 0} />
    </>
  )
}

function findCalled(answers: Answers, words: string): string[] {
  const ids = answers.search
    .search(words, { limit: mostFound, noun: 'design' })
    .hits.map(({ id }) => id.slice('design:'.length))
    .filter((id) => answers.world.designs.has(id))
  const exact = ids.filter((id) => answers.world.designs.get(id)?.design.title.toLowerCase() === words.toLowerCase())
  return exact.length > 0 ? exact : ids
}

function FoundDesigns({ answers, query, found }: { answers: Answers; query: ChoosePageQuery; found: readonly string[] }) {
  if (query.q === '' || found.length === 1) return null
  if (found.length === 0) return <Notice kind="caution" title={`No design is called ${query.q}. Give a part of its title.`} />
  return (
    <ul className={s.found} aria-label="Designs found">
      {found.map((id) => {
        const fields = [['from', query.from], ['kind', query.kind], ...[...query.also, id].map((one) => ['also', one])]
        return (
          <li key={id}>
            <span className="title">{answers.world.designs.get(id)?.design.title}</span>
            <Link href={`/cloth/choose?${new URLSearchParams(fields.filter(([, value]) => value !== '') as [string, string][])}`}>
              Add it
            </Link>
          </li>
        )
      })}
    </ul>
  )
}

type NeverProps = { answers: Answers; never: readonly NeverChosen[]; unit: LengthUnit; isOpen: boolean }

function Never({ answers, never, unit, isOpen }: NeverProps) {
  if (never.length === 0) return null
  const { names, length } = namesIn(answers)
  return (
    <div className={s.gap}>
      <Unfold label={`${counted(never.length, 'design')} not to be chosen, and why`} isOpenAtFirst={isOpen}>
        <WhyList designs={never.map((one) => ({ ...one, why: [neverWords(one, names, length, unit)] }))} />
      </Unfold>
    </div>
  )
}
