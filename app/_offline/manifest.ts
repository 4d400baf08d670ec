import type { MetadataRoute } from 'next'
import { language } from '#language/language'
import { say } from '#language/say'

const png = (file: string, sizes: string, purpose: 'any' | 'maskable' = 'any') => ({
  ...{ src: `/icons/${file}`, sizes, purpose, type: 'image/png' },
})

/** What a phone or desk needs to keep the program among its own. */
export const manifest = (): MetadataRoute.Manifest => ({
  ...{ id: '/', start_url: '/', scope: '/', display: 'standalone', lang: language().tag, dir: language().direction },
  name: 'Chart Larder',
  short_name: say('Larder'),
  description: say('What can be stitched from stash, what cloth to cut for it, and where each thing is.'),
  ...{ background_color: '#fbf7ee', theme_color: '#fbf7ee' },
  categories: ['productivity', 'lifestyle'],
  icons: [
    png('larder-192.png', '192x192'),
    png('larder-512.png', '512x512'),
    png('larder-maskable-192.png', '192x192', 'maskable'),
    png('larder-maskable-512.png', '512x512', 'maskable'),
    { src: '/icon.svg', sizes: 'any', type: 'image/svg+xml' },
  ],
  shortcuts: [
    { name: say('Find'), url: '/?focus=1', icons: [png('find-96.png', '96x96')] },
    { name: say('Pull'), url: '/walks', icons: [png('pull-96.png', '96x96')] },
    { name: say('Stitchable now'), url: '/charts?stitchableNow=1', icons: [png('stitchable-96.png', '96x96')] },
  ],
})
