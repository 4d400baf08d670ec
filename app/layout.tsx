import { say } from '#language/say'
import '@fontsource-variable/newsreader'
import '@fontsource-variable/source-sans-3'
import './_ui/tokens.css'
import './_ui/ground.css'
import type { Metadata, Viewport } from 'next'
import { cookies, headers } from 'next/headers'
import type { ReactNode } from 'react'
import { language } from '#language/language'
import { mayDo } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { SignedInLine } from './_gate/signed-in-line'
import { browserFileOf } from './_language/catalogues'
import { NewerLine } from './_offline/newer-line'
import { isOfflineOffered } from './_offline/offered'
import { OfflineCare } from './_offline/offline-care'
import { SeenLine } from './_offline/seen-line'
import { PaletteOpener } from './_palette/opener'
import { readTour, tourCookie } from './_tour/tour-state'
import { TourWhenOn } from './_tour/tour-when-on'
import { OwnerSwitch } from './_trade/owner-switch'
import type { NavItem } from './_ui/nav'
import { Shell } from './_ui/shell'
import { findTheme, themeCookie } from './_ui/theme'
import { sans } from './_ui/type'
import { chooseOwnerAction } from './_viewer/actions'
import { getViewer } from './_viewer/viewer'

export const generateMetadata = (): Metadata => ({
  title: { default: 'Chart Larder', template: '%s · Chart Larder' },
  description: say('What can be stitched from stash, what cloth to cut for it, and where each thing is.'),
  manifest: `/manifest.webmanifest?language=${language().key}`,
  icons: { icon: '/icon.svg', apple: '/icons/larder-180.png' },
  appleWebApp: { title: say('Larder'), capable: true, statusBarStyle: 'default' },
})

export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  viewportFit: 'cover',
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#fbf7ee' },
    { media: '(prefers-color-scheme: dark)', color: '#1a1714' },
  ],
}

const screens = (): readonly NavItem[] => [
  { href: '/', label: say('Find'), isKey: true },
  { href: '/charts', label: say('Charts'), isKey: true },
  { href: '/threads', label: say('Threads') },
  { href: '/cloth', label: say('Cloth') },
  { href: '/places', label: say('Places'), isKey: true },
  { href: '/projects', label: say('Projects'), isKey: true },
  { href: '/calendar', label: say('By when') },
  { href: '/buy', label: say('Buy') },
  { href: '/count', label: say('Count') },
  { href: '/finishes', label: say('Finishes') },
  { href: '/bring-in', label: say('Bring in') },
  { href: '/settings', label: say('Settings') },
]

export default async function RootLayout({ children }: { children: ReactNode }) {
  const asks = who()
  const [jar, viewer] = await Promise.all([cookies(), asks.kind === 'nobody' ? null : getViewer()])
  const tour = readTour(jar.get(tourCookie)?.value)
  const theme = findTheme(jar.get(themeCookie)?.value)
  const { tag, direction } = language()
  const words = browserFileOf(language())
  return (
    <html lang={tag} dir={direction} className={sans.variable} data-theme={theme ?? undefined} suppressHydrationWarning>
      {words && (
        <head>
          {/* Before anything else runs: what is said in the browser has to be the same as what came from the server. */}
          <script src={words.address} nonce={await pageNonce()} suppressHydrationWarning />
        </head>
      )}
      <body>
        <Shell
          mark="Chart Larder"
          items={viewer ? screens() : []}
          aside={
            viewer && viewer.owners.length > 0 ? (
              <OwnerSwitch owners={viewer.owners} chosen={viewer.ownerIds} action={chooseOwnerAction} />
            ) : null
          }
          opener={
            viewer && viewer.owners.length > 0 ? (
              <PaletteOpener
                screens={screens().map(({ href, label }) => ({ href, label }))}
                ownerIds={viewer.ownerIds}
                mayChange={mayDo(asks, 'change')}
                mayKeep={mayDo(asks, 'keep')}
                isShared={asks.kind === 'account'}
              />
            ) : null
          }
          strip={viewer && tour && !tour.isLeft && <TourWhenOn state={tour} />}
          above={asks.kind === 'account' ? <SignedInLine name={asks.name} isLooker={asks.role === 'looker'} /> : null}
          line={<SeenLine />}
        >
          {children}
        </Shell>
        <OfflineCare isOffered={isOfflineOffered()} />
        <NewerLine />
      </body>
    </html>
  )
}

/** The number that this answer's scripts carry (app/_gate/page-policy.ts). */
const pageNonce = async (): Promise<string | undefined> =>
  /'nonce-([^']+)'/.exec((await headers()).get('content-security-policy') ?? '')?.[1]
