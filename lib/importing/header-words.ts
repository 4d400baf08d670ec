import type { FieldName, ImportKind } from './fields'
import { headerKey, readHeader } from './read-header'

/** Words a header can be: `sure` ones say the field by themselves, `maybe` ones only when the values look right too. */
export type HeaderWords = { sure: readonly string[]; maybe: readonly string[] }

const words = (sure: string, maybe = ''): HeaderWords => {
  const list = (text: string) =>
    text
      .split('|')
      .map(headerKey)
      .filter((word) => word !== '')
  return { sure: list(sure), maybe: list(maybe) }
}

const ownerWords = words(
  'owner|owned by|whose|belongs to|besitzer|besitzerin|eigentümer|propriétaire|proprietaire',
  'stash of|for whom',
)
const placeWords = words(
  'place|home|home place|location|drawer|kept in|lives in|where|where kept|storage|stored|stored in|lagerort|ort|schublade|emplacement|tiroir|rangement|lieu',
  'box|bag|bin|rack|shelf|cabinet|compartment|binder|folder|ring|position|slot|fach|boîte|kiste|storage location',
)
const nowAtWords = words(
  'now at|now in|current place|current location|currently at|currently in|out at|out to|lent to|jetzt in|actuellement',
  'now|current|out|with',
)
const noteWords = words(
  'note|notes|remarks|remark|comment|comments|notiz|notizen|bemerkung|bemerkungen|remarque|remarques|commentaire',
  'info|other|details|memo',
)
const designerWords = words(
  'designer|designers|designed by|author|artist|design by|entwurf|designerin|créateur|créatrice|auteur',
  'by|company|publisher|studio|brand|maker',
)
const makerWords = words(
  'maker|brand|manufacturer|make|company|producer|hersteller|marke|fabricant|marque',
  'supplier|from|made by',
)
const lineWords = words(
  'line|range|product line|thread line|series|sorte|serie|gamme|ligne',
  'type|thread type|product|thread|art|kind|quality',
)
const codeWords = words(
  'code|colour code|color code|number|colour number|color number|colour no|color no|no|nr|nummer|farbnummer|farbnr|numéro|code couleur|thread number|thread no|thread code|shade number|shade no|shade code|ref|reference|référence|sku|item number',
  'colour|color|shade|id|num|farbe|couleur|article|thread',
)
const colourNameWords = words(
  'name|colour name|color name|shade name|thread name|farbname|nom|nom de couleur|nom couleur|bezeichnung|désignation',
  'colour|color|shade|description|desc|farbe|couleur|title|thread',
)
const putUpWords = words(
  'put up|putup|put up length|skein length|length per skein|length of skein|length per put up|skein size|lauflänge|länge pro strang|longueur|métrage|metrage',
  'length|size|yardage|metres|meters|yards|länge',
)
const strandsWords = words(
  'strands|strand count|number of strands|no of strands|fadenzahl|fäden|faden|brins|nombre de brins',
  'ply|plies|threads used|strand',
)
const LWords = words('l|lab l|l star|lightness|l value|cie l|cielab l')
const aWords = words('a|lab a|a star|a value|cie a|cielab a')
const bWords = words('b|lab b|b star|b value|cie b|cielab b')
const widthWords = words(
  'width|w|wide|across|breite|largeur|stitches wide|width stitches|stitches across',
  'x|horizontal|cols|columns',
)
const heightWords = words(
  'height|h|high|tall|höhe|hauteur|stitches high|stitches tall|height stitches|length|länge|longueur|stitches up',
  'y|vertical|rows|depth',
)
const sizeWords = words(
  'size|dimensions|dimension|measurements|größe|groesse|maße|masse|taille|format|w x h|width x height',
  'stitches|stitch count|stitch size|stitchcount|area|design size|cut|piece',
)
const countWords = words(
  'count|cloth count|fabric count|thread count|threads per inch|tpi|ct|fadendichte|fadenzahl|compte|count of cloth',
  'gauge|stitches per inch|density',
)
const weaveWords = words(
  'weave|cloth type|fabric type|type of cloth|type of fabric|bindung|gewebeart|armure|type de toile',
  'type|kind|art|structure',
)
const clothNameWords = words(
  'cloth|fabric|ground|ground cloth|ground fabric|material|cloth name|fabric name|stoff|stoffname|gewebe|toile|tissu',
  'name|type|kind|description|title|product|linen|aida|line',
)
const listWords = words(
  'list|thread list|palette|colourway|colorway|version|key name|list name|farbliste|liste|palette name',
  'key|variant',
)
const chartWords = words(
  'chart|chart title|chart name|leaflet|booklet|book|title|publication|book title|leaflet title|titel|vorlage|anleitung|titre|grille|fiche|livret|heft',
  'pattern|pattern name|source|magazine|issue|kit|card|name|design|from|muster|modèle|pattern title',
)
const designWords = words(
  'design|design title|design name|motif|entwurfstitel|dessin|design in it',
  'pattern|pattern name|title|name|chart|muster|modèle|model|project|piece',
)

export const headerWords: { [K in ImportKind]: Record<FieldName<K>, HeaderWords> } = {
  places: {
    label: words(
      'label|place|place label|location|location code|place code|etikett|étiquette|lagerort|code|drawer|drawer label|ort',
      'number|id|no|storage|box|where|bezeichnung|emplacement',
    ),
    kind: words('kind|type|place type|kind of place|sort|art|typ|genre|sorte'),
    inside: words(
      'inside|in|is in|parent|within|part of|located in|sits in|kept in|befindet sich in|contenu dans|dans|parent place',
      'cabinet|room|stands in|column|where|raum',
    ),
    name: words('name|place name|title|description|nom|beschreibung|titel', 'what|contents|holds|inhalt|contenu'),
    walkOrder: words('walk order|walking order|order|walk|sequence|sort order|reihenfolge|laufweg|ordre', 'position|rank|no'),
    capacity: words(
      'capacity|holds up to|max|maximum|kapazität|fassungsvermögen|capacité|full at',
      'slots|compartments|size|holds',
    ),
    note: noteWords,
  },
  threads: {
    owner: ownerWords,
    maker: makerWords,
    line: lineWords,
    code: codeWords,
    name: colourNameWords,
    fibre: words('fibre|fiber|fibre content|material|content|faser|matière|fibres', 'type|composition'),
    strands: strandsWords,
    putUp: putUpWords,
    putUpWord: words(
      'put up word|put up type|put up kind|put up name|packing|sold as|form|aufmachung|conditionnement',
      'unit|format|package',
    ),
    dyed: words('dyed|dyeing|dye|dye type|how dyed|dye method|färbung|gefärbt|teinture', 'finish|solid or variegated'),
    lotsMatter: words('lots matter|lot matters|same lot|same lot needed|keep lots apart|match lots|lot wichtig'),
    lot: words('lot|dye lot|dyelot|lot number|lot no|batch|batch number|dye bath|partie|farbpartie|bain', 'bath'),
    skeins: words(
      'skeins|quantity|qty|skeins held|full skeins|whole skeins|number of skeins|no of skeins|in stock|stock|on hand|have|owned|how many|held|anzahl|menge|stück|strang|stränge|bestand|quantité|quantite|qté|nombre|écheveaux|echeveaux|put ups|whole put ups',
      'count|amount|spools|hanks|cards|bobbins|number|units|total',
    ),
    part: words(
      'part|part skein|partial|partial skein|part length|remainder|leftover|left over|rest|open skein|angebrochen|reste|entamé|opened',
      'open|length|part used|left|remaining',
    ),
    place: placeWords,
    nowAt: nowAtWords,
    L: LWords,
    a: aWords,
    b: bWords,
    colour: words(
      'hex|rgb hex|hex colour|hex color|colour hex|color hex|html colour|html color|hex code|screen colour|swatch|hexcode',
      'colour|color|rgb|farbe|couleur',
    ),
    minimum: words(
      'minimum|min|minimum stock|min stock|reorder at|reorder level|reorder below|keep at least|mindestbestand|stock minimum',
      'reorder|want',
    ),
    standsInFor: words(
      'stands in for|stand in for|substitute for|substitutes for|can replace|replaces|swap for|replacement for|ersetzt|ersatz für|remplace',
      'substitute|swap|equivalent',
    ),
    note: noteWords,
  },
  cloth: {
    owner: ownerWords,
    label: words(
      'label|piece label|cloth label|fabric label|piece|piece number|tag|etikett|étiquette|piece code',
      'code|number|no|id|nr|ref|bag',
    ),
    maker: makerWords,
    cloth: clothNameWords,
    weave: weaveWords,
    count: countWords,
    countKnown: words('count known|count known by|count certainty|how counted|counted|gezählt|compté'),
    colour: words('colour|color|colour name|color name|shade|farbe|couleur|farbname', 'dye|name'),
    dyeing: words('dyed|dyeing|how dyed|dye type|dye method|färbung|gefärbt|teinture|hand dyed', 'dye'),
    width: widthWords,
    height: heightWords,
    size: sizeWords,
    squared: words('squared|is squared|measured|trued|pulled square|straightened|begradigt|mesuré', 'checked'),
    mayTurn: words('may turn|can turn|turnable|may be turned|can be turned|either way|drehbar|peut tourner', 'turn|rotate'),
    oneWay: words('one way because|one way|why not turned|not turned because', 'direction|richtung|sens'),
    washed: words('washed|washing|pre washed|prewashed|is washed|wash state|gewaschen|vorgewaschen|lavé', 'wash'),
    place: placeWords,
    nowAt: nowAtWords,
    L: LWords,
    a: aWords,
    b: bWords,
    note: noteWords,
  },
  charts: {
    chart: chartWords,
    design: designWords,
    designer: designerWords,
    kind: words('kind|format|chart kind|chart type|kind of chart|media|medium|art|typ|genre|support', 'type|form|paper or file'),
    owner: ownerWords,
    place: placeWords,
    nowAt: nowAtWords,
    copies: words('copies|number of copies|how many|quantity|qty|exemplare|anzahl|exemplaires|nombre|owned', 'count|held'),
    width: widthWords,
    height: heightWords,
    size: sizeWords,
    count: countWords,
    cloth: words(
      `cloth|fabric|advised cloth|recommended cloth|recommended fabric|suggested fabric|called for fabric|stoff|gewebe|toile|tissu|cloth advised`,
      'ground|material',
    ),
    weave: weaveWords,
    insists: words('insists|insists on weave|weave required|only this weave|must be this weave|no other weave'),
    season: words(
      'season|seasons|occasion|occasions|holiday|season occasion|jahreszeit|anlass|saison|fête',
      'theme|time of year|when',
    ),
    subject: words(
      'subject|subjects|theme|themes|topic|topics|motif|motifs|thema|themen|sujet|thème|category|categories',
      'tags|tag|shows|keywords|genre|group',
    ),
    form: words('form|forms|made as|made up as|design type|shape|forme', 'type|category|style|format'),
    cover: words('cover|coverage|cover kind|cover type|how full|deckung', 'fill|full coverage'),
    allowance: words('allowance|thread allowance|allowance for thread|waste|waste factor|zugabe|zuschlag|marge'),
    edition: words('edition|printing|print run|version|auflage|ausgabe|édition', 'year|issue'),
    partsHeld: words('parts held|parts owned|parts have|have parts|vorhandene teile|parties présentes'),
    partsNeeded: words('parts needed|parts|number of parts|total parts|parts in all|teile|parties'),
    bought: words(
      'bought|bought on|date bought|purchased|purchase date|date purchased|acquired|date acquired|gekauft|gekauft am|kaufdatum|acheté|acheté le',
      'date|added|received|datum',
    ),
    price: words('price|price paid|paid|cost|preis|prix', 'value|amount'),
    note: noteWords,
  },
  lists: {
    chart: chartWords,
    design: designWords,
    designer: words('designer|designers|designed by|author|artist|design by|créateur|créatrice|auteur'),
    list: listWords,
    symbol: words('symbol|sign|mark|sym|key symbol|grid symbol|zeichen|symbole', 'key|icon'),
    maker: makerWords,
    line: lineWords,
    code: codeWords,
    name: colourNameWords,
    strands: strandsWords,
    full: words(
      'full|full crosses|full cross|full stitches|crosses|cross stitches|cross stitch|stitches|stitch count|kreuzstiche|stiche|points de croix|points|whole stitches|full stitch',
      'count|number of stitches|xs|total',
    ),
    half: words('half|half stitches|half crosses|half stitch|half cross|halbe|halbstiche|demi points|demi point'),
    quarter: words('quarter|quarter stitches|quarters|quarter stitch|viertel|viertelstiche|quart|quarts'),
    threeQuarter: words('three quarter|three quarters|three quarter stitches|3 4|3 4 stitches|dreiviertel|trois quarts|¾'),
    tent: words('tent|tent stitches|tent stitch|continental|petit point', 'over one'),
    backstitch: words(
      'backstitch|back stitch|backstitches|back stitches|bs|outline|rückstich|rückstiche|steppstich|point arrière',
    ),
    backstitchDiagonal: words(
      'diagonal backstitch|backstitch diagonal|diagonal back stitch|slanted backstitch|rückstich diagonal|point arrière diagonal',
    ),
    doubleRunning: words('double running|double running stitch|doppelter vorstich|double point devant'),
    satin: words('satin|satin stitch|satin stitches|satin units|plattstich|plattstiche|passé plat|point passé plat'),
    eyelet: words('eyelet|eyelets|eyelet stitch|eyelet stitches|ösenstich|ösenstiche|œillets|oeillets|œillet|oeillet'),
    knotOneWrap: words(
      'knots|knots one wrap|knots 1 wrap|french knots|french knot|knot|one wrap knots|knötchen|knötchenstich|points de noeud|point de noeud',
    ),
    knotTwoWrap: words('knots two wraps|knots 2 wraps|two wrap knots|french knots two wraps|knots two wrap|2 wrap knots'),
    bead: words('beads|bead|number of beads|perlen|perles'),
    skeins: words(
      'skeins|skeins needed|number of skeins|no of skeins|skeins required|quantity|qty|put ups|stränge|anzahl|menge|écheveaux|quantité',
      'amount|needed|count|used',
    ),
    putUp: putUpWords,
  },
  projects: {
    design: words(
      'design|design title|design name|title|entwurf|dessin|project|project name|piece|titel|titre|projekt|projet',
      'name|pattern|chart|motif|what|muster|modèle',
    ),
    chart: words('chart|chart title|leaflet|booklet|book|vorlage|grille|fiche', 'pattern|source|title'),
    list: listWords,
    owner: words('owner|stitcher|stitched by|worked by|owned by|whose|besitzer|stickerin|propriétaire|brodeuse', 'who'),
    cloth: words('cloth|cloth label|cloth piece|fabric|fabric label|piece of cloth|ground|stoff|toile|tissu', 'label|material'),
    status: words('status|state|stage|stand|zustand|statut|état|progress', 'stitching|done'),
    quantity: words(
      'how many|quantity|qty|kits|number of kits|copies|how many kits|anzahl|menge|quantité|nombre',
      'count|number|pieces',
    ),
    spares: words('spares|spare kits|spare|extra kits|ersatz|réserve|rechange', 'extra|extras'),
    place: words(
      'place|bag|project bag|location|where|kit bag|bag label|kept in|beutel|ort|lagerort|sac|emplacement',
      'box|home|label',
    ),
    for: words('for|for whom|recipient|gift for|made for|für|pour|destinataire', 'gift|who for'),
    started: words(
      'started|start|start date|date started|begun|begun on|began|started on|angefangen|begonnen|beginn|commencé|commencé le|début',
    ),
    finished: words(
      'finished|finish|finish date|date finished|finished on|completed|completed on|date completed|fertig|fertiggestellt|beendet|terminé|terminé le|fini|fin',
      'done|complete',
    ),
    due: words('due|due date|due by|deadline|needed by|wanted by|fällig|termin|échéance', 'by|target|target date'),
    hours: words('hours|hours worked|time spent|hrs|stunden|heures', 'time'),
    stitchesDone: words('stitches done|stitches worked|stitches so far|stitched so far|gestickt|points faits', 'stitches'),
    finishing: words('finishing|finished as|made up as|finishing method|framed|verarbeitung|finition', 'frame|form'),
    note: noteWords,
  },
  notions: {
    owner: ownerWords,
    kind: words(
      'kind|type|category|kind of thing|kind of notion|type of notion|sort|art|typ|kategorie|genre|catégorie|sorte',
      'group|what|section|class|format',
    ),
    name: words(
      'name|item|item name|notion|tool|article|description|product|bezeichnung|artikel|werkzeug|zubehör|nom|désignation|outil|accessoire',
      'title|what|thing|supply|accessory|equipment|details|desc|material',
    ),
    size: words(
      'size|size or number|diameter|dimensions|needle size|hoop size|bead size|größe|groesse|durchmesser|taille|diamètre|dimension',
      'number|no|length|width|measure|measurement|gauge',
    ),
    count: words(
      'how many|quantity|qty|in stock|stock|on hand|have|held|owned|number held|anzahl|menge|stück|bestand|quantité|qté|nombre|pieces',
      'count|amount|number|units|total|packs|pieces',
    ),
    packOf: words(
      'pack of|pack size|per pack|in a pack|pack|packet of|pieces per pack|packung|packungsgröße|stück pro packung|paquet de|par paquet|lot de',
      'packet|unit|contents|packs of',
    ),
    minimum: words(
      'minimum|min|minimum stock|min stock|least kept|reorder at|reorder level|reorder below|keep at least|low at|mindestbestand|stock minimum',
      'reorder|least|want|low',
    ),
    price: words('price|price paid|unit price|price each|cost|paid|preis|stückpreis|prix|prix unitaire', 'value|each|amount'),
    place: placeWords,
    nowAt: nowAtWords,
    note: noteWords,
  },
}

const sureAnywhere = new Set(
  Object.values(headerWords).flatMap((fields) => Object.values<HeaderWords>(fields).flatMap((field) => field.sure)),
)

/** Whether a cell reads like a header of any kind, its unit apart. */
export function isKnownHeader(cell: string): boolean {
  if (cell.length > 60) return false
  const { key, keyBeforeUnit } = readHeader(cell)
  return sureAnywhere.has(key) || (keyBeforeUnit !== null && sureAnywhere.has(keyBeforeUnit))
}

/** How many cells of a row read like headers of any kind; a word that comes twice counts once. */
export function countKnownHeaders(cells: readonly string[]): number {
  const known = new Set<string>()
  for (const cell of cells) {
    if (cell.length > 60) continue
    const { key, keyBeforeUnit } = readHeader(cell)
    if (sureAnywhere.has(key)) known.add(key)
    else if (keyBeforeUnit !== null && sureAnywhere.has(keyBeforeUnit)) known.add(keyBeforeUnit)
  }
  return known.size
}
