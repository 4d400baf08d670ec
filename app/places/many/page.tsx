import type { Metadata } from 'next'
import { z } from 'zod'
import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type ManyPreview, previewManyPlaces } from '#lib/db/place/add-many-places'
import { listPlaces, placeOptions } from '#lib/db/place/queries'
import { nextLabels } from '#lib/place/own-patterns'
import { givenPlaceKinds } from '#lib/place/place'
import type { ManyLine } from '#lib/place/plan-many'
import { textKey } from '#lib/quantity/text-key'
import { PlaceLabel } from '#trade/place-label'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { CheckField, FieldRow, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { kindWord } from '../words'
import { addManyPlacesAction, forgetPatternAction } from './actions'
import s from './many.module.css'
import { PatternHelp } from './pattern-help'
import { manySearchSchema } from './schema'
import { describeManyRefusal, type LevelSum, sumLevels, sumWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Many places at once') })

/** Labels shown of what would be made. */
const linesShown = 96

const doneSchema = z.object({
  made: z.coerce.number().int().min(1).optional().catch(undefined),
  in: z.string().max(64).catch(''),
  kept: z.string().optional().catch(undefined),
})

const levelNames = sayings(['The outermost are', 'Inside them', 'Inside those'])

export default async function ManyPlacesPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const search = await searchParams
  const asked = manySearchSchema.parse(search)
  const done = doneSchema.parse(search)
  const [places, { settings }] = await Promise.all([listPlaces(), getViewer()])
  const options = placeOptions(places)
  const preview = asked.pattern === '' ? null : await previewManyPlaces(asked)
  const parent = options.find(({ id }) => id === asked.parentId)
  const taken = new Set(places.map(({ label }) => textKey(label)))
  const own = settings.labelPatterns.map((pattern) => {
    const inside = places.find(({ id }) => id === pattern.insideId) ?? null
    const next = nextLabels([pattern], inside, (label) => taken.has(textKey(label)))[0]
    return { ...pattern, inside, next }
  })
  return (
    <>
      <PageHead
        title={say('Many places at once')}
        crumbs={[{ label: say('Places'), href: '/places' }, { label: say('Many at once') }]}
        byline={say(
          'A pattern says how the labels go on: columns, the drawers in them and their compartments in one go. You see what would be made before it is.',
        )}
      />
      {done.made !== undefined && (
        <Notice
          kind="done"
          title={say('{made, plural, one {# place} other {# places}} made.', { made: done.made })}
          actions={<LinkButton href={done.in === '' ? '/places' : `/places/${done.in}`}>{say('Look at them')}</LinkButton>}
        >
          {done.kept === 'no' && say('The pattern was not kept: there are as many as can be. Take one away below.')}
        </Notice>
      )}
      <form className={s.form} method="get" action="/places/many">
        <TextField
          name="pattern"
          label={say('Pattern')}
          hint={say(
            'T[2-4] > .[1-5] > -[01-40] makes T2 to T4, in each of them five drawers, in each of those forty compartments',
          )}
          defaultValue={asked.pattern}
          maxLength={200}
          isRequired
        />
        <FieldRow>
          {levelNames.map((name, level) => (
            <SelectField
              key={name}
              name={`kind${level}`}
              label={name}
              options={givenPlaceKinds.map((kind) => ({ value: kind, label: kindWord(kind) }))}
              defaultValue={asked.kinds[level]}
            />
          ))}
        </FieldRow>
        <SelectField
          name="inside"
          label={say('They stand in')}
          options={options.map(({ id, pathText }) => ({ value: id, label: pathText }))}
          none={say('nothing: they stand by themselves')}
          defaultValue={parent?.id ?? ''}
        />
        <ButtonRow>
          <Button type="submit" kind={preview?.ok ? 'plain' : 'first'}>
            {say('Look at what it makes')}
          </Button>
        </ButtonRow>
      </form>
      <div className={s.help}>
        <Unfold label={say('How a pattern is written')}>
          <PatternHelp />
        </Unfold>
      </div>
      {preview && !preview.ok && <Notice kind="refusal" title={describeManyRefusal(preview.error)} />}
      {preview?.ok && (
        <Preview
          preview={preview.value}
          asked={asked}
          insideWords={parent ? say('in {place}', { place: parent.pathText }) : say('standing by themselves')}
        />
      )}
      <Section
        title={say('Patterns of this shop')}
        note={say('A new place gets its label by them, and a label that does not fit is told.')}
      >
        {own.length === 0 ? (
          <p className="quiet">{say('None is kept yet. Tick “Keep this pattern” when you make places by one.')}</p>
        ) : (
          <Ledger
            caption={say('Patterns kept')}
            rows={own}
            rowKey={({ text, insideId }) => `${text} ${insideId}`}
            columns={[
              { key: 'text', head: say('Pattern'), cell: ({ text }) => <b className={s.pattern}>{text}</b>, phone: 'lead' },
              {
                key: 'inside',
                head: say('Begins in'),
                cell: ({ inside, insideId }) =>
                  inside ? (
                    <PlaceLabel label={inside.label} href={`/places/${inside.id}`} />
                  ) : insideId === null ? (
                    say('nothing: by themselves')
                  ) : (
                    say('a place that is gone')
                  ),
                phone: 'labelled',
              },
              {
                key: 'next',
                head: say('Next free'),
                cell: ({ next }) => (next ? next.label : say('none left')),
                phone: 'labelled',
              },
              {
                key: 'use',
                head: say('Use or take away'),
                headIsHidden: true,
                cell: ({ text, kinds, insideId }) => (
                  <span className={s.use}>
                    <LinkButton href={manyHref(text, kinds, insideId)}>
                      {sayParts('Use it{text}', { text: <span className="vh">: {text}</span> })}
                    </LinkButton>
                    <Form
                      action={forgetPatternAction}
                      hidden={{ text, insideId: insideId ?? '' }}
                      submit={sayParts('Take away{text}', { text: <span className="vh"> {text}</span> })}
                      submitKind="quiet"
                      isInline
                    />
                  </span>
                ),
                isAtEnd: true,
                phone: 'wide',
                isOffPaper: true,
              },
            ]}
          />
        )}
      </Section>
    </>
  )
}

function manyHref(text: string, kinds: readonly string[], insideId: string | null): string {
  const query = new URLSearchParams({ pattern: text, inside: insideId ?? '' })
  kinds.forEach((kind, level) => {
    query.set(`kind${level}`, kind)
  })
  return `/places/many?${query}`
}

type PreviewProps = {
  preview: ManyPreview
  asked: { pattern: string; kinds: readonly string[]; parentId: string | null }
  insideWords: string
}

function Preview({ preview, asked, insideWords }: PreviewProps) {
  const { count, lines, formerly } = preview
  const sums = sumLevels(preview)
  const isClashing = count.clash > 0
  const shown = (isClashing ? lines.filter(({ outcome }) => outcome === 'clash') : lines).slice(0, linesShown)
  return (
    <Section
      title={say('What it makes')}
      note={say('{lines, plural, one {# place} other {# places}}, {insideWords}.', { lines: lines.length, insideWords })}
    >
      <Ledger
        caption={say('By level')}
        rows={sums}
        rowKey={({ level }) => level}
        columns={[
          { key: 'kind', head: say('Sort'), cell: ({ kind }: LevelSum) => kind, phone: 'lead' },
          {
            key: 'count',
            head: say('How many'),
            cell: ({ count }: LevelSum) => numberText(count),
            isNumeric: true,
            phone: 'side',
          },
          {
            key: 'labels',
            head: say('Labels'),
            cell: ({ first, last }: LevelSum) => (first === last ? first : say('{first} to {last}', { first, last })),
            phone: 'line',
          },
          { key: 'outcome', head: say('What happens'), cell: (sum: LevelSum) => sumWords(sum), isAtEnd: true, phone: 'line' },
        ]}
      />
      {isClashing && (
        <Notice
          kind="refusal"
          title={say('{clash, plural, one {# label} other {# labels}} taken: nothing can be made so.', { clash: count.clash })}
        >
          {say('Those places stand somewhere else already. Leave them out of the pattern, as in [1-4, 6-8], or move them first.')}
        </Notice>
      )}
      {formerly.length > 0 && (
        <Notice
          kind="caution"
          title={say('{formerly}{rest} stood on other places before.', {
            formerly: listed(formerly.slice(0, 5)),
            rest: formerly.length > 5 ? say(' and {formerly} more', { formerly: formerly.length - 5 }) : '',
          })}
        >
          {say('The new places have the labels then; what they meant before is still told beside them.')}
        </Notice>
      )}
      {!isClashing && (
        <Form
          action={addManyPlacesAction}
          hidden={{
            pattern: asked.pattern,
            inside: asked.parentId ?? '',
            ...Object.fromEntries(asked.kinds.map((kind, level) => [`kind${level}`, kind])),
          }}
          submit={
            count.new > 0 ? say('Make {new, plural, one {# place} other {# places}}', { new: count.new }) : say('Nothing to make')
          }
          pending={say('Making them')}
        >
          <CheckField
            name="keeps"
            label={say('Keep this pattern for this shop')}
            hint={say('New places here are then labelled by it.')}
            defaultChecked
          />
        </Form>
      )}
      <ul className={s.labels} aria-label={isClashing ? say('Labels taken elsewhere') : say('Labels')}>
        {shown.map((line) => (
          <li key={line.label} data-level={line.level}>
            <LineLabel line={line} />
          </li>
        ))}
      </ul>
      {(isClashing ? count.clash : lines.length) > shown.length && (
        <p className="quiet">
          {sayParts('The first {shown} of {isClashing, number} are shown.', {
            shown: shown.length,
            isClashing: isClashing ? count.clash : lines.length,
          })}
        </p>
      )}
    </Section>
  )
}

function LineLabel({ line: { label, outcome, placeId } }: { line: ManyLine }) {
  if (outcome === 'new') return <PlaceLabel label={label} />
  return (
    <PlaceLabel
      label={label}
      href={`/places/${placeId}`}
      isAway={outcome === 'clash'}
      note={outcome === 'there' ? say('there') : say('elsewhere')}
    />
  )
}
