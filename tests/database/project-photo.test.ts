import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { drawingsDone } from '#lib/db/photo/draw-later'
import { findPhoto, keepPhoto, readPhotoFile, removePhoto } from '#lib/db/photo/photo-files'
import { forgetLook, readLooks } from '#lib/db/photo/photo-looks'
import { mostPhotoBytes, preparePhoto } from '#lib/db/photo/prepare-photo'
import { finishProject } from '#lib/db/project/finish-project'
import { findProject } from '#lib/db/project/queries'
import { setPhoto } from '#lib/db/project/set-photo'
import { avifThumbName, thumbName } from '#lib/photo/photo-name'
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
    const avif = await sharp(photo.value.thumbAvif).metadata()
    expect([avif.format, avif.compression, avif.width, avif.height]).toEqual(['heif', 'av1', 240, 480])
    const { blurBase64, ...size } = photo.value.look
    expect(size).toEqual({ widthPx: 1_000, heightPx: 2_000 })
    const blur = await sharp(Buffer.from(blurBase64, 'base64')).metadata()
    expect([blur.format, blur.width, blur.height]).toEqual(['webp', 10, 20])
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
    expect(kept()).toEqual(expect.arrayContaining([first, second, thumbName(second), avifThumbName(second)]))
    const rows = await prisma.photoLook.findMany({ where: { file: { in: [first, second] } } })
    expect(rows.map(({ file }) => file).sort()).toEqual([first, second].sort())
  })

  it('draws what an old photo lacks when it is asked for', async () => {
    const { prisma } = open()
    const name = await keepPhoto(await prepared())
    rmSync(path.join(folder, 'uploads', 'photos', avifThumbName(name)))
    const get = (accept: string) =>
      GET(new Request('http://127.0.0.1/', { headers: { accept } }), { params: Promise.resolve({ name: thumbName(name) }) })
    expect((await get('image/avif,image/webp,*/*')).headers.get('content-type')).toBe('image/webp')
    await drawingsDone()
    const answer = await get('image/avif,image/webp,*/*')
    expect([answer.headers.get('content-type'), answer.headers.get('vary')]).toEqual(['image/avif', 'Accept'])
    expect((await sharp(new Uint8Array(await answer.arrayBuffer())).metadata()).compression).toBe('av1')
    expect((await get('image/webp')).headers.get('content-type')).toBe('image/webp')

    const row = () => prisma.photoLook.findUnique({ where: { file: name } })
    expect(await row()).toBeNull()
    expect((await readLooks([name, null, 'old.jpg', `${newId()}.webp`])).get(name)).toMatchObject({ widthPx: 40, heightPx: 30 })
    expect(await row()).toMatchObject({ widthPx: 40, heightPx: 30 })
    expect((await readLooks([name])).size).toBe(1)
    await forgetLook(name)
    expect(await row()).toBeNull()
    await removePhoto(name)
    expect(await readPhotoFile(avifThumbName(name))).toBeNull()
  })

  it('keeps no blur of a photo that can be seen through, and looks at many in the background', async () => {
    const clear = await sharp({ create: { width: 30, height: 30, channels: 4, background: '#8e2f2b80' } })
      .png()
      .toBuffer()
    const photo = await preparePhoto(clear)
    if (!photo.ok) throw new Error(photo.error.kind)
    expect(photo.value.look).toMatchObject({ widthPx: 30, heightPx: 30 })
    const pixel = await sharp(Buffer.from(photo.value.look.blurBase64, 'base64'))
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true })
    expect([pixel.info.width, pixel.info.height, pixel.data[3]]).toEqual([1, 1, 0])
    const names: string[] = []
    const { full, thumb, thumbAvif } = await prepared()
    for (let count = 0; count < 14; count++) names.push(await keepPhoto({ full, thumb, thumbAvif }))
    expect((await readLooks(names)).size).toBe(12)
    await drawingsDone()
    expect(await open().prisma.photoLook.count({ where: { file: { in: names } } })).toBe(14)
  })
})
