export const designers = [
  'Mirabel Stoat',
  'Josune Applegarth',
  'Corvin Ashdale',
  'Tilda Quennell',
  'Nettie Vandermoor',
  'Ottoline Burrage',
  'Peregrine Tolliver',
  'Dorrit Quayle',
  'Ioana Feldspar',
  'Saskia Thrupp',
  'Wilf Sarratt',
  'Agatha Renfrow-Lisle',
  'Bettony Crake',
  'Wick and Wicket',
  'Marsh Elder Press',
  'Brackwater Samplers',
  'Kestrel Yard',
  'Tin Kettle Row',
  'Halfpenny Staithe',
  'Upper Quennow Press',
]

/** What the designers of the sample like to work with; one not named here uses the numbered cotton. */
export const designerPalettes: Record<string, 'handDyed' | 'silk' | 'mixed'> = {
  'Tilda Quennell': 'handDyed',
  'Wick and Wicket': 'handDyed',
  'Brackwater Samplers': 'silk',
  'Upper Quennow Press': 'silk',
  'Marsh Elder Press': 'mixed',
  'Dorrit Quayle': 'mixed',
}

/** owner (S shop, H Hanne) | title | designer | kind | season | subject | form. Several seasons or subjects are parted by a semicolon. */
export const singleTitles = `
S | Nine Wrens | Corvin Ashdale | leaflet | Winter | birds | picture
H | Lamp in the Loft | Saskia Thrupp | leaflet | Midwinter | houses;night | picture
S | Quince and Compass | Tilda Quennell | leaflet | Autumn | fruit;sea | spot sampler
S | Harbour Band Sampler | Halfpenny Staithe | leaflet | Summer | sea | band sampler
H | Hearth and Heron | Corvin Ashdale | leaflet | Autumn | birds;houses | picture
H | The Miller's Ledger | Brackwater Samplers | leaflet | | verse;work | band sampler
S | Bees for Bettony | Bettony Crake | card | Summer | bees;flowers | ornament
H | Fourth Sunday | Marsh Elder Press | leaflet | Advent | verse;night | picture
S | Little Barge | Halfpenny Staithe | card | Summer | boats | ornament
H | Moth and Candle | Tilda Quennell | card | Autumn | insects;night | ornament
S | Verse for a Pantry | Mirabel Stoat | leaflet | | verse;kitchen | picture
S | The Weighhouse | Peregrine Tolliver | leaflet | | houses;town | picture
H | Larch in October | Josune Applegarth | leaflet | Autumn | trees | picture
S | Ferryman's Coat | Wilf Sarratt | leaflet | Winter | people;boats | picture
S | Three Jugs | Mirabel Stoat | card | | kitchen | ornament
H | Plum Stone Rhyme | Nettie Vandermoor | leaflet | Summer | verse;fruit | spot sampler
S | Winter Post | Tin Kettle Row | leaflet | Winter;Christmas | town;people | picture
S | The Tallow House | Peregrine Tolliver | leaflet | Winter | houses | picture
S | Acorn Reckoner | Ottoline Burrage | card | Autumn | trees;numbers | ornament
S | Market Day at Oxmarsh | Tin Kettle Row | leaflet | Summer | town;people | full coverage picture
H | Hare by the Pump | Wilf Sarratt | leaflet | Spring | animals | picture
S | A Row of Coats | Tin Kettle Row | leaflet | Winter | household | picture
H | Snowdrop Inventory | Ioana Feldspar | leaflet | Spring | flowers;numbers | spot sampler
S | Frost on the Staithe | Halfpenny Staithe | leaflet | Winter | sea;boats | picture
S | Bell Tower Band | Brackwater Samplers | leaflet | Christmas | town | band sampler
H | Small Blue Ship | Halfpenny Staithe | card | | boats | ornament
S | Pear Tree Census | Agatha Renfrow-Lisle | leaflet | Christmas | fruit;birds | spot sampler
H | The Last Lantern | Dorrit Quayle | leaflet | Midwinter | night | picture
S | Geese on the Common | Corvin Ashdale | leaflet | Spring | birds | picture
S | The Rookery Gate | Corvin Ashdale | leaflet | Autumn | birds;trees | picture
H | Two Swans at Skelder Bridge | Corvin Ashdale | leaflet | | birds;wedding | picture
S | Wren in the Woodpile | Corvin Ashdale | card | Winter | birds | ornament
S | The Copper Kettle | Mirabel Stoat | card | | kitchen | ornament
S | Bread and Salt | Mirabel Stoat | leaflet | New home | kitchen;verse | picture
H | Jam Shelf in August | Mirabel Stoat | leaflet | Summer | kitchen;fruit | picture
S | Clothes Line at Port Ellery | Mirabel Stoat | leaflet | Spring | household;sea | picture
H | The Apple Loft | Josune Applegarth | leaflet | Autumn | fruit;houses | picture
S | Hedgerow Reckoning | Josune Applegarth | leaflet | Autumn | fruit;flowers | band sampler
S | Blossom Week | Josune Applegarth | leaflet | Spring | trees;flowers | picture
H | Medlar and Thorn | Josune Applegarth | leaflet | Autumn | fruit | spot sampler
S | Cider Sunday | Josune Applegarth | card | Autumn | fruit | ornament
H | The Quiet Sampler | Tilda Quennell | leaflet | | alphabets | alphabet sampler
S | Tilda's Garden Walk | Tilda Quennell | leaflet | Summer | flowers | band sampler
H | Dusk Sampler | Tilda Quennell | leaflet | Autumn | alphabets;night | band sampler
S | Rosemary and Rue | Tilda Quennell | leaflet | Summer | flowers;verse | spot sampler
S | Foxglove Path | Nettie Vandermoor | leaflet | Summer | flowers | picture
H | Tulip Row | Nettie Vandermoor | leaflet | Spring | flowers | bell pull
S | Harvest Mouse | Nettie Vandermoor | card | Autumn | animals | ornament
S | The Orchard Cat | Nettie Vandermoor | leaflet | | animals;fruit | picture
H | Birth Sampler with Storks | Nettie Vandermoor | leaflet | New baby | birds;verse | picture
S | A House for Winter | Ottoline Burrage | leaflet | Winter | houses | picture
S | Marl Street Terrace | Ottoline Burrage | leaflet | | houses;town | picture
H | Red Door Sampler | Ottoline Burrage | leaflet | | houses;alphabets | house sampler
S | Chimney Row | Ottoline Burrage | leaflet | Winter | houses | bell pull
S | The Baker's Window | Ottoline Burrage | leaflet | Christmas | town;kitchen | picture
H | Numbers from the Yard | Ottoline Burrage | leaflet | New baby | numbers;animals | spot sampler
S | The Harbour Master's House | Peregrine Tolliver | leaflet | | houses;sea | picture
H | Map of Upper Quennow | Peregrine Tolliver | leaflet | | town;maps | full coverage picture
S | Bridge over Skelder Water | Peregrine Tolliver | leaflet | Summer | town;rivers | full coverage picture
H | Night Train to Tarnbeck | Peregrine Tolliver | leaflet | Winter | night;travel | full coverage picture
S | Lock Keeper's Garden | Peregrine Tolliver | leaflet | Summer | flowers;rivers | picture
S | Candle in Every Window | Dorrit Quayle | leaflet | Christmas | houses;night | picture
H | Star over the Fold | Dorrit Quayle | leaflet | Christmas | night;animals | picture
S | Silver Bell Ornament | Dorrit Quayle | card | Christmas | bells | ornament
S | Holly Ring | Dorrit Quayle | card | Christmas | flowers | ornament
H | The Midwinter Tree | Dorrit Quayle | leaflet | Midwinter | trees | picture
S | Snow Lantern | Dorrit Quayle | card | Winter | night | ornament
H | Iris Border | Ioana Feldspar | leaflet | Spring | flowers | bell pull
S | Meadow Alphabet | Ioana Feldspar | leaflet | Summer | flowers;alphabets | alphabet sampler
S | Thistle and Clover | Ioana Feldspar | leaflet | Summer | flowers | picture
H | Poppies by the Rail | Ioana Feldspar | leaflet | Summer | flowers | picture
S | Violets for Ines | Ioana Feldspar | card | Spring | flowers | biscornu
S | The Watch House | Saskia Thrupp | leaflet | | houses;sea | picture
H | Moonrise on the Marsh | Saskia Thrupp | leaflet | Autumn | night;birds | full coverage picture
S | Owl at the Granary | Saskia Thrupp | leaflet | Autumn | birds;night | picture
S | The Long Field | Saskia Thrupp | leaflet | Harvest | farming | picture
H | Scythe and Sheaf | Saskia Thrupp | leaflet | Harvest | farming;verse | spot sampler
S | The Carrier's Horse | Wilf Sarratt | leaflet | | animals;travel | picture
H | Sheepdog at the Gate | Wilf Sarratt | leaflet | | animals;farming | picture
S | Ram in the Thicket | Wilf Sarratt | leaflet | | animals | picture
S | Badger Lane | Wilf Sarratt | leaflet | Autumn | animals;night | picture
H | The Red Cow | Wilf Sarratt | card | | animals;farming | ornament
S | Marriage Sampler with Doves | Agatha Renfrow-Lisle | leaflet | Wedding | birds;verse | house sampler
H | The Schoolroom Sampler | Agatha Renfrow-Lisle | leaflet | | alphabets;numbers | alphabet sampler
S | Ann Hobbin Her Work | Agatha Renfrow-Lisle | leaflet | | alphabets;verse | band sampler
H | A Garden in Squares | Agatha Renfrow-Lisle | leaflet | Summer | flowers | spot sampler
S | Verse and Vine | Agatha Renfrow-Lisle | leaflet | | verse;fruit | band sampler
S | Hive and Heather | Bettony Crake | leaflet | Summer | bees;flowers | picture
H | Honey Month | Bettony Crake | leaflet | Summer | bees | picture
S | Ladybird Pillow | Bettony Crake | card | Spring | insects | pillow
S | Dragonfly Pond | Bettony Crake | leaflet | Summer | insects;rivers | picture
S | Spring Cleaning | Wick and Wicket | leaflet | Spring | household | picture
H | Easter Basket | Wick and Wicket | card | Easter | flowers;birds | ornament
S | Lilac Lane Needlebook | Wick and Wicket | card | Spring | flowers | needlebook
H | Scissor Keep | Wick and Wicket | card | | tools | biscornu
S | Pin Drum with Wrens | Wick and Wicket | card | | birds | drum
S | The Elder Tree | Marsh Elder Press | leaflet | Summer | trees;verse | picture
H | Psalm for a Still Morning | Marsh Elder Press | leaflet | | verse | picture
S | Crow Sermon | Marsh Elder Press | leaflet | Autumn | birds;verse | picture
H | A Proverb for the Stair | Marsh Elder Press | leaflet | | verse | bell pull
S | Brackwater Band Sampler | Brackwater Samplers | leaflet | | alphabets | band sampler
H | The Long Gallery Sampler | Brackwater Samplers | leaflet | | flowers;alphabets | band sampler
S | Pinks and Pansies Band | Brackwater Samplers | leaflet | Spring | flowers | band sampler
H | Kestrel over Stubble | Kestrel Yard | leaflet | Autumn | birds;farming | picture
S | Yard Gate in Frost | Kestrel Yard | leaflet | Winter | farming | picture
H | Hen House Sampler | Kestrel Yard | leaflet | Spring | birds;farming | house sampler
S | The Hay Loft | Kestrel Yard | leaflet | Summer | farming | picture
H | First Snow on the Yard | Kestrel Yard | file | Winter | farming | picture
S | Coal Merchant's Cat | Tin Kettle Row | leaflet | Winter | animals;town | picture
H | Tea for Nine | Tin Kettle Row | leaflet | | kitchen | picture
S | Umbrellas on Marl Street | Tin Kettle Row | file | Spring | town;people | picture
H | Mackerel Sky | Halfpenny Staithe | file | Summer | sea | full coverage picture
S | Knots and Anchors | Halfpenny Staithe | leaflet | Summer | sea;boats | spot sampler
H | Lighthouse at Port Ellery | Halfpenny Staithe | leaflet | | sea;houses | picture
S | The Shell Collector | Halfpenny Staithe | file | Summer | sea | spot sampler
H | Sampler with Two Peacocks | Upper Quennow Press | file | | birds;alphabets | band sampler
S | Winter Jasmine | Upper Quennow Press | leaflet | Winter | flowers | bell pull
S | The Knot Garden | Upper Quennow Press | leaflet | Summer | flowers | box top
`

/** owner | title | designer | season | subject | designs, each with its form in brackets. */
export const bookletTitles = `
H | Hollin Staithe Alphabets | Halfpenny Staithe | | alphabets;sea | Harbour Alphabet (alphabet sampler); Rope Alphabet (alphabet sampler); Gull Alphabet (alphabet sampler); Small Signal Alphabet (ornament); Tide Table Alphabet (alphabet sampler)
S | Twelve Little Houses | Ottoline Burrage | | houses | Gable House (ornament); Brick House (ornament); Quay House (ornament); Corner House (ornament); Farm House (ornament); Thatched House (ornament)
S | Winter Ornaments from Wend Cross | Dorrit Quayle | Christmas | winter;bells | Red Mitten (ornament); Skates (ornament); Fir Cone (ornament); Sledge (ornament); Paper Star (ornament); Robin on a Spade (ornament)
H | The Kitchen Year | Mirabel Stoat | | kitchen | Marmalade Month (picture); Rhubarb and Rain (picture); Strawberry Bowl (picture); Chutney Day (picture)
S | Birds of the Marsh | Corvin Ashdale | | birds | Bittern (picture); Lapwing (picture); Snipe (picture); Teal Pair (picture)
S | Four Seasons at the Mill | Josune Applegarth | Spring;Summer;Autumn;Winter | houses;rivers | Mill in Spring (picture); Mill in Summer (picture); Mill in Autumn (picture); Mill in Winter (picture)
H | Sewing Box Smalls | Wick and Wicket | | tools | Thread Winder (needlebook); Little Pincushion (biscornu); Scissor Case (needlebook); Tape Measure Cover (drum)
S | Beginner's Dozen | Nettie Vandermoor | | flowers;animals | Blue Hen (ornament); Red Tulip (ornament); Grey Rabbit (ornament); Yellow Duck (ornament)
H | Verses for a Small Wall | Marsh Elder Press | | verse | Leave the Latch (picture); Bread Enough (picture); Home by Lamplight (picture)
S | Border Book | Brackwater Samplers | | flowers | Carnation Border (band sampler); Strawberry Border (band sampler); Acorn Border (band sampler)
S | Autumn Table | Nettie Vandermoor | Autumn;Harvest | fruit | Pumpkin Row (pillow); Corn Dolly (ornament); Blackberry Ring (pillow); Turning Leaves (pillow)
H | Bees and Their Garden | Bettony Crake | Summer | bees;flowers | Skep (picture); Borage (picture); Clover Field (picture)
S | Ships in Small | Halfpenny Staithe | | boats | Ketch (ornament); Fishing Smack (ornament); Steam Tug (ornament); Lightship (ornament)
H | Easter Week | Dorrit Quayle | Easter | flowers;birds | Pussy Willow (ornament); Speckled Eggs (ornament); Lamb (ornament); Daffodil Bell (ornament)
S | The Farm Alphabet | Kestrel Yard | New baby | animals;alphabets | Farm Letters (alphabet sampler); Name Plate with Geese (picture); Birth Record with Ducks (picture)
H | Sampler Beginnings | Agatha Renfrow-Lisle | | alphabets | First Sampler (alphabet sampler); Second Sampler (house sampler); Third Sampler (band sampler)
S | Trees by Month | Saskia Thrupp | | trees | Hazel in February (picture); Cherry in April (picture); Oak in June (picture); Beech in November (picture)
H | Night Garden | Tilda Quennell | Summer | flowers;night | Evening Primrose (picture); White Moth (picture); Jasmine Wall (picture)
S | Shop Windows of Oxmarsh | Tin Kettle Row | Christmas | town | The Draper (picture); The Ironmonger (picture); The Needle Room (picture); The Chandler (picture)
H | Silk Miniatures | Upper Quennow Press | | flowers | Miniature Pink (ornament); Miniature Heartsease (ornament); Miniature Rose (ornament)
S | Oxmarsh Year Book | Bettony Crake | Spring;Summer;Autumn;Winter | flowers;insects | Snowdrop Bee (ornament); Catkin Moth (ornament); Bluebell Beetle (ornament); Bean Flower Bee (ornament); Ivy Wasp (ornament); Gorse Spider (ornament)
H | Quennow Band Book | Upper Quennow Press | | flowers;birds | Honeysuckle Band (band sampler); Pea Pod Band (band sampler); Parrot Band (band sampler); Pansy Band (band sampler); Grape Band (band sampler); Barberry Band (band sampler)
S | Animals at the Gate | Wilf Sarratt | | animals;farming | Donkey (picture); Pair of Goats (picture); Old Mare (picture)
`

/** Chart titles that have a second, hand-dyed list. */
export const twoListTitles = [
  'Nine Wrens',
  'Harbour Band Sampler',
  'Hearth and Heron',
  'Larch in October',
  'The Tallow House',
  'Hare by the Pump',
  'Pear Tree Census',
  'The Rookery Gate',
  'Bread and Salt',
  'A House for Winter',
  'Red Door Sampler',
  'Marriage Sampler with Doves',
  'The Schoolroom Sampler',
]

/** Designs whose key nobody has copied out yet. */
export const unlistedTitles = ['Umbrellas on Marl Street', 'Mackerel Sky', 'Badger Lane', 'Iris Border', 'Old Mare']

/** Read one of the tables above: a line each, cells parted by bars. */
export function titleRows(table: string, cellCount: number): string[][] {
  return table
    .trim()
    .split('\n')
    .map((row) => {
      const cells = row.split('|').map((cell) => cell.trim())
      if (cells.length !== cellCount) throw new RangeError(`titleRows: ${cells.length} cells, not ${cellCount}, in "${row}"`)
      return cells
    })
}
