import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { RankedPiece } from '#lib/cloth/choose-piece'
import { sparesFor } from '#lib/coverage/kit-count'
import { listPlaceOptions } from '#lib/db/place/queries'
import { readStartChoices } from '#lib/db/project/start-choices'
import type { Settings } from '#lib/settings/settings'
import { TrayWord } from '#trade/tray'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { CheckField, ChoiceField, DateField, FieldRow, NumberField, SelectField, TextArea, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { fitWords, pieceDescription, pieceName } from '#words/cloth'
import { countWords } from '#words/cloth-count'
import { listStateWords } from '#words/cover'
import { PlanClash } from '../../_loans/plan-clash'
import { startProjectAction } from '../actions'
import { bagLabels } from '../place-suggestions'
import { newPageSchema } from '../schema'

export const generateMetadata = (): Metadata => ({ title: say('Start a project') })

type NewProjectPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function NewProjectPage({ searchParams }: NewProjectPageProps) {
  const asked = newPageSchema.safeParse(await searchParams)
  if (!asked.success) return <ChooseDesign />
  const { settings, owners, ownerIds } = await getViewer()
  const owner = owners.find(({ id }) => id === asked.data.owner) ?? owners.find(({ id }) => id === ownerIds[0])
  if (!owner) notFound()
  const [choices, places] = await Promise.all([readStartChoices(asked.data.design, owner.id, settings), listPlaceOptions()])
  if (!choices) notFound()
  const { design, lists, advised, cloth } = choices
  const { kits, spares, list } = asked.data
  return (
    <>
      <PageHead
        title={design.title}
        isWork
        crumbs={[{ label: say('Projects'), href: '/projects' }, { label: say('Start a project') }]}
        byline={[design.designers.join(', '), design.chartTitle !== design.title && design.chartTitle]
          .filter(Boolean)
          .join(' · ')}
      >
        <p>{sayParts('Start a project from the goods of {name}', { name: owner.name })}</p>
        {owners.length > 1 && (
          <p>
            {say('Or from the goods of')}{' '}
            {owners
              .filter(({ id }) => id !== owner.id)
              .map(({ id, name }, at) => (
                <span key={id}>
                  {at > 0 && ', '}
                  <Link
                    href={`/projects/new?${new URLSearchParams({ design: design.id, owner: id, ...(kits !== undefined && { kits: String(kits), spares: String(spares ?? 0) }) })}`}
                  >
                    {name}
                  </Link>
                </span>
              ))}
            .
          </p>
        )}
      </PageHead>
      <PlanClash designId={design.id} plannedOn={null} asIfToday />
      <Form action={startProjectAction} submit={say('Start it')} hidden={{ designId: design.id, ownerId: owner.id }}>
        {lists.length > 0 ? (
          <ChoiceField
            name="threadListId"
            label={say('Thread list')}
            defaultValue={lists.find(({ id }) => id === list)?.id ?? lists[0]?.id}
            options={lists.map(({ id, name, cover }) => {
              const { state, word, note } = listStateWords(cover)
              return { value: id, label: name, note: <TrayWord state={state} word={word} note={note ?? undefined} /> }
            })}
          />
        ) : (
          <p>{say('This design has no thread list yet, so no thread can be promised. It can be started all the same.')}</p>
        )}
        <FieldRow>
          <SelectField
            name="clothPieceId"
            label={say('Cloth')}
            none={say('None for now')}
            defaultValue={cloth.advised[0]?.fit.kind === 'fits' ? cloth.advised[0].piece.id : ''}
            options={[
              ...pieceOptions(cloth.advised, say('As the chart advises'), settings),
              ...pieceOptions(cloth.other, say('Other cloth it fits on'), settings),
            ]}
            hint={clothHint(cloth, settings)}
          />
          <SelectField
            name="over"
            label={say('Worked over')}
            width="half"
            none={advised ? say('As the chart says: {over}', { over: advised.over }) : say('As the cloth is usually worked')}
            options={[
              { value: '1', label: say('One thread') },
              { value: '2', label: say('Two threads') },
            ]}
          />
        </FieldRow>
        <FieldRow>
          <TextField
            name="bagLabel"
            label={say('Bag')}
            hint={say('The label on it; a new one is added to the places')}
            suggestions={bagLabels(places)}
            width="half"
            maxLength={60}
          />
          <NumberField
            name="quantity"
            label={say('How many')}
            defaultValue={kits ?? 1}
            isWhole
            hint={say('Of the same: kits, or a pair')}
          />
          <NumberField
            name="spares"
            label={say('Spare kits')}
            defaultValue={spares ?? (kits !== undefined && kits > 1 ? sparesFor(kits) : undefined)}
            isWhole
            hint={say('Beside them: one to each dozen is usual, at least one')}
          />
        </FieldRow>
        <FieldRow>
          <TextField name="forWhom" label={say('For whom')} width="half" maxLength={120} />
          <DateField name="dueOn" label={say('Due')} />
          <DateField name="plannedOn" label={say('To be begun')} />
        </FieldRow>
        <TextArea name="note" label={say('Note')} rows={2} />
        <CheckField
          name="isWish"
          label={say('Only wanted for now')}
          hint={say('Goes on the list of wishes. No thread is promised and no cloth kept until you plan it.')}
        />
      </Form>
    </>
  )
}

const ChooseDesign = () => (
  <>
    <PageHead
      title={say('Start a project')}
      crumbs={[{ label: say('Projects'), href: '/projects' }, { label: say('Start a project') }]}
    />
    <Empty title={say('Which design?')} actions={<LinkButton href="/charts">{say('Charts')}</LinkButton>}>
      {say('Open a design and press “Start this” there.')}
    </Empty>
  </>
)

/** How many pieces are offered of each sort; a shop has hundreds that would do. */
const piecesOffered = 40

const pieceOptions = (ranked: readonly RankedPiece[], group: string, settings: Settings) =>
  ranked.slice(0, piecesOffered).map(({ piece, fit }) => ({
    value: piece.id,
    label: `${pieceName(piece)}: ${pieceDescription(piece)}, ${formatClothSize(piece, settings.lengthUnit)}, ${fitWords(fit, settings.lengthUnit)}`,
    group,
  }))

function clothHint(cloth: { advised: RankedPiece[]; other: RankedPiece[] }, settings: Settings): string {
  const best = cloth.advised[0] ?? cloth.other[0]
  if (!best) return say('No piece that is free takes this design; it can be chosen later.')
  const { cut } = best.fit
  const { piece } = best
  return say('Best fits first. From {pieceName} ({ends}) cut {cut}.', {
    pieceName: pieceName(piece),
    ends: countWords(piece.ends, piece.picks),
    cut: formatClothSize(cut, settings.lengthUnit),
  })
}
