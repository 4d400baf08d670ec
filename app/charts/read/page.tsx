import type { Metadata } from 'next'
import { z } from 'zod'
import { say, sayings } from '#language/say'
import { findDesign } from '#lib/db/chart/find-design'
import { listStagedReadings, type StagedReading } from '#lib/db/reading/reading-store'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FileField, TextArea } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { UploadGuard } from '#ui/upload-guard'
import { getViewer } from '#viewer/viewer'
import { ownUseWords } from '../../_files/words'
import { readFilesAction, readTextAction } from '../../_reading/actions'
import { ReadingStateWord } from './reading-state'
import { RefreshWhileReading } from './refresh-while-reading'
import { SendWhenChosen } from './send-when-chosen'
import s from './start.module.css'

export const generateMetadata = (): Metadata => ({ title: say('Read a key') })

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

const mostMegabytes = 50
const querySchema = z.object({ design: z.string().optional().catch(undefined) })
const accepted = '.pdf,application/pdf,image/jpeg,image/png,image/webp'

export default async function ReadPage({ searchParams }: Props) {
  const { design: designId } = querySchema.parse(await searchParams)
  const { owners, ownerIds } = await getViewer()
  const [detail, readings] = await Promise.all([designId ? findDesign(designId) : null, listStagedReadings(ownerIds)])
  const hidden = { designId: detail?.design.id ?? '' }
  return (
    <>
      <PageHead
        title={detail ? say('Read a key of {title}', { title: detail.design.title }) : say('Read a key')}
        crumbs={[
          { label: say('Charts'), href: '/charts' },
          ...(detail ? [{ label: detail.design.title, href: `/designs/${detail.design.id}` }] : []),
          { label: say('Read a key') },
        ]}
        byline={say(
          'Paste the text of a key, choose its PDF, or photograph it: it is read into a thread list, and nothing is written down before you have looked at it. All of it stays on this machine.',
        )}
      />
      {owners.length === 0 ? (
        <Empty title={say('Whose chart is it?')} actions={<LinkButton href="/settings">{say('Settings')}</LinkButton>}>
          {say('There is no owner yet. Add one in the settings first: your own stash, or the shop.')}
        </Empty>
      ) : (
        <div className={s.ways}>
          <section className={s.paste} aria-labelledby="paste-head">
            <h2 id="paste-head">{say('Paste it')}</h2>
            <Form
              action={readTextAction}
              submit={say('Read the text')}
              pending={say('Reading')}
              hidden={hidden}
              label={say('Paste a key')}
            >
              <TextArea
                name="text"
                label={say('The key’s text')}
                hint={say('As it was copied: free lines or a table, with title and size if they are there')}
                rows={9}
                isRequired
              />
            </Form>
          </section>
          <div className={s.files}>
            <section aria-labelledby="files-head">
              <h2 id="files-head">{say('Choose or drop PDFs')}</h2>
              <UploadGuard mostMegabytes={mostMegabytes}>
                <Form
                  action={readFilesAction}
                  submit={say('Read the files')}
                  pending={say('Sending')}
                  hidden={hidden}
                  clearsWhenDone
                  label={say('Read files')}
                >
                  <FileField
                    name="files"
                    label={say('PDFs or pictures')}
                    hint={say(
                      'One, or a folder’s worth, up to {mostMegabytes} MB together. A picture is JPEG, PNG or WebP; HEIC is not read.',
                      { mostMegabytes },
                    )}
                    accept={accepted}
                    isMany
                    isRequired
                  />
                </Form>
              </UploadGuard>
            </section>
            <section aria-labelledby="photo-head">
              <h2 id="photo-head">{say('Photograph it')}</h2>
              <UploadGuard mostMegabytes={mostMegabytes}>
                <SendWhenChosen>
                  <Form
                    action={readFilesAction}
                    submit={say('Read the photo')}
                    pending={say('Sending')}
                    hidden={hidden}
                    label={say('Photograph a key')}
                  >
                    <FileField
                      name="files"
                      label={say('A photo of the key')}
                      hint={say('Flat, from right above, in even light; the key alone fills the picture')}
                      accept="image/jpeg,image/png,image/webp"
                      capture="environment"
                    />
                  </Form>
                </SendWhenChosen>
              </UploadGuard>
            </section>
          </div>
        </div>
      )}
      <p className={s.own}>{ownUseWords()}</p>
      <Section
        title={say('Readings')}
        id="readings"
        note={say('Each is kept for a day after it was last touched, with your corrections, also for your other devices.')}
      >
        {readings.length === 0 ? (
          <Empty>{say('Nothing is being read or looked over. What you paste or send stands here until it is saved.')}</Empty>
        ) : (
          <>
            <Ledger
              caption={say('Keys that are being read or looked over')}
              rows={readings}
              rowKey={({ id }) => id}
              columns={[
                {
                  key: 'name',
                  head: say('What it is read from'),
                  phone: 'lead',
                  cell: ({ id, name }) => <Link href={`/charts/read/${id}`}>{name}</Link>,
                },
                { key: 'kind', head: say('Kind'), cell: (one) => sourceWords[one.source.kind], width: '8rem', phone: 'side' },
                { key: 'state', head: say('How it stands'), cell: (one) => <ReadingStateWord staged={one} />, phone: 'line' },
              ]}
            />
            <RefreshWhileReading isReading={readings.some(isUnderWay)} />
          </>
        )}
      </Section>
    </>
  )
}

const sourceWords: Record<StagedReading['source']['kind'], string> = sayings({ text: 'Text', pdf: 'PDF', picture: 'Picture' })

const isUnderWay = ({ state }: StagedReading): boolean => state.kind === 'waiting' || state.kind === 'reading'
