-- The first schema. There are no rows yet to change.
-- By hand: CHECK constraints, the triggers at the end, the one Revision row.

-- CreateTable
CREATE TABLE "Revision" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "number" INTEGER NOT NULL
);

-- CreateTable
CREATE TABLE "Change" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "revision" INTEGER NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "Setting" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "valueJson" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 0
);

-- CreateTable
CREATE TABLE "Owner" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "kind" TEXT NOT NULL DEFAULT 'own',
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Owner_name_check" CHECK ("name" <> ''),
    CONSTRAINT "Owner_kind_check" CHECK ("kind" IN ('own', 'shop', 'person'))
);

-- CreateTable
CREATE TABLE "Place" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "label" TEXT NOT NULL,
    "labelKey" TEXT NOT NULL,
    "name" TEXT,
    "kind" TEXT NOT NULL,
    "parentId" TEXT,
    "path" TEXT NOT NULL,
    "walkOrder" INTEGER,
    "capacity" INTEGER,
    "note" TEXT,
    "goneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Place_parentId_fkey" FOREIGN KEY ("parentId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Place_label_check" CHECK ("label" <> '' AND "labelKey" <> ''),
    CONSTRAINT "Place_kind_check" CHECK ("kind" IN ('room', 'cabinet', 'drawer', 'compartment', 'rack', 'shelf', 'box', 'bag', 'ring', 'bin', 'folder', 'person', 'framer', 'finisher')),
    CONSTRAINT "Place_parent_check" CHECK ("parentId" IS NULL OR "parentId" <> "id"),
    CONSTRAINT "Place_capacity_check" CHECK ("capacity" IS NULL OR "capacity" >= 0)
);

-- CreateTable
CREATE TABLE "Maker" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Maker_name_check" CHECK ("name" <> '')
);

-- CreateTable
CREATE TABLE "ThreadLine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "makerId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "fibre" TEXT,
    "strands" INTEGER NOT NULL,
    "putUpStrandTenths" INTEGER NOT NULL,
    "putUpWord" TEXT NOT NULL DEFAULT 'skein',
    "dyeing" TEXT NOT NULL DEFAULT 'solid',
    "lotsMatter" BOOLEAN NOT NULL DEFAULT false,
    "working" TEXT NOT NULL DEFAULT 'rows',
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ThreadLine_makerId_fkey" FOREIGN KEY ("makerId") REFERENCES "Maker" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ThreadLine_strands_check" CHECK ("strands" BETWEEN 1 AND 100),
    CONSTRAINT "ThreadLine_putUp_check" CHECK ("putUpStrandTenths" > 0),
    CONSTRAINT "ThreadLine_dyeing_check" CHECK ("dyeing" IN ('solid', 'variegated', 'overdyed')),
    CONSTRAINT "ThreadLine_working_check" CHECK ("working" IN ('rows', 'crosses'))
);

-- CreateTable
CREATE TABLE "Thread" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "lineId" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT,
    "labL" REAL,
    "labA" REAL,
    "labB" REAL,
    "note" TEXT,
    "minimumPutUps" INTEGER,
    "goneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Thread_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "ThreadLine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Thread_code_check" CHECK ("code" <> ''),
    CONSTRAINT "Thread_lab_check" CHECK (("labL" IS NULL) = ("labA" IS NULL) AND ("labL" IS NULL) = ("labB" IS NULL) AND ("labL" IS NULL OR "labL" BETWEEN 0 AND 100)),
    CONSTRAINT "Thread_minimum_check" CHECK ("minimumPutUps" IS NULL OR "minimumPutUps" >= 0)
);

-- CreateTable
CREATE TABLE "StandIn" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "threadId" TEXT NOT NULL,
    "standInThreadId" TEXT NOT NULL,
    "source" TEXT,
    CONSTRAINT "StandIn_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "StandIn_standInThreadId_fkey" FOREIGN KEY ("standInThreadId") REFERENCES "Thread" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "StandIn_other_check" CHECK ("threadId" <> "standInThreadId")
);

-- CreateTable
CREATE TABLE "Batch" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "threadId" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "lot" TEXT,
    "putUpStrandTenths" INTEGER NOT NULL,
    "wholePutUps" INTEGER NOT NULL,
    "partStrandTenths" INTEGER NOT NULL DEFAULT 0,
    "partCertainty" TEXT NOT NULL DEFAULT 'none',
    "homePlaceId" TEXT,
    "currentPlaceId" TEXT,
    "outSince" DATETIME,
    "parentId" TEXT,
    "goneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Batch_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Batch_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Batch_homePlaceId_fkey" FOREIGN KEY ("homePlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Batch_currentPlaceId_fkey" FOREIGN KEY ("currentPlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Batch_parentId_fkey" FOREIGN KEY ("parentId") REFERENCES "Batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Batch_putUp_check" CHECK ("putUpStrandTenths" > 0),
    CONSTRAINT "Batch_whole_check" CHECK ("wholePutUps" >= 0),
    CONSTRAINT "Batch_part_check" CHECK ("partStrandTenths" >= 0),
    CONSTRAINT "Batch_certainty_check" CHECK ("partCertainty" IN ('none', 'measured', 'label', 'guess', 'some')),
    CONSTRAINT "Batch_partKnown_check" CHECK (("partCertainty" IN ('none', 'some')) = ("partStrandTenths" = 0))
);

-- CreateTable
CREATE TABLE "ClothPiece" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "ownerId" TEXT NOT NULL,
    "label" TEXT,
    "labelKey" TEXT,
    "makerName" TEXT,
    "name" TEXT NOT NULL,
    "colourName" TEXT,
    "labL" REAL,
    "labA" REAL,
    "labB" REAL,
    "weave" TEXT NOT NULL,
    "endsThreads" INTEGER NOT NULL,
    "endsPerUm" INTEGER NOT NULL,
    "picksThreads" INTEGER NOT NULL,
    "picksPerUm" INTEGER NOT NULL,
    "widthUm" INTEGER NOT NULL,
    "heightUm" INTEGER NOT NULL,
    "isSquared" BOOLEAN NOT NULL DEFAULT false,
    "sizeCertainty" TEXT NOT NULL DEFAULT 'label',
    "isTurnable" BOOLEAN NOT NULL DEFAULT true,
    "homePlaceId" TEXT,
    "currentPlaceId" TEXT,
    "outSince" DATETIME,
    "parentId" TEXT,
    "note" TEXT,
    "goneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ClothPiece_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ClothPiece_homePlaceId_fkey" FOREIGN KEY ("homePlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ClothPiece_currentPlaceId_fkey" FOREIGN KEY ("currentPlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ClothPiece_parentId_fkey" FOREIGN KEY ("parentId") REFERENCES "ClothPiece" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ClothPiece_weave_check" CHECK ("weave" IN ('block', 'single')),
    CONSTRAINT "ClothPiece_counts_check" CHECK ("endsThreads" > 0 AND "endsPerUm" > 0 AND "picksThreads" > 0 AND "picksPerUm" > 0),
    CONSTRAINT "ClothPiece_size_check" CHECK ("widthUm" > 0 AND "heightUm" > 0),
    CONSTRAINT "ClothPiece_certainty_check" CHECK ("sizeCertainty" IN ('measured', 'label', 'guess'))
);

-- CreateTable
CREATE TABLE "Designer" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "Chart" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "title" TEXT NOT NULL,
    "titleKey" TEXT NOT NULL,
    "kind" TEXT NOT NULL DEFAULT 'leaflet',
    "ownerId" TEXT NOT NULL,
    "copies" INTEGER NOT NULL DEFAULT 1,
    "edition" TEXT,
    "partsNeeded" INTEGER NOT NULL DEFAULT 1,
    "partsHeld" INTEGER NOT NULL DEFAULT 1,
    "homePlaceId" TEXT,
    "currentPlaceId" TEXT,
    "outSince" DATETIME,
    "boughtOn" TEXT,
    "priceMinor" INTEGER,
    "note" TEXT,
    "goneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Chart_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Chart_homePlaceId_fkey" FOREIGN KEY ("homePlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Chart_currentPlaceId_fkey" FOREIGN KEY ("currentPlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Chart_title_check" CHECK ("title" <> ''),
    CONSTRAINT "Chart_kind_check" CHECK ("kind" IN ('leaflet', 'booklet', 'card', 'issue', 'kit', 'file')),
    CONSTRAINT "Chart_copies_check" CHECK ("copies" >= 0),
    CONSTRAINT "Chart_parts_check" CHECK ("partsHeld" >= 0 AND "partsNeeded" >= 1),
    CONSTRAINT "Chart_boughtOn_check" CHECK ("boughtOn" IS NULL OR "boughtOn" LIKE '____-__-__'),
    CONSTRAINT "Chart_price_check" CHECK ("priceMinor" IS NULL OR "priceMinor" >= 0)
);

-- CreateTable
CREATE TABLE "ChartDesigner" (
    "chartId" TEXT NOT NULL,
    "designerId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,

    PRIMARY KEY ("chartId", "designerId"),
    CONSTRAINT "ChartDesigner_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "ChartDesigner_designerId_fkey" FOREIGN KEY ("designerId") REFERENCES "Designer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Design" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "chartId" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "titleKey" TEXT NOT NULL,
    "position" INTEGER NOT NULL DEFAULT 0,
    "widthStitches" INTEGER,
    "heightStitches" INTEGER,
    "measuredWidthUm" INTEGER,
    "measuredHeightUm" INTEGER,
    "advisedThreads" INTEGER,
    "advisedPerUm" INTEGER,
    "advisedOver" INTEGER,
    "advisedWeave" TEXT,
    "insistsOnWeave" BOOLEAN NOT NULL DEFAULT false,
    "advisedCloth" TEXT,
    "coverKind" TEXT,
    "note" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Design_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "Design_title_check" CHECK ("title" <> ''),
    CONSTRAINT "Design_stitches_check" CHECK (("widthStitches" IS NULL) = ("heightStitches" IS NULL) AND ("widthStitches" IS NULL OR ("widthStitches" > 0 AND "heightStitches" > 0))),
    CONSTRAINT "Design_measured_check" CHECK (("measuredWidthUm" IS NULL) = ("measuredHeightUm" IS NULL) AND ("measuredWidthUm" IS NULL OR ("measuredWidthUm" > 0 AND "measuredHeightUm" > 0))),
    CONSTRAINT "Design_advised_check" CHECK (("advisedThreads" IS NULL) = ("advisedPerUm" IS NULL) AND ("advisedThreads" IS NULL) = ("advisedOver" IS NULL) AND ("advisedThreads" IS NULL OR ("advisedThreads" > 0 AND "advisedPerUm" > 0 AND "advisedOver" IN (1, 2)))),
    CONSTRAINT "Design_weave_check" CHECK ("advisedWeave" IS NULL OR "advisedWeave" IN ('block', 'single')),
    CONSTRAINT "Design_cover_check" CHECK ("coverKind" IS NULL OR "coverKind" IN ('band sampler', 'motif sampler', 'picture', 'full'))
);

-- CreateTable
CREATE TABLE "Theme" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "axis" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    CONSTRAINT "Theme_axis_check" CHECK ("axis" IN ('season', 'subject', 'form'))
);

-- CreateTable
CREATE TABLE "DesignTheme" (
    "designId" TEXT NOT NULL,
    "themeId" TEXT NOT NULL,

    PRIMARY KEY ("designId", "themeId"),
    CONSTRAINT "DesignTheme_designId_fkey" FOREIGN KEY ("designId") REFERENCES "Design" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "DesignTheme_themeId_fkey" FOREIGN KEY ("themeId") REFERENCES "Theme" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ThreadList" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "isIncomplete" BOOLEAN NOT NULL DEFAULT false,
    "designId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "position" INTEGER NOT NULL DEFAULT 0,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ThreadList_designId_fkey" FOREIGN KEY ("designId") REFERENCES "Design" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "KeyLine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "threadListId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "symbol" TEXT,
    "note" TEXT,
    "hasTally" BOOLEAN NOT NULL DEFAULT false,
    "full" INTEGER NOT NULL DEFAULT 0,
    "half" INTEGER NOT NULL DEFAULT 0,
    "quarter" INTEGER NOT NULL DEFAULT 0,
    "threeQuarter" INTEGER NOT NULL DEFAULT 0,
    "tent" INTEGER NOT NULL DEFAULT 0,
    "backstitch" INTEGER NOT NULL DEFAULT 0,
    "backstitchDiagonal" INTEGER NOT NULL DEFAULT 0,
    "doubleRunning" INTEGER NOT NULL DEFAULT 0,
    "knotOneWrap" INTEGER NOT NULL DEFAULT 0,
    "knotTwoWrap" INTEGER NOT NULL DEFAULT 0,
    "bead" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "KeyLine_threadListId_fkey" FOREIGN KEY ("threadListId") REFERENCES "ThreadList" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "KeyLine_tally_check" CHECK ("full" >= 0 AND "half" >= 0 AND "quarter" >= 0 AND "threeQuarter" >= 0 AND "tent" >= 0 AND "backstitch" >= 0 AND "backstitchDiagonal" >= 0 AND "doubleRunning" >= 0 AND "knotOneWrap" >= 0 AND "knotTwoWrap" >= 0 AND "bead" >= 0),
    CONSTRAINT "KeyLine_noTally_check" CHECK ("hasTally" OR "full" + "half" + "quarter" + "threeQuarter" + "tent" + "backstitch" + "backstitchDiagonal" + "doubleRunning" + "knotOneWrap" + "knotTwoWrap" + "bead" = 0)
);

-- CreateTable
CREATE TABLE "KeyLineThread" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "keyLineId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "threadId" TEXT NOT NULL,
    "strands" INTEGER NOT NULL,
    "statedHundredths" INTEGER,
    "statedPutUpTenths" INTEGER,
    CONSTRAINT "KeyLineThread_keyLineId_fkey" FOREIGN KEY ("keyLineId") REFERENCES "KeyLine" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "KeyLineThread_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KeyLineThread_strands_check" CHECK ("strands" BETWEEN 1 AND 100),
    CONSTRAINT "KeyLineThread_stated_check" CHECK (("statedHundredths" IS NULL OR "statedHundredths" > 0) AND ("statedPutUpTenths" IS NULL OR ("statedPutUpTenths" > 0 AND "statedHundredths" IS NOT NULL)))
);

-- CreateTable
CREATE TABLE "Project" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "designId" TEXT NOT NULL,
    "threadListId" TEXT,
    "ownerId" TEXT NOT NULL,
    "clothPieceId" TEXT,
    "over" INTEGER,
    "status" TEXT NOT NULL DEFAULT 'planned',
    "quantity" INTEGER NOT NULL DEFAULT 1,
    "placeId" TEXT,
    "forWhom" TEXT,
    "dueOn" TEXT,
    "startedOn" TEXT,
    "finishedOn" TEXT,
    "hoursTenths" INTEGER NOT NULL DEFAULT 0,
    "stitchesDone" INTEGER NOT NULL DEFAULT 0,
    "finishing" TEXT,
    "photoFile" TEXT,
    "note" TEXT,
    "goneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Project_designId_fkey" FOREIGN KEY ("designId") REFERENCES "Design" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Project_threadListId_fkey" FOREIGN KEY ("threadListId") REFERENCES "ThreadList" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Project_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Project_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Project_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Project_status_check" CHECK ("status" IN ('wanted', 'planned', 'kitted', 'stitching', 'resting', 'stitched', 'finished', 'abandoned')),
    CONSTRAINT "Project_quantity_check" CHECK ("quantity" >= 1),
    CONSTRAINT "Project_over_check" CHECK ("over" IS NULL OR "over" IN (1, 2)),
    CONSTRAINT "Project_figures_check" CHECK ("hoursTenths" >= 0 AND "stitchesDone" >= 0),
    CONSTRAINT "Project_dates_check" CHECK (("dueOn" IS NULL OR "dueOn" LIKE '____-__-__') AND ("startedOn" IS NULL OR "startedOn" LIKE '____-__-__') AND ("finishedOn" IS NULL OR "finishedOn" LIKE '____-__-__')),
    CONSTRAINT "Project_finished_check" CHECK ("status" <> 'finished' OR "finishedOn" IS NOT NULL)
);

-- CreateTable
CREATE TABLE "StockPromise" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "projectId" TEXT NOT NULL,
    "batchId" TEXT NOT NULL,
    "strandTenths" INTEGER NOT NULL,
    CONSTRAINT "StockPromise_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "StockPromise_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "StockPromise_length_check" CHECK ("strandTenths" > 0)
);

-- CreateTable
CREATE TABLE "Movement" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "revision" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,
    "kind" TEXT NOT NULL,
    "batchId" TEXT,
    "clothPieceId" TEXT,
    "chartId" TEXT,
    "wholeDelta" INTEGER NOT NULL DEFAULT 0,
    "partDeltaStrandTenths" INTEGER NOT NULL DEFAULT 0,
    "fromPlaceId" TEXT,
    "toPlaceId" TEXT,
    "fromOwnerId" TEXT,
    "toOwnerId" TEXT,
    "projectId" TEXT,
    "importId" TEXT,
    "who" TEXT,
    "reason" TEXT,
    CONSTRAINT "Movement_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_fromPlaceId_fkey" FOREIGN KEY ("fromPlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_toPlaceId_fkey" FOREIGN KEY ("toPlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_fromOwnerId_fkey" FOREIGN KEY ("fromOwnerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_toOwnerId_fkey" FOREIGN KEY ("toOwnerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_importId_fkey" FOREIGN KEY ("importId") REFERENCES "ImportBatch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_kind_check" CHECK ("kind" IN ('receive', 'use', 'move', 'take', 'return', 'split', 'merge', 'correct', 'transfer', 'cut', 'undo')),
    CONSTRAINT "Movement_oneThing_check" CHECK (("batchId" IS NOT NULL AND "clothPieceId" IS NULL AND "chartId" IS NULL) OR ("batchId" IS NULL AND "clothPieceId" IS NOT NULL AND "chartId" IS NULL) OR ("batchId" IS NULL AND "clothPieceId" IS NULL AND "chartId" IS NOT NULL)),
    CONSTRAINT "Movement_partOfBatch_check" CHECK ("partDeltaStrandTenths" = 0 OR "batchId" IS NOT NULL)
);

-- CreateTable
CREATE TABLE "ImportBatch" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "kind" TEXT NOT NULL,
    "fileName" TEXT NOT NULL,
    "fileHash" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "status" TEXT NOT NULL DEFAULT 'done',
    "mappingJson" TEXT NOT NULL,
    "addedCount" INTEGER NOT NULL DEFAULT 0,
    "changedCount" INTEGER NOT NULL DEFAULT 0,
    "sameCount" INTEGER NOT NULL DEFAULT 0,
    "refusedCount" INTEGER NOT NULL DEFAULT 0,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ImportBatch_kind_check" CHECK ("kind" IN ('places', 'charts', 'lists', 'threads', 'cloth', 'projects')),
    CONSTRAINT "ImportBatch_status_check" CHECK ("status" IN ('done', 'undone'))
);

-- CreateTable
CREATE TABLE "ImportRow" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "importId" TEXT NOT NULL,
    "rowNumber" INTEGER NOT NULL,
    "rowKey" TEXT NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" TEXT,
    CONSTRAINT "ImportRow_importId_fkey" FOREIGN KEY ("importId") REFERENCES "ImportBatch" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ImportStep" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "importId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "did" TEXT NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" TEXT NOT NULL,
    "beforeJson" TEXT,
    "versionAfter" INTEGER NOT NULL,
    CONSTRAINT "ImportStep_importId_fkey" FOREIGN KEY ("importId") REFERENCES "ImportBatch" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "ImportStep_did_check" CHECK ("did" IN ('added', 'changed'))
);

-- CreateTable
CREATE TABLE "ImportMapping" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "shapeKey" TEXT NOT NULL,
    "mappingJson" TEXT NOT NULL
);

-- CreateIndex
CREATE INDEX "Change_revision_idx" ON "Change"("revision");

-- CreateIndex
CREATE UNIQUE INDEX "Owner_nameKey_key" ON "Owner"("nameKey");

-- CreateIndex
CREATE UNIQUE INDEX "Place_labelKey_key" ON "Place"("labelKey");

-- CreateIndex
CREATE INDEX "Place_parentId_idx" ON "Place"("parentId");

-- CreateIndex
CREATE INDEX "Place_path_idx" ON "Place"("path");

-- CreateIndex
CREATE UNIQUE INDEX "Maker_nameKey_key" ON "Maker"("nameKey");

-- CreateIndex
CREATE UNIQUE INDEX "ThreadLine_makerId_nameKey_key" ON "ThreadLine"("makerId", "nameKey");

-- CreateIndex
CREATE UNIQUE INDEX "Thread_lineId_code_key" ON "Thread"("lineId", "code");

-- CreateIndex
CREATE INDEX "StandIn_standInThreadId_idx" ON "StandIn"("standInThreadId");

-- CreateIndex
CREATE UNIQUE INDEX "StandIn_threadId_standInThreadId_key" ON "StandIn"("threadId", "standInThreadId");

-- CreateIndex
CREATE INDEX "Batch_threadId_idx" ON "Batch"("threadId");

-- CreateIndex
CREATE INDEX "Batch_homePlaceId_idx" ON "Batch"("homePlaceId");

-- CreateIndex
CREATE INDEX "Batch_currentPlaceId_idx" ON "Batch"("currentPlaceId");

-- CreateIndex
CREATE INDEX "ClothPiece_homePlaceId_idx" ON "ClothPiece"("homePlaceId");

-- CreateIndex
CREATE INDEX "ClothPiece_currentPlaceId_idx" ON "ClothPiece"("currentPlaceId");

-- CreateIndex
CREATE UNIQUE INDEX "ClothPiece_ownerId_labelKey_key" ON "ClothPiece"("ownerId", "labelKey");

-- CreateIndex
CREATE UNIQUE INDEX "Designer_nameKey_key" ON "Designer"("nameKey");

-- CreateIndex
CREATE INDEX "Chart_titleKey_idx" ON "Chart"("titleKey");

-- CreateIndex
CREATE INDEX "Chart_homePlaceId_idx" ON "Chart"("homePlaceId");

-- CreateIndex
CREATE INDEX "Chart_currentPlaceId_idx" ON "Chart"("currentPlaceId");

-- CreateIndex
CREATE INDEX "ChartDesigner_designerId_idx" ON "ChartDesigner"("designerId");

-- CreateIndex
CREATE INDEX "Design_titleKey_idx" ON "Design"("titleKey");

-- CreateIndex
CREATE UNIQUE INDEX "Design_chartId_titleKey_key" ON "Design"("chartId", "titleKey");

-- CreateIndex
CREATE UNIQUE INDEX "Theme_axis_nameKey_key" ON "Theme"("axis", "nameKey");

-- CreateIndex
CREATE INDEX "DesignTheme_themeId_idx" ON "DesignTheme"("themeId");

-- CreateIndex
CREATE UNIQUE INDEX "ThreadList_designId_nameKey_key" ON "ThreadList"("designId", "nameKey");

-- CreateIndex
CREATE UNIQUE INDEX "KeyLine_threadListId_position_key" ON "KeyLine"("threadListId", "position");

-- CreateIndex
CREATE INDEX "KeyLineThread_threadId_idx" ON "KeyLineThread"("threadId");

-- CreateIndex
CREATE UNIQUE INDEX "KeyLineThread_keyLineId_position_key" ON "KeyLineThread"("keyLineId", "position");

-- CreateIndex
CREATE INDEX "Project_designId_idx" ON "Project"("designId");

-- CreateIndex
CREATE INDEX "Project_status_finishedOn_idx" ON "Project"("status", "finishedOn");

-- CreateIndex
CREATE INDEX "Project_clothPieceId_idx" ON "Project"("clothPieceId");

-- CreateIndex
CREATE INDEX "StockPromise_batchId_idx" ON "StockPromise"("batchId");

-- CreateIndex
CREATE UNIQUE INDEX "StockPromise_projectId_batchId_key" ON "StockPromise"("projectId", "batchId");

-- CreateIndex
CREATE INDEX "Movement_batchId_revision_idx" ON "Movement"("batchId", "revision");

-- CreateIndex
CREATE INDEX "Movement_clothPieceId_revision_idx" ON "Movement"("clothPieceId", "revision");

-- CreateIndex
CREATE INDEX "Movement_chartId_revision_idx" ON "Movement"("chartId", "revision");

-- CreateIndex
CREATE INDEX "Movement_projectId_idx" ON "Movement"("projectId");

-- CreateIndex
CREATE INDEX "Movement_importId_idx" ON "Movement"("importId");

-- CreateIndex
CREATE INDEX "Movement_at_idx" ON "Movement"("at");

-- CreateIndex
CREATE INDEX "ImportBatch_at_idx" ON "ImportBatch"("at");

-- CreateIndex
CREATE INDEX "ImportRow_importId_idx" ON "ImportRow"("importId");

-- CreateIndex
CREATE INDEX "ImportRow_rowKey_idx" ON "ImportRow"("rowKey");

-- CreateIndex
CREATE UNIQUE INDEX "ImportStep_importId_position_key" ON "ImportStep"("importId", "position");

-- CreateIndex
CREATE INDEX "ImportStep_nounId_idx" ON "ImportStep"("nounId");

-- CreateIndex
CREATE UNIQUE INDEX "ImportMapping_shapeKey_key" ON "ImportMapping"("shapeKey");

-- The one revision row every write transaction raises.
INSERT INTO "Revision" ("id", "number") VALUES ('main', 0);

-- The journal is append-only.
CREATE TRIGGER "Movement_no_update" BEFORE UPDATE ON "Movement"
BEGIN
    SELECT RAISE(ABORT, 'movements are never changed');
END;

CREATE TRIGGER "Movement_no_delete" BEFORE DELETE ON "Movement"
BEGIN
    SELECT RAISE(ABORT, 'movements are never deleted');
END;
