import type { Metadata } from 'next'
import { z } from 'zod'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { getAnswers } from '#lib/db/answers/get-answers'
import { listConversionLists, listConversions } from '#lib/db/thread/conversions'
import { listLines } from '#lib/db/thread/list-lines'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { FieldRow, FileField, SelectField, TextArea, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { lineTitle } from '#words/thread'
import { previewListAction, removeListAction } from './actions'
import { pairColumns } from './pair-columns'

export const generateMetadata = (): Metadata => ({ title: say('Conversion lists') })

const shownAtOnce = 200

const addressSchema = z.object({
  list: z.string().max(200).optional().catch(undefined),
  added: z.coerce.number().int().min(0).optional().catch(undefined),
  known: z.coerce.number().int().min(0).optional().catch(undefined),
})

type Props = { searchParams: Promise<Record<string, unknown>> }

export default async function ConversionsPage({ searchParams }: Props) {
  const { list, added, known } = addressSchema.parse(await searchParams)
  const [lists, lines] = await Promise.all([listConversionLists(), listLines()])
  const open = lists.find(({ sourceKey }) => sourceKey === list) ?? null
  const pairs = open ? await listConversions(open.sourceKey, { limit: shownAtOnce }) : []
  const answers = await getAnswers()
  const lineOptions = lines.map((line) => ({ value: line.id, label: lineTitle(line) }))
  return (
    <>
      <PageHead
        crumbs={[{ label: say('Threads'), href: '/threads' }, { label: say('Conversion lists') }]}
        title={say('Conversion lists')}
      >
        <p>
          {say(
            'Conversion lists are opinions, one way, and they disagree. Each is kept under the name of who says so, shown beside the swaps it bears on, and never counted as accepted. Two are never joined into a third.',
          )}
        </p>
      </PageHead>
      {open && added !== undefined && (
        <Notice
          kind="done"
          title={say('{added, plural, one {# opinion} other {# opinions}} of {sourceName} kept.', {
            added,
            sourceName: open.sourceName,
          })}
        >
          {known ? say('{known} it said already.', { known }) : undefined}
        </Notice>
      )}
      <Section title={say('Lists on record')}>
        {lists.length === 0 ? (
          <Empty>{say('No list yet. Paste one below, and what it says is shown wherever a stand-in is looked for.')}</Empty>
        ) : (
          <Ledger
            caption={say('Lists on record')}
            rows={lists}
            rowKey={({ sourceKey, sourceName }) => `${sourceKey} ${sourceName}`}
            columns={[
              {
                key: 'name',
                head: say('Who says so'),
                phone: 'lead',
                cell: ({ sourceKey, sourceName }) => (
                  <Link href={`/threads/conversions?${new URLSearchParams({ list: sourceKey })}`}>{sourceName}</Link>
                ),
              },
              { key: 'pairs', head: say('Says'), phone: 'line', cell: ({ pairCount }) => counted(pairCount, 'opinion') },
              {
                key: 'remove',
                head: say('Remove'),
                headIsHidden: true,
                phone: 'side',
                isAtEnd: true,
                isOffPaper: true,
                cell: ({ sourceKey, sourceName, pairCount }) => (
                  <ConfirmDialog
                    opener={sayParts('Remove{sourceName}', { sourceName: <span className="vh"> {sourceName}</span> })}
                    openerKind="quiet"
                    title={say('Remove what {sourceName} says?', { sourceName })}
                    confirm={say('Remove it')}
                    action={removeListAction}
                    hidden={{ sourceKey }}
                  >
                    <p>
                      {say(
                        'All {pairCount, plural, one {# opinion} other {# opinions}} of it. Stand-ins that were accepted stay. It cannot be undone, but the list can be brought again.',
                        { pairCount },
                      )}
                    </p>
                  </ConfirmDialog>
                ),
              },
            ]}
          />
        )}
      </Section>
      {open && (
        <Section
          title={open.sourceName}
          note={
            open.pairCount > shownAtOnce
              ? say('The first {shownAtOnce} of {pairCount}.', { shownAtOnce, pairCount: open.pairCount })
              : undefined
          }
        >
          <Ledger
            caption={say('What {sourceName} says', { sourceName: open.sourceName })}
            rows={pairs}
            rowKey={({ id }) => id}
            isTight
            columns={pairColumns(answers)}
          />
        </Section>
      )}
      <Section title={say('Bring a list')} id="bring" note={say('Nothing is kept before you have seen how it reads.')}>
        <Form action={previewListAction} submit={say('See how it reads')}>
          <TextField
            name="sourceName"
            label={say('Who says so')}
            hint={say('A name to know the list by. A list of the same name is added to.')}
            isRequired
            maxLength={100}
          />
          <FieldRow>
            <SelectField
              name="lineId"
              label={say('Codes on the left are of')}
              none={say('each row says its maker')}
              options={lineOptions}
              width="half"
            />
            <SelectField
              name="otherLineId"
              label={say('Codes on the right are of')}
              none={say('each row says its maker')}
              options={lineOptions}
              width="half"
            />
          </FieldRow>
          <TextArea
            name="text"
            label={say('The list')}
            hint={say(
              'A line each: Larkholm 0311 → Brindlequay 17. Two columns with a comma, semicolon or tab between do as well, or four or six: maker, code, or maker, line, code, of each.',
            )}
            rows={8}
          />
          <FileField name="file" label={say('or as a file')} accept=".csv,.txt,.tsv,text/csv,text/plain" />
        </Form>
      </Section>
    </>
  )
}
