import sharp from 'sharp'

/** A cover of blocks and discs, the same for the same seed, 600 × 800. */
export async function randomFrom(seed: number): Promise<Buffer> {
  let state = seed * 9_301 + 49_297
  const next = () => {
    state = (state * 9_301 + 49_297) % 233_280
    return state / 233_280
  }
  const shapes = Array.from({ length: 14 }, () => {
    const colour = `hsl(${Math.floor(next() * 360)} ${30 + Math.floor(next() * 50)}% ${20 + Math.floor(next() * 60)}%)`
    return next() < 0.5
      ? `<rect x="${next() * 500}" y="${next() * 700}" width="${40 + next() * 220}" height="${40 + next() * 220}" fill="${colour}"/>`
      : `<circle cx="${next() * 600}" cy="${next() * 800}" r="${20 + next() * 130}" fill="${colour}"/>`
  })
  const ground = `<rect width="600" height="800" fill="hsl(${(seed * 40) % 360} 30% 85%)"/>`
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="600" height="800">${ground}${shapes.join('')}</svg>`
  return sharp(Buffer.from(svg)).png().toBuffer()
}
