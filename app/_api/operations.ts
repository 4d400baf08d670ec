import { getAllowance } from './allowance'
import { archiveOperations } from './archives'
import { backupOperations } from './backups'
import { applyBulkEditOperation, listBulkEditsOperation, previewBulkEditOperation, undoBulkEditOperation } from './bulk-edits'
import { buyListOperations } from './buy-lists'
import { buyingOperations } from './buying'
import { calendarOperations } from './calendar'
import { chartBulkOperations } from './chart-bulks'
import { checkOperations } from './checks'
import { chooseDesignsOperation, chooseTogetherOperation, listKitPairsOperation, setStarsOperation } from './choose-designs'
import {
  addClothPiece,
  changeClothPiece,
  countClothPiece,
  getClothPiece,
  measureClothPiece,
  testClothBleeding,
  washClothPiece,
} from './cloth-pieces'
import { calculateClothSize, calculateDrumStrip } from './cloth-size'
import { countOperations } from './counts'
import { calculateCoverage } from './coverage'
import { cutPlanOperations } from './cut-plans'
import {
  enterDeliveryOperation,
  forgetBarcodeOperation,
  lookUpForDeliveryOperation,
  rememberBarcodeOperation,
  undoDeliveryOperation,
} from './deliveries'
import { getDesignCloth, getDesignFrame } from './design-cloth'
import { getDesign, getDesignCoverage, listDesigns, searchEverything } from './designs'
import { doublesOperations } from './doubles'
import { fileOperations } from './files'
import { carryOutFilingOperation, planFilingOperation } from './filing'
import { finishOperations } from './finishes'
import { listFinishingsOperation, removeFinishingOperation, saveFinishingOperation, saveFramingOperation } from './finishings'
import { bringFileIn, getImport, listImportsOperation, undoImportOperation } from './imports'
import { insuranceOperations } from './insurance'
import { kitBagOperations } from './kit-bags'
import { kitOperations } from './kit-items'
import { getDesignKits } from './kits'
import { keepLabelsPrintedOperation, listLabelsOperation } from './labels'
import { listLikelyThreads } from './likely-threads'
import { getSharedList } from './lists'
import { listProjectClashesOperation, loanOperations } from './loans'
import { missingOperations } from './missing'
import { addMovement, listMovementsOperation } from './movements'
import { newHomeOperations } from './new-homes'
import { addNotionOperation, calculateNeedle, listNotionsOperation, notionOperations } from './notions'
import { occasionOperations } from './occasions'
import { offerOperations } from './offers'
import type { AnyOperation } from './operation'
import { listPieceDesigns } from './piece-designs'
import { getPlaceAround } from './place-around'
import { placeChangeOperations } from './place-changes'
import { placeWriteOperations } from './place-writes'
import { getPlace, listPlacesOperation } from './places'
import { planningOperations } from './planning'
import { plotsOperation } from './plots'
import { projectBulkOperations } from './project-bulks'
import {
  getProjectStock,
  listBrokenPromisesOperation,
  promiseAgainOperation,
  promiseStockOperation,
  setProjectSwapOperation,
} from './project-stock'
import {
  abandonProjectOperation,
  addProject,
  finishProjectOperation,
  getProject,
  kitProjectOperation,
  listProjects,
  listTravellingOperation,
  moveProjectOperation,
  planProjectDayOperation,
  setProjectDeadlineOperation,
} from './projects'
import { readingOperations } from './readings'
import { calculateRulerCount } from './ruler-count'
import { savedFilterOperations } from './saved-filters'
import { readScannedOperation } from './scan'
import { getDocument, getHealth, getReady } from './service'
import { partOperations } from './stitch-along-parts'
import { calculateStitchesFrom } from './stitches-from'
import { getThread, listClothOperation, listOwnersOperation, listThreadsOperation } from './stock'
import {
  addConversionsOperation,
  getConversionList,
  getDesignSwaps,
  getThreadSwaps,
  listConversionListsOperation,
  removeConversionsOperation,
} from './swaps'
import { getThreadAbout } from './thread-about'
import { calculateThreadUse } from './thread-use'
import { todayOperations } from './today'
import { unpackOperations } from './unpack'
import { walkOperations } from './walks'
import { askWhatIfOperation } from './what-if'
import { workOperations } from './work'
import { calculateYardage } from './yardage'

/** Everything the API does, in the order of its page. */
export const operations = [
  calculateThreadUse,
  calculateStitchesFrom,
  calculateClothSize,
  calculateDrumStrip,
  calculateRulerCount,
  calculateYardage,
  calculateNeedle,
  calculateCoverage,
  searchEverything,
  listDesigns,
  getDesign,
  getDesignCoverage,
  getDesignCloth,
  getDesignFrame,
  listFinishingsOperation,
  saveFinishingOperation,
  removeFinishingOperation,
  saveFramingOperation,
  getDesignSwaps,
  getDesignKits,
  askWhatIfOperation,
  chooseDesignsOperation,
  chooseTogetherOperation,
  listKitPairsOperation,
  setStarsOperation,
  listOwnersOperation,
  listThreadsOperation,
  listLikelyThreads,
  getThread,
  getThreadSwaps,
  listConversionListsOperation,
  addConversionsOperation,
  getConversionList,
  removeConversionsOperation,
  getThreadAbout,
  getAllowance,
  listClothOperation,
  addClothPiece,
  getClothPiece,
  listPieceDesigns,
  changeClothPiece,
  measureClothPiece,
  countClothPiece,
  washClothPiece,
  testClothBleeding,
  ...cutPlanOperations,
  listNotionsOperation,
  addNotionOperation,
  ...Object.values(notionOperations),
  listMovementsOperation,
  addMovement,
  lookUpForDeliveryOperation,
  enterDeliveryOperation,
  undoDeliveryOperation,
  rememberBarcodeOperation,
  forgetBarcodeOperation,
  previewBulkEditOperation,
  applyBulkEditOperation,
  listBulkEditsOperation,
  undoBulkEditOperation,
  ...chartBulkOperations,
  ...projectBulkOperations,
  ...savedFilterOperations,
  ...buyingOperations,
  ...buyListOperations,
  ...offerOperations,
  ...countOperations,
  ...missingOperations,
  listPlacesOperation,
  getPlace,
  getPlaceAround,
  ...unpackOperations,
  ...doublesOperations,
  ...placeChangeOperations,
  ...newHomeOperations,
  ...placeWriteOperations,
  ...Object.values(loanOperations),
  listLabelsOperation,
  keepLabelsPrintedOperation,
  readScannedOperation,
  getSharedList,
  planFilingOperation,
  carryOutFilingOperation,
  listProjects,
  addProject,
  getProject,
  getProjectStock,
  promiseStockOperation,
  promiseAgainOperation,
  setProjectSwapOperation,
  listBrokenPromisesOperation,
  kitProjectOperation,
  ...Object.values(kitOperations),
  ...kitBagOperations,
  moveProjectOperation,
  ...Object.values(workOperations),
  ...Object.values(planningOperations),
  plotsOperation,
  ...Object.values(finishOperations),
  ...Object.values(occasionOperations),
  ...Object.values(calendarOperations),
  ...Object.values(partOperations),
  listTravellingOperation,
  ...Object.values(todayOperations),
  planProjectDayOperation,
  setProjectDeadlineOperation,
  listProjectClashesOperation,
  abandonProjectOperation,
  finishProjectOperation,
  ...walkOperations,
  bringFileIn,
  listImportsOperation,
  getImport,
  undoImportOperation,
  ...Object.values(readingOperations),
  ...Object.values(fileOperations),
  ...insuranceOperations,
  ...archiveOperations,
  ...backupOperations,
  ...checkOperations,
  getHealth,
  getReady,
  getDocument,
] as unknown as readonly AnyOperation[]
