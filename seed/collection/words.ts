import type { Random } from '../random'

/** Words that titles, colours and names of made-up collections are put together from; all invented or plain English. */
const adjectives = `
old small blue red winter quiet copper silver amber green golden early late bright narrow crooked painted hidden gentle frosted
autumn summer spring midnight morning evening sunday market harvest garden orchard meadow woodland river harbour moorland
northern southern distant mended patched folded striped speckled dappled feathered ivory rosy russet plum scarlet mossy misty
salted honeyed smoky dusty wandering sleeping watchful humble grand seventh second last first twin
`
const nouns = `
wren heron goose swan robin owl rook kestrel lapwing plover finch swallow lark dove hare badger fox otter mouse hedgehog ram ewe
lamb pony donkey mare cat hound bee moth beetle dragonfly snail salmon cottage mill barn tower bridge gate lighthouse chapel inn
bakery forge granary windmill dovecote greenhouse schoolhouse boathouse kettle teapot jug lantern candle basket quilt thimble
scissors bobbin ladle bell clock compass anchor barge schooner ketch rowing-boat wagon sledge kite drum fiddle ledger letter
almanac verse alphabet sampler border band garland wreath posy nosegay rose tulip iris foxglove poppy daisy violet snowdrop
thistle clover heather bramble fern ivy holly oak willow larch rowan hazel apple pear quince cherry medlar damson strawberry
acorn pumpkin barley sheaf orchard hedge meadow marsh moor staithe ferry tide shore star moon snow frost rain rainbow morning
evening midsummer harvest wedding christening homecoming journey pilgrim shepherd miller weaver ferryman gardener beekeeper
baker cooper piper tinker sailor drover gleaner
`
const listOf = (text: string) => text.trim().split(/\s+/)
const adjectiveWords = listOf(adjectives)
export const nounWords = listOf(nouns)

const onsets = listOf(`
al bar bel bran bul cal car cor cran dal dar dun el fal far fen gal gar gor hal har hol hun kel kir lan lod lor mar mel mor nar
nor os pel pen quar ral ros sal sed skel sor tal tar thor tol ul ur val wal wen wil yar yel
`)
const middles = ['', '', '', 'a', 'e', 'o', 'en', 'er', 'in', 'or', 'ing', 'ul']
const endings = listOf(`
beck bourne bridge brook by clough combe croft cross dale den don fell field fleet ford gate garth ham haven holm holt hope hythe
lea ley mere mond mouth ness ridge rigg sett shaw side stead stoke thwaite ton wade wick worth yard
`)
const firstParts = listOf(`
Ad Al Bri Cel Cor Dor Ed El Fen Gar Hal Il Is Jor Kes Lor Mar Mil Nel Od Or Pel Quen Ro Sab Sel Tam Tes Ul Ves Wil Yor
`)
const lastParts = listOf('a ain ander by en eth ia ice ick in ina is ita old om on or ott wen wyn')

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
export const adjective = (random: Random): string => capital(random.pick(adjectiveWords))
export const noun = (random: Random): string => capital(random.pick(nounWords))
/** One of some thirty thousand place names. */
export const placeName = (random: Random): string => capital(random.pick(onsets) + random.pick(middles) + random.pick(endings))
const givenName = (random: Random): string => random.pick(firstParts) + random.pick(lastParts)
export const personName = (random: Random): string => `${givenName(random)} ${placeName(random)}`

/** A chart title in the manner of the trade. */
export function chartTitle(random: Random): string {
  return random.weighted<() => string>([
    [() => `The ${adjective(random)} ${noun(random)}`, 2],
    [() => `${noun(random)} at ${placeName(random)}`, 4],
    [() => `${noun(random)} and ${noun(random)}`, 2],
    [() => `${placeName(random)} ${noun(random)}`, 3],
    [() => `${adjective(random)} ${noun(random)} of ${placeName(random)}`, 3],
    [
      () => `The ${noun(random)} at ${placeName(random)} ${random.pick(['Cross', 'Bridge', 'Green', 'End', 'Staithe', 'Water'])}`,
      2,
    ],
    [() => `${adjective(random)} ${noun(random)} with ${noun(random)}`, 2],
    [() => `${noun(random)} for ${givenName(random)}`, 1],
    [
      () => `The ${placeName(random)} ${random.pick(['Sampler', 'Band Sampler', 'Alphabet', 'House Sampler', 'Spot Sampler'])}`,
      2,
    ],
    [() => `${random.pick(['Two', 'Three', 'Four', 'Seven', 'Nine', 'Twelve'])} ${adjective(random)} ${noun(random)} Squares`, 1],
  ])()
}
