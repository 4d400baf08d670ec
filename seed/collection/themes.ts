export const seasons = [
  'Spring',
  'Easter',
  'Summer',
  'Harvest',
  'Autumn',
  'Advent',
  'Christmas',
  'Midwinter',
  'Winter',
  'Wedding',
  'New baby',
  'New home',
]
export const subjects = [
  ...['alphabets', 'animals', 'bees', 'birds', 'boats', 'farming', 'flowers', 'fruit', 'houses', 'insects', 'kitchen', 'maps'],
  ...['night', 'numbers', 'people', 'rivers', 'sea', 'tools', 'town', 'travel', 'trees', 'verse', 'work', 'household'],
]
type Form = { name: string; cover: string; width: [number, number]; height: [number, number] }
export const formKinds: (readonly [Form, number])[] = [
  [{ name: 'picture', cover: 'picture', width: [80, 220], height: [80, 200] }, 10],
  [{ name: 'ornament', cover: 'picture', width: [45, 90], height: [45, 90] }, 6],
  [{ name: 'band sampler', cover: 'band sampler', width: [70, 140], height: [180, 380] }, 4],
  [{ name: 'spot sampler', cover: 'motif sampler', width: [110, 220], height: [110, 240] }, 3],
  [{ name: 'house sampler', cover: 'motif sampler', width: [110, 200], height: [120, 220] }, 3],
  [{ name: 'pillow', cover: 'picture', width: [70, 130], height: [60, 110] }, 2],
  [{ name: 'bell pull', cover: 'band sampler', width: [40, 70], height: [200, 340] }, 1],
  [{ name: 'full coverage', cover: 'full', width: [150, 320], height: [130, 300] }, 2],
]
export const coverShares: Record<string, number> = { 'band sampler': 0.35, 'motif sampler': 0.275, picture: 0.6, full: 1 }
