export type Relations = {
  /** Relations whose row is named by a column here, `<relation>Id` unless `columns` says another; with `?` it may be null. */
  one?: Readonly<Record<string, string>>
  /** Relations to any number of rows that name this one. */
  many?: Readonly<Record<string, string>>
  /** Relations to at most one row that names this one. */
  back?: Readonly<Record<string, string>>
}

/** How the rows of the schema hang together, by model. A test holds it against prisma/schema.prisma. */
export const relations: Readonly<Record<string, Relations>> = {
  Revision: {  },
  Change: {  },
  Setting: {  },
  Owner: { many: { batches: 'Batch', cloth: 'ClothPiece', charts: 'Chart', projects: 'Project', movementsFrom: 'Movement', movementsTo: 'Movement', reorderRules: 'ReorderRule', threadOrders: 'ThreadOrder', notions: 'Notion', loans: 'Loan', files: 'KeptFile', timesAway: 'TimeAway', occasions: 'Occasion', buyLists: 'BuyList', seenBy: 'AccountOwner' } },
  Place: { one: { parent: 'Place?' }, many: { children: 'Place', batchesHome: 'Batch', batchesHere: 'Batch', clothHome: 'ClothPiece', clothHere: 'ClothPiece', chartsHome: 'Chart', chartsHere: 'Chart', projects: 'Project', movementsFrom: 'Movement', movementsTo: 'Movement', notionsHome: 'Notion', notionsHere: 'Notion', counts: 'StockCount', countLines: 'StockCountLine', capacities: 'PlaceCapacity', formerLabels: 'FormerLabel', loans: 'Loan', walks: 'Walk', walkLinesTo: 'WalkLine', missingFrom: 'MissingThing' } },
  Maker: { many: { lines: 'ThreadLine' } },
  ThreadLine: { one: { maker: 'Maker' }, many: { threads: 'Thread', offers: 'ThreadOffer' } },
  Thread: { one: { line: 'ThreadLine' }, many: { batches: 'Batch', keyLines: 'KeyLineThread', standIns: 'StandIn', standsInFor: 'StandIn', conversions: 'Conversion', conversionsTo: 'Conversion', swaps: 'ProjectSwap', swappedIn: 'ProjectSwap', useReadings: 'UseReading', reorderRules: 'ReorderRule', orders: 'ThreadOrder', barcodes: 'ThreadBarcode', kitLots: 'KitLot', formerCodes: 'FormerThreadCode', offers: 'ThreadOffer', buyLines: 'BuyListLine', boughtInstead: 'BuyListLine' } },
  FormerThreadCode: { one: { thread: 'Thread' } },
  Conversion: { one: { thread: 'Thread', otherThread: 'Thread' } },
  ThreadBarcode: { one: { thread: 'Thread' } },
  ReorderRule: { one: { thread: 'Thread', owner: 'Owner' } },
  ThreadOrder: { one: { thread: 'Thread', owner: 'Owner' } },
  StandIn: { one: { thread: 'Thread', standIn: 'Thread' } },
  Batch: { one: { thread: 'Thread', owner: 'Owner', homePlace: 'Place?', currentPlace: 'Place?', parent: 'Batch?' }, many: { splits: 'Batch', promises: 'StockPromise', movements: 'Movement', countLines: 'StockCountLine', loanLines: 'LoanLine', walkLines: 'WalkLine', walkedInstead: 'WalkLine', kitLots: 'KitLot', missing: 'MissingThing', buyLines: 'BuyListLine' } },
  ClothPiece: { one: { owner: 'Owner', keptForProject: 'Project?', homePlace: 'Place?', currentPlace: 'Place?', parent: 'ClothPiece?' }, many: { offcuts: 'ClothPiece', files: 'KeptFile', projects: 'Project', movements: 'Movement', cutPlans: 'CutPlanPiece', loanLines: 'LoanLine', walkLines: 'WalkLine', missing: 'MissingThing' } },
  CutPlan: { many: { pieces: 'CutPlanPiece', movements: 'Movement' } },
  CutPlanPiece: { one: { cutPlan: 'CutPlan', clothPiece: 'ClothPiece' } },
  Designer: { many: { charts: 'ChartDesigner', formerNames: 'FormerDesignerName' } },
  Chart: { one: { owner: 'Owner', homePlace: 'Place?', currentPlace: 'Place?' }, many: { designers: 'ChartDesigner', formerTitles: 'FormerTitle', files: 'KeptFile', designs: 'Design', movements: 'Movement', loanLines: 'LoanLine', walkLines: 'WalkLine', missing: 'MissingThing' } },
  FormerTitle: { one: { chart: 'Chart' } },
  FormerDesignerName: { one: { designer: 'Designer' } },
  KeptFile: { one: { owner: 'Owner', chart: 'Chart?', clothPiece: 'ClothPiece?', notion: 'Notion?', project: 'Project?' } },
  ToldApart: {  },
  ChartDesigner: { one: { chart: 'Chart', designer: 'Designer' } },
  Design: { one: { chart: 'Chart' }, many: { themes: 'DesignTheme', threadLists: 'ThreadList', projects: 'Project', boughtFor: 'BuyListFor' } },
  Theme: { many: { designs: 'DesignTheme' } },
  DesignTheme: { one: { design: 'Design', theme: 'Theme' } },
  ThreadList: { one: { design: 'Design' }, many: { keyLines: 'KeyLine', projects: 'Project' } },
  KeyLine: { one: { threadList: 'ThreadList' }, many: { threads: 'KeyLineThread' } },
  KeyLineThread: { one: { keyLine: 'KeyLine', thread: 'Thread' } },
  Project: { one: { design: 'Design', threadList: 'ThreadList?', owner: 'Owner', clothPiece: 'ClothPiece?', place: 'Place?' }, many: { promises: 'StockPromise', movements: 'Movement', swaps: 'ProjectSwap', useReadings: 'UseReading', keptCloth: 'ClothPiece', notions: 'Notion', loans: 'Loan', loanLines: 'LoanLine', walks: 'WalkProject', walkLines: 'WalkLine', kitItems: 'KitItem', kitBags: 'KitBag', kitLots: 'KitLot', missing: 'MissingThing', files: 'KeptFile', work: 'WorkEntry', parts: 'StitchAlongPart', boughtFor: 'BuyListFor' }, back: { timer: 'WorkTimer', turn: 'RotationTurn' } },
  ProjectSwap: { one: { project: 'Project', thread: 'Thread', standIn: 'Thread' } },
  UseReading: { one: { project: 'Project', thread: 'Thread' } },
  BulkEdit: {  },
  StockPromise: { one: { project: 'Project', batch: 'Batch' } },
  Movement: { one: { batch: 'Batch?', clothPiece: 'ClothPiece?', chart: 'Chart?', fromPlace: 'Place?', toPlace: 'Place?', fromOwner: 'Owner?', toOwner: 'Owner?', project: 'Project?', import: 'ImportBatch?', cutPlan: 'CutPlan?', notion: 'Notion?' } },
  ImportBatch: { many: { rows: 'ImportRow', steps: 'ImportStep', movements: 'Movement' } },
  ImportRow: { one: { import: 'ImportBatch' } },
  ImportStep: { one: { import: 'ImportBatch' } },
  ImportMapping: {  },
  Notion: { one: { owner: 'Owner', homePlace: 'Place?', currentPlace: 'Place?', project: 'Project?' }, many: { files: 'KeptFile', movements: 'Movement', loanLines: 'LoanLine', walkLines: 'WalkLine', kitItems: 'KitItem', missing: 'MissingThing' } },
  StockCount: { one: { place: 'Place' }, many: { lines: 'StockCountLine' } },
  StockCountLine: { one: { count: 'StockCount', batch: 'Batch?', place: 'Place' } },
  LabelPrint: {  },
  PlaceCapacity: { one: { place: 'Place' } },
  FormerLabel: { one: { place: 'Place' } },
  Loan: { one: { place: 'Place', owner: 'Owner', project: 'Project?' }, many: { lines: 'LoanLine' } },
  LoanLine: { one: { loan: 'Loan', chart: 'Chart?', batch: 'Batch?', clothPiece: 'ClothPiece?', notion: 'Notion?', project: 'Project?' } },
  Walk: { one: { place: 'Place?' }, many: { projects: 'WalkProject', lines: 'WalkLine', missing: 'MissingThing' } },
  WalkProject: { one: { walk: 'Walk', project: 'Project' } },
  WalkLine: { one: { walk: 'Walk', project: 'Project?', batch: 'Batch?', clothPiece: 'ClothPiece?', chart: 'Chart?', notion: 'Notion?', toPlace: 'Place?', insteadBatch: 'Batch?' } },
  MissingThing: { one: { batch: 'Batch?', clothPiece: 'ClothPiece?', chart: 'Chart?', notion: 'Notion?', lastSeenPlace: 'Place?', project: 'Project?', walk: 'Walk?' } },
  KitItem: { one: { project: 'Project', notion: 'Notion?' } },
  KitBag: { one: { project: 'Project' }, many: { checks: 'KitBagCheck' } },
  KitBagCheck: { one: { bag: 'KitBag' } },
  KitLot: { one: { project: 'Project', batch: 'Batch', thread: 'Thread' } },
  WorkEntry: { one: { project: 'Project' } },
  WorkTimer: { one: { project: 'Project' } },
  TimeAway: { one: { owner: 'Owner' } },
  RotationTurn: { one: { project: 'Project' } },
  Occasion: { one: { owner: 'Owner' } },
  StitchAlongPart: { one: { project: 'Project' } },
  ThreadOffer: { one: { line: 'ThreadLine', thread: 'Thread?' } },
  BuyList: { one: { owner: 'Owner' }, many: { wantedFor: 'BuyListFor', lines: 'BuyListLine' } },
  BuyListFor: { one: { buyList: 'BuyList', design: 'Design', project: 'Project?' } },
  BuyListLine: { one: { buyList: 'BuyList', thread: 'Thread?', insteadThread: 'Thread?', batch: 'Batch?' } },
  Account: { many: { owners: 'AccountOwner', sessions: 'Session', passkeys: 'Passkey', apiTokens: 'ApiToken' } },
  AccountOwner: { one: { account: 'Account', owner: 'Owner' } },
  Session: { one: { account: 'Account' } },
  Passkey: { one: { account: 'Account' } },
  SignInChallenge: {  },
  ApiToken: { one: { account: 'Account' } },
  AuditEntry: {  },
  AnsweredKey: {  },
  BackgroundJob: {  },
}

/** Columns that are not called after their relation. */
const columns: Readonly<Record<string, string>> = { standIn: 'standInThreadId' }

/** The column that names the row of a relation in `one`. */
export const columnOf = (relation: string): string => columns[relation] ?? `${relation}Id`
