import { calculateClothSize } from './cloth-size'
import { calculateCoverage } from './coverage'
import { getDesign, getDesignCloth, getDesignCoverage, listDesigns, searchEverything } from './designs'
import { bringFileIn, getImport, listImportsOperation, undoImportOperation } from './imports'
import type { AnyOperation } from './operation'
import { getPlace, listPlacesOperation } from './places'
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
import {
  addMovement,
  getThread,
  listClothOperation,
  listMovementsOperation,
  listOwnersOperation,
  listThreadsOperation,
} from './stock'
import { calculateThreadUse } from './thread-use'

/** Everything the API does, in the order of its page. */
export const operations = [
  calculateThreadUse,
  calculateClothSize,
  calculateCoverage,
  searchEverything,
  listDesigns,
  getDesign,
  getDesignCoverage,
  getDesignCloth,
  listOwnersOperation,
  listThreadsOperation,
  getThread,
  listClothOperation,
  listMovementsOperation,
  addMovement,
  listPlacesOperation,
  getPlace,
  listProjects,
  addProject,
  getProject,
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
