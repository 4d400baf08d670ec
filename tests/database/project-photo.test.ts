import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { findPhoto, keepPhoto, thumbName } from '#lib/db/photo/photo-files'
import { mostPhotoBytes, preparePhoto } from '#lib/db/photo/prepare-photo'
import { finishProject } from '#lib/db/project/finish-project'
import { findProject } from '#lib/db/project/queries'
import { setPhoto } from '#lib/db/project/set-photo'
import { GET } from '../../app/photos/[name]/route'
import { describeOnEachEngine } from './engines'
import { addCharted, hanneDrewitt } from './things'

const plain = (width: number, height: number) => sharp({ create: { width, height, channels: 3, background: '#8e2f2b' } })

const prepared = async () => {
  const photo = await preparePhoto(await plain(40, 30).png().toBuffer())
  if (!photo.ok) throw new Error(photo.error.kind)
  return photo.value
}

describeOnEachEngine('photos of finished work', ({ open }) => {
  let folder = ''
  const before = process.env.LARDER_DATA
  const kept = () => readdirSync(path.join(folder, 'uploads', 'photos'))

  beforeAll(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-photos-'))
    process.env.LARDER_DATA = folder
  })
  afterAll(() => {
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  it('turns a photo upright, makes it small enough, and leaves out where it was taken', async () => {
    const jpeg = await plain(3_000, 1_500)
      .jpeg()
      .withExif({ IFD0: { Copyright: 'Nell Oxtoby' }, IFD3: { GPSLatitude: '51/1 30/1 0/1' } })
      .withMetadata({ orientation: 6 })
      .toBuffer()
    const photo = await preparePhoto(jpeg)
    if (!photo.ok) throw new Error(photo.error.kind)
    const full = await sharp(photo.value.full).metadata()
    expect([full.format, full.width, full.height]).toEqual(['webp', 1_000, 2_000])
    expect([full.exif, full.xmp, full.iptc]).toEqual([undefined, undefined, undefined])
    const thumb = await sharp(photo.value.thumb).metadata()
    expect([thumb.format, thumb.width, thumb.height]).toEqual(['webp', 240, 480])
  })

  it('goes by what the file is, not by what it says', async () => {
    const text = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>')
    expect(await preparePhoto(text)).toMatchObject({ ok: false, error: { kind: 'not-a-photo' } })
    const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic'), Buffer.alloc(64)])
    expect(await preparePhoto(heic)).toEqual({ ok: false, error: { kind: 'photo-heic' } })
    const gif = await plain(4, 4).gif().toBuffer()
    expect(await preparePhoto(gif)).toEqual({ ok: false, error: { kind: 'not-a-photo', found: 'image/gif' } })
    const cutOff = (await plain(400, 400).png().toBuffer()).subarray(0, 200)
    expect(await preparePhoto(cutOff)).toEqual({ ok: false, error: { kind: 'photo-unreadable' } })
    expect(await preparePhoto(new Uint8Array(mostPhotoBytes + 1))).toEqual({
      ok: false,
      error: { kind: 'photo-too-large', bytes: mostPhotoBytes + 1, mostBytes: mostPhotoBytes },
    })
  })

  it('serves what it kept, and nothing else', async () => {
    const name = await keepPhoto(await prepared())
    const get = (asked: string) => GET(new Request('http://127.0.0.1/'), { params: Promise.resolve({ name: asked }) })
    const answer = await get(thumbName(name))
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toBe('image/webp')
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
    expect(answer.headers.get('cache-control')).toContain('immutable')
    expect((await sharp(new Uint8Array(await answer.arrayBuffer())).metadata()).width).toBe(40)
    for (const asked of [
      '../../larder.db',
      `${name}/..`,
      `..%2F${name}`,
      name.toUpperCase(),
      `${newId()}.webp`,
      `${name}.part`,
    ]) {
      expect(await findPhoto(asked)).toBeNull()
      expect((await get(asked)).status).toBe(404)
    }
    expect(kept().some((file) => file.endsWith('.part'))).toBe(false)
  })

  it('shows a project by its photo, and keeps none for a write that was refused', async () => {
    const { prisma } = open()
    const [ownerId, designId, projectId] = [newId(), newId(), newId()]
    await prisma.owner.create({ data: hanneDrewitt(ownerId) })
    await addCharted(open(), { ownerId, title: 'Little Barge', designId })
    await prisma.project.create({ data: { id: projectId, designId, ownerId, status: 'planned' } })
    const before = kept().length
    const finish = {
      ...{ projectId, finishedOn: '2026-11-20', hoursTenths: 0, stitchesDone: 0, used: [], missingBatchIds: [] },
      ...{ cloth: { kind: 'not-used' as const }, finishing: null, forWhom: null, placeLabel: null, note: null },
    }
    expect(await finishProject({ ...finish, photo: await prepared() })).toMatchObject({ ok: false })
    expect(kept()).toHaveLength(before)

    await prisma.project.update({ where: { id: projectId }, data: { status: 'stitching' } })
    expect(await finishProject({ ...finish, photo: await prepared() })).toMatchObject({ ok: true })
    const first = (await findProject(projectId))?.photoFile as string
    expect(kept()).toContain(first)
    expect((await setPhoto({ projectId, photo: await prepared() })).ok).toBe(true)
    const second = (await findProject(projectId))?.photoFile as string
    expect(second).not.toBe(first)
    expect(kept()).toEqual(expect.arrayContaining([first, second, thumbName(second)]))
  })
})
