import { getAllowance } from './allowance'
import { applyBulkEditOperation, listBulkEditsOperation, previewBulkEditOperation, undoBulkEditOperation } from './bulk-edits'
import { buyingOperations } from './buying'
import { calculateClothSize } from './cloth-size'
import { calculateCoverage } from './coverage'
import {
  enterDeliveryOperation,
  forgetBarcodeOperation,
  lookUpForDeliveryOperation,
  rememberBarcodeOperation,
  undoDeliveryOperation,
} from './deliveries'
import { getDesign, getDesignCloth, getDesignCoverage, listDesigns, searchEverything } from './designs'
import { bringFileIn, getImport, listImportsOperation, undoImportOperation } from './imports'
import { getDesignKits } from './kits'
import { listLikelyThreads } from './likely-threads'
import type { AnyOperation } from './operation'
import { getPlaceAround } from './place-around'
import { getPlace, listPlacesOperation } from './places'
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
  logWorkOperation,
  moveProjectOperation,
} from './projects'
import { getDocument, getHealth } from './service'
import { calculateStitchesFrom } from './stitches-from'
import {
  addMovement,
  getThread,
  listClothOperation,
  listMovementsOperation,
  listOwnersOperation,
  listThreadsOperation,
} from './stock'
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
import { askWhatIfOperation } from './what-if'

/** Everything the API does, in the order of its page. */
export const operations = [
  calculateThreadUse,
  calculateStitchesFrom,
  calculateClothSize,
  calculateCoverage,
  searchEverything,
  listDesigns,
  getDesign,
  getDesignCoverage,
  getDesignCloth,
  getDesignSwaps,
  getDesignKits,
  askWhatIfOperation,
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
  ...buyingOperations,
  listPlacesOperation,
  getPlace,
  getPlaceAround,
  listProjects,
  addProject,
  getProject,
  getProjectStock,
  promiseStockOperation,
  promiseAgainOperation,
  setProjectSwapOperation,
  listBrokenPromisesOperation,
  kitProjectOperation,
  moveProjectOperation,
  logWorkOperation,
  abandonProjectOperation,
  finishProjectOperation,
  bringFileIn,
  listImportsOperation,
  getImport,
  undoImportOperation,
  getHealth,
  getDocument,
] as unknown as readonly AnyOperation[]
