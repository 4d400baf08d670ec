-- The first schema. There are no rows yet to change.
-- By hand: CHECK constraints, the triggers at the end, the one Revision row.

-- CreateTable
CREATE TABLE "Revision" (
    "id" TEXT NOT NULL,
    "number" INTEGER NOT NULL,

    CONSTRAINT "Revision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Change" (
    "id" TEXT NOT NULL,
    "revision" INTEGER NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" TEXT NOT NULL,

    CONSTRAINT "Change_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Setting" (
    "key" TEXT NOT NULL,
    "valueJson" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Setting_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "Owner" (
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "kind" TEXT NOT NULL DEFAULT 'own',
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Owner_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Place" (
    "id" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "labelKey" TEXT NOT NULL,
    "name" TEXT,
    "kind" TEXT NOT NULL,
    "parentId" TEXT,
    "path" TEXT NOT NULL,
    "walkOrder" INTEGER,
    "capacity" INTEGER,
    "note" TEXT,
    "goneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Place_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Maker" (
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Maker_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ThreadLine" (
    "id" TEXT NOT NULL,
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

    CONSTRAINT "ThreadLine_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Thread" (
    "id" TEXT NOT NULL,
    "lineId" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT,
    "labL" DOUBLE PRECISION,
    "labA" DOUBLE PRECISION,
    "labB" DOUBLE PRECISION,
    "note" TEXT,
    "minimumPutUps" INTEGER,
    "goneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Thread_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "StandIn" (
    "id" TEXT NOT NULL,
    "threadId" TEXT NOT NULL,
    "standInThreadId" TEXT NOT NULL,
    "source" TEXT,

    CONSTRAINT "StandIn_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Batch" (
    "id" TEXT NOT NULL,
    "threadId" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "lot" TEXT,
    "putUpStrandTenths" INTEGER NOT NULL,
    "wholePutUps" INTEGER NOT NULL,
    "partStrandTenths" INTEGER NOT NULL DEFAULT 0,
    "partCertainty" TEXT NOT NULL DEFAULT 'none',
    "homePlaceId" TEXT,
    "currentPlaceId" TEXT,
    "outSince" TIMESTAMP(3),
    "parentId" TEXT,
    "goneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Batch_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ClothPiece" (
    "id" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "label" TEXT,
    "labelKey" TEXT,
    "makerName" TEXT,
    "name" TEXT NOT NULL,
    "colourName" TEXT,
    "labL" DOUBLE PRECISION,
    "labA" DOUBLE PRECISION,
    "labB" DOUBLE PRECISION,
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
    "outSince" TIMESTAMP(3),
    "parentId" TEXT,
    "note" TEXT,
    "goneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "ClothPiece_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Designer" (
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,

    CONSTRAINT "Designer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Chart" (
    "id" TEXT NOT NULL,
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
    "outSince" TIMESTAMP(3),
    "boughtOn" TEXT,
    "priceMinor" INTEGER,
    "note" TEXT,
    "goneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Chart_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ChartDesigner" (
    "chartId" TEXT NOT NULL,
    "designerId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,

    CONSTRAINT "ChartDesigner_pkey" PRIMARY KEY ("chartId","designerId")
);

-- CreateTable
CREATE TABLE "Design" (
    "id" TEXT NOT NULL,
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

    CONSTRAINT "Design_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Theme" (
    "id" TEXT NOT NULL,
    "axis" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,

    CONSTRAINT "Theme_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "DesignTheme" (
    "designId" TEXT NOT NULL,
    "themeId" TEXT NOT NULL,

    CONSTRAINT "DesignTheme_pkey" PRIMARY KEY ("designId","themeId")
);

-- CreateTable
CREATE TABLE "ThreadList" (
    "id" TEXT NOT NULL,
    "isIncomplete" BOOLEAN NOT NULL DEFAULT false,
    "designId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "position" INTEGER NOT NULL DEFAULT 0,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "ThreadList_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "KeyLine" (
    "id" TEXT NOT NULL,
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

    CONSTRAINT "KeyLine_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "KeyLineThread" (
    "id" TEXT NOT NULL,
    "keyLineId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "threadId" TEXT NOT NULL,
    "strands" INTEGER NOT NULL,
    "statedHundredths" INTEGER,
    "statedPutUpTenths" INTEGER,

    CONSTRAINT "KeyLineThread_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Project" (
    "id" TEXT NOT NULL,
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
    "goneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Project_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "StockPromise" (
    "id" TEXT NOT NULL,
    "projectId" TEXT NOT NULL,
    "batchId" TEXT NOT NULL,
    "strandTenths" INTEGER NOT NULL,

    CONSTRAINT "StockPromise_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Movement" (
    "id" TEXT NOT NULL,
    "revision" INTEGER NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
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

    CONSTRAINT "Movement_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ImportBatch" (
    "id" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "fileName" TEXT NOT NULL,
    "fileHash" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "status" TEXT NOT NULL DEFAULT 'done',
    "mappingJson" TEXT NOT NULL,
    "addedCount" INTEGER NOT NULL DEFAULT 0,
    "changedCount" INTEGER NOT NULL DEFAULT 0,
    "sameCount" INTEGER NOT NULL DEFAULT 0,
    "refusedCount" INTEGER NOT NULL DEFAULT 0,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "ImportBatch_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ImportRow" (
    "id" TEXT NOT NULL,
    "importId" TEXT NOT NULL,
    "rowNumber" INTEGER NOT NULL,
    "rowKey" TEXT NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" TEXT,

    CONSTRAINT "ImportRow_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ImportStep" (
    "id" TEXT NOT NULL,
    "importId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "did" TEXT NOT NULL,
    "noun" TEXT NOT NULL,
    "nounId" TEXT NOT NULL,
    "beforeJson" TEXT,
    "versionAfter" INTEGER NOT NULL,

    CONSTRAINT "ImportStep_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ImportMapping" (
    "id" TEXT NOT NULL,
    "shapeKey" TEXT NOT NULL,
    "mappingJson" TEXT NOT NULL,

    CONSTRAINT "ImportMapping_pkey" PRIMARY KEY ("id")
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

-- AddForeignKey
ALTER TABLE "Place" ADD CONSTRAINT "Place_parentId_fkey" FOREIGN KEY ("parentId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ThreadLine" ADD CONSTRAINT "ThreadLine_makerId_fkey" FOREIGN KEY ("makerId") REFERENCES "Maker"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Thread" ADD CONSTRAINT "Thread_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "ThreadLine"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StandIn" ADD CONSTRAINT "StandIn_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StandIn" ADD CONSTRAINT "StandIn_standInThreadId_fkey" FOREIGN KEY ("standInThreadId") REFERENCES "Thread"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_homePlaceId_fkey" FOREIGN KEY ("homePlaceId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_currentPlaceId_fkey" FOREIGN KEY ("currentPlaceId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_parentId_fkey" FOREIGN KEY ("parentId") REFERENCES "Batch"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ClothPiece" ADD CONSTRAINT "ClothPiece_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ClothPiece" ADD CONSTRAINT "ClothPiece_homePlaceId_fkey" FOREIGN KEY ("homePlaceId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ClothPiece" ADD CONSTRAINT "ClothPiece_currentPlaceId_fkey" FOREIGN KEY ("currentPlaceId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ClothPiece" ADD CONSTRAINT "ClothPiece_parentId_fkey" FOREIGN KEY ("parentId") REFERENCES "ClothPiece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_homePlaceId_fkey" FOREIGN KEY ("homePlaceId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_currentPlaceId_fkey" FOREIGN KEY ("currentPlaceId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ChartDesigner" ADD CONSTRAINT "ChartDesigner_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ChartDesigner" ADD CONSTRAINT "ChartDesigner_designerId_fkey" FOREIGN KEY ("designerId") REFERENCES "Designer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Design" ADD CONSTRAINT "Design_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "DesignTheme" ADD CONSTRAINT "DesignTheme_designId_fkey" FOREIGN KEY ("designId") REFERENCES "Design"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "DesignTheme" ADD CONSTRAINT "DesignTheme_themeId_fkey" FOREIGN KEY ("themeId") REFERENCES "Theme"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ThreadList" ADD CONSTRAINT "ThreadList_designId_fkey" FOREIGN KEY ("designId") REFERENCES "Design"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KeyLine" ADD CONSTRAINT "KeyLine_threadListId_fkey" FOREIGN KEY ("threadListId") REFERENCES "ThreadList"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KeyLineThread" ADD CONSTRAINT "KeyLineThread_keyLineId_fkey" FOREIGN KEY ("keyLineId") REFERENCES "KeyLine"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KeyLineThread" ADD CONSTRAINT "KeyLineThread_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Project" ADD CONSTRAINT "Project_designId_fkey" FOREIGN KEY ("designId") REFERENCES "Design"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Project" ADD CONSTRAINT "Project_threadListId_fkey" FOREIGN KEY ("threadListId") REFERENCES "ThreadList"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Project" ADD CONSTRAINT "Project_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Project" ADD CONSTRAINT "Project_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Project" ADD CONSTRAINT "Project_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StockPromise" ADD CONSTRAINT "StockPromise_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StockPromise" ADD CONSTRAINT "StockPromise_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_fromPlaceId_fkey" FOREIGN KEY ("fromPlaceId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_toPlaceId_fkey" FOREIGN KEY ("toPlaceId") REFERENCES "Place"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_fromOwnerId_fkey" FOREIGN KEY ("fromOwnerId") REFERENCES "Owner"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_toOwnerId_fkey" FOREIGN KEY ("toOwnerId") REFERENCES "Owner"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_importId_fkey" FOREIGN KEY ("importId") REFERENCES "ImportBatch"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ImportRow" ADD CONSTRAINT "ImportRow_importId_fkey" FOREIGN KEY ("importId") REFERENCES "ImportBatch"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ImportStep" ADD CONSTRAINT "ImportStep_importId_fkey" FOREIGN KEY ("importId") REFERENCES "ImportBatch"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- Checks
ALTER TABLE "Owner" ADD CONSTRAINT "Owner_name_check" CHECK ("name" <> '');
ALTER TABLE "Owner" ADD CONSTRAINT "Owner_kind_check" CHECK ("kind" IN ('own', 'shop', 'person'));
ALTER TABLE "Place" ADD CONSTRAINT "Place_label_check" CHECK ("label" <> '' AND "labelKey" <> '');
ALTER TABLE "Place" ADD CONSTRAINT "Place_kind_check" CHECK ("kind" IN ('room', 'cabinet', 'drawer', 'compartment', 'rack', 'shelf', 'box', 'bag', 'ring', 'bin', 'folder', 'person', 'framer', 'finisher'));
ALTER TABLE "Place" ADD CONSTRAINT "Place_parent_check" CHECK ("parentId" IS NULL OR "parentId" <> "id");
ALTER TABLE "Place" ADD CONSTRAINT "Place_capacity_check" CHECK ("capacity" IS NULL OR "capacity" >= 0);
ALTER TABLE "Maker" ADD CONSTRAINT "Maker_name_check" CHECK ("name" <> '');
ALTER TABLE "ThreadLine" ADD CONSTRAINT "ThreadLine_strands_check" CHECK ("strands" BETWEEN 1 AND 100);
ALTER TABLE "ThreadLine" ADD CONSTRAINT "ThreadLine_putUp_check" CHECK ("putUpStrandTenths" > 0);
ALTER TABLE "ThreadLine" ADD CONSTRAINT "ThreadLine_dyeing_check" CHECK ("dyeing" IN ('solid', 'variegated', 'overdyed'));
ALTER TABLE "ThreadLine" ADD CONSTRAINT "ThreadLine_working_check" CHECK ("working" IN ('rows', 'crosses'));
ALTER TABLE "Thread" ADD CONSTRAINT "Thread_code_check" CHECK ("code" <> '');
ALTER TABLE "Thread" ADD CONSTRAINT "Thread_lab_check" CHECK (("labL" IS NULL) = ("labA" IS NULL) AND ("labL" IS NULL) = ("labB" IS NULL) AND ("labL" IS NULL OR "labL" BETWEEN 0 AND 100));
ALTER TABLE "Thread" ADD CONSTRAINT "Thread_minimum_check" CHECK ("minimumPutUps" IS NULL OR "minimumPutUps" >= 0);
ALTER TABLE "StandIn" ADD CONSTRAINT "StandIn_other_check" CHECK ("threadId" <> "standInThreadId");
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_putUp_check" CHECK ("putUpStrandTenths" > 0);
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_whole_check" CHECK ("wholePutUps" >= 0);
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_part_check" CHECK ("partStrandTenths" >= 0);
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_certainty_check" CHECK ("partCertainty" IN ('none', 'measured', 'label', 'guess', 'some'));
ALTER TABLE "Batch" ADD CONSTRAINT "Batch_partKnown_check" CHECK (("partCertainty" IN ('none', 'some')) = ("partStrandTenths" = 0));
ALTER TABLE "ClothPiece" ADD CONSTRAINT "ClothPiece_weave_check" CHECK ("weave" IN ('block', 'single'));
ALTER TABLE "ClothPiece" ADD CONSTRAINT "ClothPiece_counts_check" CHECK ("endsThreads" > 0 AND "endsPerUm" > 0 AND "picksThreads" > 0 AND "picksPerUm" > 0);
ALTER TABLE "ClothPiece" ADD CONSTRAINT "ClothPiece_size_check" CHECK ("widthUm" > 0 AND "heightUm" > 0);
ALTER TABLE "ClothPiece" ADD CONSTRAINT "ClothPiece_certainty_check" CHECK ("sizeCertainty" IN ('measured', 'label', 'guess'));
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_title_check" CHECK ("title" <> '');
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_kind_check" CHECK ("kind" IN ('leaflet', 'booklet', 'card', 'issue', 'kit', 'file'));
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_copies_check" CHECK ("copies" >= 0);
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_parts_check" CHECK ("partsHeld" >= 0 AND "partsNeeded" >= 1);
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_boughtOn_check" CHECK ("boughtOn" IS NULL OR "boughtOn" LIKE '____-__-__');
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_price_check" CHECK ("priceMinor" IS NULL OR "priceMinor" >= 0);
ALTER TABLE "Design" ADD CONSTRAINT "Design_title_check" CHECK ("title" <> '');
ALTER TABLE "Design" ADD CONSTRAINT "Design_stitches_check" CHECK (("widthStitches" IS NULL) = ("heightStitches" IS NULL) AND ("widthStitches" IS NULL OR ("widthStitches" > 0 AND "heightStitches" > 0)));
ALTER TABLE "Design" ADD CONSTRAINT "Design_measured_check" CHECK (("measuredWidthUm" IS NULL) = ("measuredHeightUm" IS NULL) AND ("measuredWidthUm" IS NULL OR ("measuredWidthUm" > 0 AND "measuredHeightUm" > 0)));
ALTER TABLE "Design" ADD CONSTRAINT "Design_advised_check" CHECK (("advisedThreads" IS NULL) = ("advisedPerUm" IS NULL) AND ("advisedThreads" IS NULL) = ("advisedOver" IS NULL) AND ("advisedThreads" IS NULL OR ("advisedThreads" > 0 AND "advisedPerUm" > 0 AND "advisedOver" IN (1, 2))));
ALTER TABLE "Design" ADD CONSTRAINT "Design_weave_check" CHECK ("advisedWeave" IS NULL OR "advisedWeave" IN ('block', 'single'));
ALTER TABLE "Design" ADD CONSTRAINT "Design_cover_check" CHECK ("coverKind" IS NULL OR "coverKind" IN ('band sampler', 'motif sampler', 'picture', 'full'));
ALTER TABLE "Theme" ADD CONSTRAINT "Theme_axis_check" CHECK ("axis" IN ('season', 'subject', 'form'));
ALTER TABLE "KeyLine" ADD CONSTRAINT "KeyLine_tally_check" CHECK ("full" >= 0 AND "half" >= 0 AND "quarter" >= 0 AND "threeQuarter" >= 0 AND "tent" >= 0 AND "backstitch" >= 0 AND "backstitchDiagonal" >= 0 AND "doubleRunning" >= 0 AND "knotOneWrap" >= 0 AND "knotTwoWrap" >= 0 AND "bead" >= 0);
ALTER TABLE "KeyLine" ADD CONSTRAINT "KeyLine_noTally_check" CHECK ("hasTally" OR "full" + "half" + "quarter" + "threeQuarter" + "tent" + "backstitch" + "backstitchDiagonal" + "doubleRunning" + "knotOneWrap" + "knotTwoWrap" + "bead" = 0);
ALTER TABLE "KeyLineThread" ADD CONSTRAINT "KeyLineThread_strands_check" CHECK ("strands" BETWEEN 1 AND 100);
ALTER TABLE "KeyLineThread" ADD CONSTRAINT "KeyLineThread_stated_check" CHECK (("statedHundredths" IS NULL OR "statedHundredths" > 0) AND ("statedPutUpTenths" IS NULL OR ("statedPutUpTenths" > 0 AND "statedHundredths" IS NOT NULL)));
ALTER TABLE "Project" ADD CONSTRAINT "Project_status_check" CHECK ("status" IN ('wanted', 'planned', 'kitted', 'stitching', 'resting', 'stitched', 'finished', 'abandoned'));
ALTER TABLE "Project" ADD CONSTRAINT "Project_quantity_check" CHECK ("quantity" >= 1);
ALTER TABLE "Project" ADD CONSTRAINT "Project_over_check" CHECK ("over" IS NULL OR "over" IN (1, 2));
ALTER TABLE "Project" ADD CONSTRAINT "Project_figures_check" CHECK ("hoursTenths" >= 0 AND "stitchesDone" >= 0);
ALTER TABLE "Project" ADD CONSTRAINT "Project_dates_check" CHECK (("dueOn" IS NULL OR "dueOn" LIKE '____-__-__') AND ("startedOn" IS NULL OR "startedOn" LIKE '____-__-__') AND ("finishedOn" IS NULL OR "finishedOn" LIKE '____-__-__'));
ALTER TABLE "Project" ADD CONSTRAINT "Project_finished_check" CHECK ("status" <> 'finished' OR "finishedOn" IS NOT NULL);
ALTER TABLE "StockPromise" ADD CONSTRAINT "StockPromise_length_check" CHECK ("strandTenths" > 0);
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_kind_check" CHECK ("kind" IN ('receive', 'use', 'move', 'take', 'return', 'split', 'merge', 'correct', 'transfer', 'cut', 'undo'));
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_oneThing_check" CHECK (("batchId" IS NOT NULL AND "clothPieceId" IS NULL AND "chartId" IS NULL) OR ("batchId" IS NULL AND "clothPieceId" IS NOT NULL AND "chartId" IS NULL) OR ("batchId" IS NULL AND "clothPieceId" IS NULL AND "chartId" IS NOT NULL));
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_partOfBatch_check" CHECK ("partDeltaStrandTenths" = 0 OR "batchId" IS NOT NULL);
ALTER TABLE "ImportBatch" ADD CONSTRAINT "ImportBatch_kind_check" CHECK ("kind" IN ('places', 'charts', 'lists', 'threads', 'cloth', 'projects'));
ALTER TABLE "ImportBatch" ADD CONSTRAINT "ImportBatch_status_check" CHECK ("status" IN ('done', 'undone'));
ALTER TABLE "ImportStep" ADD CONSTRAINT "ImportStep_did_check" CHECK ("did" IN ('added', 'changed'));

-- The one revision row every write transaction raises.
INSERT INTO "Revision" ("id", "number") VALUES ('main', 0);

-- The journal is append-only.
CREATE FUNCTION "refuse_movement_change"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION 'movements are never changed or deleted';
END;
$$;

CREATE TRIGGER "Movement_append_only" BEFORE UPDATE OR DELETE ON "Movement"
    FOR EACH ROW EXECUTE FUNCTION "refuse_movement_change"();
