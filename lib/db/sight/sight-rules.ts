/**
 * Whose a row is, for accounts that see only some owners' goods.
 *
 * - `shared`: nobody's goods; every account sees it.
 * - `keepers`: tells of the whole collection, and is seen only by those who see all of it.
 * - else all of these hold: `by`, the column with its owner, names one that is seen; each row of `with` is seen (or none is named);
 *   and no row of `every` is unseen.
 *
 * What a seen row names beside that may be unseen: it is then left out where it may be, and veiled where it may not.
 */
export type SightRule =
  | 'shared'
  | 'keepers'
  | { by?: 'id' | 'ownerId'; with?: readonly [string, ...string[]]; every?: readonly [string, ...string[]] }

const owned = { by: 'ownerId' } as const
const ofChart = { with: ['chart'] } as const
const ofProject = { with: ['project'] } as const
/** What the row is about. */
const ofThings = ['batch', 'clothPiece', 'chart', 'notion'] as const

/** Every model of prisma/schema.prisma; a test fails for one that has no place here. */
export const sightRules: Readonly<Record<string, SightRule>> = {
  Owner: { by: 'id' },

  Batch: owned,
  ClothPiece: owned,
  Chart: owned,
  Notion: owned,
  Loan: owned,
  ReorderRule: owned,
  ThreadOrder: owned,
  TimeAway: owned,
  Occasion: owned,
  BuyList: owned,
  KeptFile: { by: 'ownerId', with: ['chart', 'clothPiece', 'notion', 'project'] },
  // Work on a chart one does not see would show it.
  Project: { by: 'ownerId', with: ['design'] },

  FormerTitle: ofChart,
  ChartDesigner: ofChart,
  Design: ofChart,
  DesignTheme: { with: ['design'] },
  ThreadList: { with: ['design'] },
  KeyLine: { with: ['threadList'] },
  KeyLineThread: { with: ['keyLine'] },

  ProjectSwap: ofProject,
  UseReading: ofProject,
  KitItem: ofProject,
  KitBag: ofProject,
  KitBagCheck: { with: ['bag'] },
  KitLot: { with: ['project', 'batch'] },
  WorkEntry: ofProject,
  WorkTimer: ofProject,
  RotationTurn: ofProject,
  StitchAlongPart: ofProject,

  // Promised to whomever: it is not free.
  StockPromise: { with: ['batch'] },
  Movement: { with: ofThings },
  MissingThing: { with: ofThings },
  LoanLine: { with: ['loan', ...ofThings, 'project'] },
  // A plan that cuts a piece keeps it, whatever else it cuts.
  CutPlanPiece: { with: ['clothPiece'] },
  CutPlan: { every: ['pieces'] },
  StockCountLine: { with: ['batch'] },
  StockCount: { every: ['lines'] },
  WalkProject: ofProject,
  WalkLine: { with: [...ofThings, 'project', 'insteadBatch'] },
  Walk: { every: ['projects', 'lines'] },
  BuyListFor: { with: ['buyList', 'design', 'project'] },
  BuyListLine: { with: ['buyList'] },

  BulkEdit: 'keepers',
  ImportBatch: 'keepers',
  ImportRow: 'keepers',
  ImportStep: 'keepers',

  Revision: 'shared',
  Change: 'shared',
  Setting: 'shared',
  Place: 'shared',
  PlaceCapacity: 'shared',
  FormerLabel: 'shared',
  Maker: 'shared',
  ThreadLine: 'shared',
  Thread: 'shared',
  FormerThreadCode: 'shared',
  Conversion: 'shared',
  ThreadBarcode: 'shared',
  StandIn: 'shared',
  ThreadOffer: 'shared',
  Designer: 'shared',
  FormerDesignerName: 'shared',
  Theme: 'shared',
  ToldApart: 'shared',
  ImportMapping: 'shared',
  // Read by the ids of things that are seen.
  LabelPrint: 'shared',

  Account: 'shared',
  AccountOwner: 'shared',
  Session: 'shared',
  Passkey: 'shared',
  SignInChallenge: 'shared',
  ApiToken: 'shared',
  AuditEntry: 'shared',
  AnsweredKey: 'shared',
  BackgroundJob: 'shared',
  PhotoLook: 'shared',
}

export const isShared = (model: string): boolean => sightRules[model] === 'shared'
