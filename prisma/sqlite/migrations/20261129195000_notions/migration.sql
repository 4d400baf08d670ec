-- Adds a table and a column; what exists stays as it is. By hand: CHECK constraints, and the rebuilding of the journal's table.

-- CreateTable
CREATE TABLE "Notion" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "ownerId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "size" TEXT,
    "sizeKey" TEXT,
    "count" INTEGER NOT NULL,
    "minimum" INTEGER,
    "packOf" INTEGER,
    "homePlaceId" TEXT,
    "currentPlaceId" TEXT,
    "outSince" DATETIME,
    "projectId" TEXT,
    "priceMinor" INTEGER,
    "note" TEXT,
    "goneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Notion_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Notion_homePlaceId_fkey" FOREIGN KEY ("homePlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Notion_currentPlaceId_fkey" FOREIGN KEY ("currentPlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Notion_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Notion_kind_check" CHECK ("kind" IN ('hoop', 'frame', 'scissors', 'needle', 'beads', 'needle minder', 'ribbon', 'bag', 'laying tool', 'magnifier', 'finding', 'other')),
    CONSTRAINT "Notion_name_check" CHECK ("name" <> ''),
    CONSTRAINT "Notion_figures_check" CHECK ("count" >= 0 AND ("minimum" IS NULL OR "minimum" >= 0) AND ("packOf" IS NULL OR "packOf" >= 1) AND ("priceMinor" IS NULL OR "priceMinor" >= 0))
);

-- RedefineTable: a line of the journal may be about a notion. A CHECK changes, so the table is rebuilt; every line is carried over as it is.
CREATE TABLE "new_Movement" (
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
    "cutPlanId" TEXT,
    "notionId" TEXT,
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
    CONSTRAINT "Movement_cutPlanId_fkey" FOREIGN KEY ("cutPlanId") REFERENCES "CutPlan" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_notionId_fkey" FOREIGN KEY ("notionId") REFERENCES "Notion" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Movement_kind_check" CHECK ("kind" IN ('receive', 'use', 'move', 'take', 'return', 'split', 'merge', 'correct', 'transfer', 'cut', 'undo')),
    CONSTRAINT "Movement_oneThing_check" CHECK (("batchId" IS NOT NULL) + ("clothPieceId" IS NOT NULL) + ("chartId" IS NOT NULL) + ("notionId" IS NOT NULL) = 1),
    CONSTRAINT "Movement_partOfBatch_check" CHECK ("partDeltaStrandTenths" = 0 OR "batchId" IS NOT NULL)
);
INSERT INTO "new_Movement" ("id", "revision", "at", "kind", "batchId", "clothPieceId", "chartId", "wholeDelta", "partDeltaStrandTenths",
    "fromPlaceId", "toPlaceId", "fromOwnerId", "toOwnerId", "projectId", "importId", "cutPlanId", "who", "reason")
  SELECT "id", "revision", "at", "kind", "batchId", "clothPieceId", "chartId", "wholeDelta", "partDeltaStrandTenths",
    "fromPlaceId", "toPlaceId", "fromOwnerId", "toOwnerId", "projectId", "importId", "cutPlanId", "who", "reason"
  FROM "Movement";
DROP TABLE "Movement";
ALTER TABLE "new_Movement" RENAME TO "Movement";

CREATE INDEX "Movement_batchId_revision_idx" ON "Movement"("batchId", "revision");
CREATE INDEX "Movement_clothPieceId_revision_idx" ON "Movement"("clothPieceId", "revision");
CREATE INDEX "Movement_chartId_revision_idx" ON "Movement"("chartId", "revision");
CREATE INDEX "Movement_projectId_idx" ON "Movement"("projectId");
CREATE INDEX "Movement_importId_idx" ON "Movement"("importId");
CREATE INDEX "Movement_notionId_idx" ON "Movement"("notionId");
CREATE INDEX "Movement_at_idx" ON "Movement"("at");

-- The journal is append-only.
CREATE TRIGGER "Movement_no_update" BEFORE UPDATE ON "Movement"
BEGIN
    SELECT RAISE(ABORT, 'movements are never changed');
END;

CREATE TRIGGER "Movement_no_delete" BEFORE DELETE ON "Movement"
BEGIN
    SELECT RAISE(ABORT, 'movements are never deleted');
END;

-- CreateIndex
CREATE INDEX "Notion_ownerId_kind_idx" ON "Notion"("ownerId", "kind");

-- CreateIndex
CREATE INDEX "Notion_homePlaceId_idx" ON "Notion"("homePlaceId");

-- CreateIndex
CREATE INDEX "Notion_currentPlaceId_idx" ON "Notion"("currentPlaceId");

-- CreateIndex
CREATE INDEX "Notion_projectId_idx" ON "Notion"("projectId");
