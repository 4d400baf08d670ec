import { describe, expect, it } from 'vitest'
import { type Asked, courseOf, drawerTurn, isForTheDrawer, keptAs } from '../../../app/_offline/course'

const page: Asked = {
  ...{ method: 'GET', path: '/places', search: '', isOwn: true, isNavigation: true, isPart: false, isAhead: false },
}
const courseFor = (asked: Partial<Asked>) => courseOf({ ...page, ...asked })

describe('how a device answers a request', () => {
  it('keeps nothing of what is not a look, whatever its address', () => {
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE', 'HEAD', 'OPTIONS'])
      for (const path of ['/', '/places', '/_next/static/chunks/a.js', '/photos/a.webp', '/api/v1/counts'])
        expect(courseFor({ method, path })).toBe('network')
  })

  it('leaves other addresses alone', () => {
    expect(courseFor({ isOwn: false })).toBe('network')
  })

  it('throws everything away when somebody signs out', () => {
    expect(courseFor({ method: 'POST', path: '/sign-out' })).toBe('forget')
  })

  it.each([
    ['/', '', 'page'],
    ['/', '?focus=1', 'page'],
    ['/', '?q=', 'page'],
    ['/', '?q=rook', 'told'],
    ['/offline', '', 'told'],
    ['/places/0197a1b2-0000-7000-8000-000000000000', '', 'page'],
    ['/charts', '?stitchableNow=1', 'page'],
    ['/account', '', 'listen'],
    ['/settings/people/log', '', 'listen'],
    ['/sign-in', '?to=%2Fplaces', 'listen'],
    ['/archive/everything', '', 'listen'],
    ['/buy/lists/1/list.pdf', '', 'network'],
    ['/calendar/feed/secret.ics', '', 'network'],
  ])('%s%s is answered as %s', (path, search, course) => {
    expect(courseFor({ path, search })).toBe(course)
  })

  it('keeps what is built, and photographs', () => {
    expect(courseFor({ path: '/_next/static/chunks/a1b2.js', isNavigation: false })).toBe('build')
    expect(courseFor({ path: '/_next/static/media/a-latin.woff2', isNavigation: false })).toBe('build')
    expect(courseFor({ path: '/_next/data/x.json', isNavigation: false })).toBe('network')
    expect(courseFor({ path: '/icons/larder-192.png', isNavigation: false })).toBe('build')
    expect(courseFor({ path: '/photos/a.webp', isNavigation: false })).toBe('picture')
  })

  it('listens to the API and to parts that are only fetched ahead, and keeps none of them', () => {
    expect(courseFor({ path: '/api/v1/walks/1/ticks', search: '?since=4', isNavigation: false })).toBe('listen')
    expect(courseFor({ isPart: true, isNavigation: false })).toBe('part')
    expect(courseFor({ isPart: true, isAhead: true, isNavigation: false })).toBe('listen')
    expect(courseFor({ path: '/settings', isPart: true, isNavigation: false })).toBe('listen')
  })

  it('keeps a page under one address, wherever the cursor stood', () => {
    expect(keptAs('/', '?focus=1')).toBe('/')
    expect(keptAs('/places', '?_rsc=1a2b3&page=2')).toBe('/places?page=2')
  })

  it('offers first what is walked with', () => {
    const id = '0197a1b2-0000-7000-8000-000000000000'
    const paths = ['/charts', `/places/${id}`, '/walks', '/places', `/count/${id}`, '/']
    expect(paths.toSorted((a, b) => drawerTurn(a) - drawerTurn(b))).toEqual(paths.toReversed())
  })

  it('knows the screens for one hand', () => {
    expect(isForTheDrawer('/walks/0197a1b2-0000-7000-8000-000000000000')).toBe(true)
    expect(isForTheDrawer('/count/0197a1b2-0000-7000-8000-000000000000')).toBe(true)
    expect(isForTheDrawer('/count/0197a1b2-0000-7000-8000-000000000000/differences')).toBe(false)
    expect(isForTheDrawer('/charts')).toBe(false)
  })
})
