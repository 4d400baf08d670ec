import { z } from 'zod'
import type { ScannedAnswer } from '#lib/db/label/find-scanned'
import { scannedNouns, scannedPath } from '#lib/label/read-scanned'
import { scannedTitle } from '#words/scan'
import { operation } from './operation'

export const readScannedOperation = operation({
  method: 'get',
  path: '/scan',
  id: 'readScanned',
  group: 'Places',
  summary: 'What a scanned or typed text means',
  description:
    'The link on a label of ours, the bars of a thread, what a label says or said, an exact code, the label of a piece of cloth. Of a link only page and id are looked at; its address is never gone to.',
  query: z.strictObject({ text: z.string().trim().min(1).max(400) }),
  answer: z
    .strictObject({
      how: z.enum(['link', 'bars', 'words', 'none']),
      things: z.array(
        z.strictObject({
          noun: z.enum(scannedNouns),
          id: z.string(),
          title: z.string(),
          label: z.string().nullable().meta({ description: 'Of a place or a piece of cloth, what its label says.' }),
          path: z.string().meta({ description: 'Its page, after the address of the collection.' }),
        }),
      ),
      meant: z
        .array(z.strictObject({ placeId: z.string(), label: z.string() }))
        .meta({ description: 'Places that had this label before, or what they became.' }),
    })
    .meta({ id: 'ScanAnswer' }),
  answerMeans: 'Everything on record that answers to it; nothing when it is none of ours.',
  example: {
    answer: {
      how: 'words' as const,
      things: [{ noun: 'place' as const, id: 'p2', title: 'T2.1-14', label: 'T2.1-14', path: '/places/p2' }],
      meant: [],
    },
  },
})

export const describeScanned = ({ how, things, old }: ScannedAnswer) => ({
  how,
  things: things.map((thing) => ({
    ...{ noun: thing.noun, id: thing.id, title: scannedTitle(thing), path: scannedPath(thing) },
    label: thing.noun === 'place' ? thing.place.label : thing.noun === 'cloth' ? thing.label : null,
  })),
  meant: (old?.former ?? []).map(({ place }) => ({ placeId: place.id, label: place.label })),
})
