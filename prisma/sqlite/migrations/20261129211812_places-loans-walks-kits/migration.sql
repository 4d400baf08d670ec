-- Adds tables and columns; what exists stays as it is. By hand: CHECK constraints, and two more kinds of place.

-- CreateTable
CREATE TABLE "PlaceCapacity" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "placeId" TEXT NOT NULL,
    "putUpWord" TEXT NOT NULL,
    "most" INTEGER NOT NULL,
    CONSTRAINT "PlaceCapacity_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "Place" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "PlaceCapacity_most_check" CHECK ("putUpWord" <> '' AND "most" >= 0)
);

-- CreateTable
CREATE TABLE "FormerLabel" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "placeId" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "labelKey" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "until" DATETIME NOT NULL,
    CONSTRAINT "FormerLabel_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "Place" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "FormerLabel_label_check" CHECK ("label" <> '' AND "labelKey" <> ''),
    CONSTRAINT "FormerLabel_why_check" CHECK ("why" IN ('renamed', 'merged', 'split'))
);

-- CreateTable
CREATE TABLE "Loan" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "kind" TEXT NOT NULL,
    "placeId" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "fromOn" TEXT NOT NULL,
    "dueOn" TEXT,
    "projectId" TEXT,
    "priceMinor" INTEGER,
    "note" TEXT,
    "closedOn" TEXT,
    "who" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Loan_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Loan_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Loan_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Loan_kind_check" CHECK ("kind" IN ('lend', 'send', 'borrow')),
    CONSTRAINT "Loan_reason_check" CHECK ("reason" <> ''),
    CONSTRAINT "Loan_due_check" CHECK (("kind" <> 'lend' OR "dueOn" IS NOT NULL) AND ("dueOn" IS NULL OR "dueOn" >= "fromOn") AND ("closedOn" IS NULL OR "closedOn" >= "fromOn")),
    CONSTRAINT "Loan_price_check" CHECK ("priceMinor" IS NULL OR "priceMinor" >= 0)
);

-- CreateTable
CREATE TABLE "LoanLine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "loanId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "chartId" TEXT,
    "batchId" TEXT,
    "clothPieceId" TEXT,
    "notionId" TEXT,
    "projectId" TEXT,
    "text" TEXT,
    "count" INTEGER NOT NULL DEFAULT 1,
    "backOn" TEXT,
    "backNote" TEXT,
    CONSTRAINT "LoanLine_loanId_fkey" FOREIGN KEY ("loanId") REFERENCES "Loan" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "LoanLine_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LoanLine_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LoanLine_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LoanLine_notionId_fkey" FOREIGN KEY ("notionId") REFERENCES "Notion" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LoanLine_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "LoanLine_oneThing_check" CHECK (("chartId" IS NOT NULL) + ("batchId" IS NOT NULL) + ("clothPieceId" IS NOT NULL) + ("notionId" IS NOT NULL) + ("projectId" IS NOT NULL) + ("text" IS NOT NULL) = 1),
    CONSTRAINT "LoanLine_count_check" CHECK ("count" >= 1 AND ("text" IS NULL OR "text" <> ''))
);

-- CreateTable
CREATE TABLE "Walk" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "kind" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "placeId" TEXT,
    "status" TEXT NOT NULL DEFAULT 'open',
    "startedAt" DATETIME NOT NULL,
    "startedBy" TEXT,
    "closedAt" DATETIME,
    "closedBy" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Walk_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Walk_kind_check" CHECK ("kind" IN ('pull', 'put-back')),
    CONSTRAINT "Walk_title_check" CHECK ("title" <> ''),
    CONSTRAINT "Walk_status_check" CHECK ("status" IN ('open', 'done', 'dropped') AND ("status" = 'open') = ("closedAt" IS NULL))
);

-- CreateTable
CREATE TABLE "WalkProject" (
    "walkId" TEXT NOT NULL,
    "projectId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,

    PRIMARY KEY ("walkId", "projectId"),
    CONSTRAINT "WalkProject_walkId_fkey" FOREIGN KEY ("walkId") REFERENCES "Walk" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "WalkProject_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "WalkLine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "walkId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "projectId" TEXT,
    "batchId" TEXT,
    "clothPieceId" TEXT,
    "chartId" TEXT,
    "notionId" TEXT,
    "count" INTEGER NOT NULL DEFAULT 1,
    "takesPart" BOOLEAN NOT NULL DEFAULT false,
    "toPlaceId" TEXT,
    "status" TEXT NOT NULL DEFAULT 'open',
    "insteadBatchId" TEXT,
    "tickedAt" DATETIME,
    "tickedBy" TEXT,
    "revision" INTEGER NOT NULL DEFAULT 0,
    "carriedAt" DATETIME,
    "note" TEXT,
    CONSTRAINT "WalkLine_walkId_fkey" FOREIGN KEY ("walkId") REFERENCES "Walk" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "WalkLine_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "WalkLine_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "WalkLine_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "WalkLine_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "WalkLine_notionId_fkey" FOREIGN KEY ("notionId") REFERENCES "Notion" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "WalkLine_toPlaceId_fkey" FOREIGN KEY ("toPlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "WalkLine_insteadBatchId_fkey" FOREIGN KEY ("insteadBatchId") REFERENCES "Batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "WalkLine_oneThing_check" CHECK (("batchId" IS NOT NULL) + ("clothPieceId" IS NOT NULL) + ("chartId" IS NOT NULL) + ("notionId" IS NOT NULL) = 1),
    CONSTRAINT "WalkLine_figures_check" CHECK ("count" >= 0 AND ("count" > 0 OR "takesPart")),
    CONSTRAINT "WalkLine_status_check" CHECK ("status" IN ('open', 'done', 'not there', 'instead') AND ("status" = 'instead') = ("insteadBatchId" IS NOT NULL))
);

-- CreateTable
CREATE TABLE "MissingThing" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "batchId" TEXT,
    "clothPieceId" TEXT,
    "chartId" TEXT,
    "notionId" TEXT,
    "askedAt" DATETIME NOT NULL,
    "askedBy" TEXT,
    "lastSeenPlaceId" TEXT,
    "projectId" TEXT,
    "walkId" TEXT,
    "note" TEXT,
    "status" TEXT NOT NULL DEFAULT 'open',
    "settledAt" DATETIME,
    "settledBy" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "MissingThing_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MissingThing_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MissingThing_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MissingThing_notionId_fkey" FOREIGN KEY ("notionId") REFERENCES "Notion" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MissingThing_lastSeenPlaceId_fkey" FOREIGN KEY ("lastSeenPlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MissingThing_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MissingThing_walkId_fkey" FOREIGN KEY ("walkId") REFERENCES "Walk" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "MissingThing_oneThing_check" CHECK (("batchId" IS NOT NULL) + ("clothPieceId" IS NOT NULL) + ("chartId" IS NOT NULL) + ("notionId" IS NOT NULL) = 1),
    CONSTRAINT "MissingThing_status_check" CHECK ("status" IN ('open', 'found', 'given up') AND ("status" = 'open') = ("settledAt" IS NULL))
);

-- CreateTable
CREATE TABLE "KitItem" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "projectId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "perKit" INTEGER NOT NULL,
    "notionId" TEXT,
    "priceMinor" INTEGER,
    "note" TEXT,
    CONSTRAINT "KitItem_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "KitItem_notionId_fkey" FOREIGN KEY ("notionId") REFERENCES "Notion" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KitItem_kind_check" CHECK ("kind" IN ('needle', 'beads', 'finding', 'sheet', 'other')),
    CONSTRAINT "KitItem_figures_check" CHECK ("name" <> '' AND "perKit" >= 1 AND ("priceMinor" IS NULL OR "priceMinor" >= 0))
);

-- CreateTable
CREATE TABLE "KitBag" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "projectId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "isSpare" BOOLEAN NOT NULL DEFAULT false,
    "status" TEXT NOT NULL DEFAULT 'open',
    "packedAt" DATETIME,
    "packedBy" TEXT,
    "checkedAt" DATETIME,
    "checkedBy" TEXT,
    "sealedAt" DATETIME,
    "sealedBy" TEXT,
    "soldAt" DATETIME,
    "soldTo" TEXT,
    "note" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "KitBag_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "KitBag_status_check" CHECK ("status" IN ('open', 'packed', 'checked', 'sealed', 'sold')),
    CONSTRAINT "KitBag_number_check" CHECK ("number" >= 1)
);

-- CreateTable
CREATE TABLE "KitBagCheck" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "bagId" TEXT NOT NULL,
    "item" TEXT NOT NULL,
    "status" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "who" TEXT,
    "note" TEXT,
    CONSTRAINT "KitBagCheck_bagId_fkey" FOREIGN KEY ("bagId") REFERENCES "KitBag" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "KitBagCheck_status_check" CHECK ("status" IN ('there', 'short', 'wrong') AND "item" <> '')
);

-- CreateTable
CREATE TABLE "KitLot" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "projectId" TEXT NOT NULL,
    "batchId" TEXT NOT NULL,
    "threadId" TEXT NOT NULL,
    "lot" TEXT,
    "fromBag" INTEGER NOT NULL,
    "toBag" INTEGER NOT NULL,
    "at" DATETIME NOT NULL,
    "who" TEXT,
    CONSTRAINT "KitLot_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "KitLot_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KitLot_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KitLot_bags_check" CHECK ("fromBag" >= 1 AND "toBag" >= "fromBag")
);

-- AlterTable: a project that stands has no spares, no price and no day it is planned for.
ALTER TABLE "Project" ADD COLUMN "spares" INTEGER NOT NULL DEFAULT 0 CONSTRAINT "Project_spares_check" CHECK ("spares" >= 0);
ALTER TABLE "Project" ADD COLUMN "kitPriceMinor" INTEGER CONSTRAINT "Project_kitPrice_check" CHECK ("kitPriceMinor" IS NULL OR "kitPriceMinor" >= 0);
ALTER TABLE "Project" ADD COLUMN "plannedOn" TEXT;

-- RedefineTable: two more kinds of place. A CHECK changes, so the table is rebuilt; every place is carried over as it is.
CREATE TABLE "new_Place" (
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
    CONSTRAINT "Place_kind_check" CHECK ("kind" IN ('room', 'cabinet', 'drawer', 'compartment', 'rack', 'shelf', 'box', 'bag', 'ring', 'bin', 'folder', 'person', 'framer', 'finisher', 'model stitcher', 'not found')),
    CONSTRAINT "Place_parent_check" CHECK ("parentId" IS NULL OR "parentId" <> "id"),
    CONSTRAINT "Place_capacity_check" CHECK ("capacity" IS NULL OR "capacity" >= 0)
);
INSERT INTO "new_Place" ("id", "label", "labelKey", "name", "kind", "parentId", "path", "walkOrder", "capacity", "note", "goneAt", "version")
  SELECT "id", "label", "labelKey", "name", "kind", "parentId", "path", "walkOrder", "capacity", "note", "goneAt", "version" FROM "Place";
DROP TABLE "Place";
ALTER TABLE "new_Place" RENAME TO "Place";

CREATE UNIQUE INDEX "Place_labelKey_key" ON "Place"("labelKey");
CREATE INDEX "Place_parentId_idx" ON "Place"("parentId");
CREATE INDEX "Place_path_idx" ON "Place"("path");

-- CreateIndex
CREATE UNIQUE INDEX "PlaceCapacity_placeId_putUpWord_key" ON "PlaceCapacity"("placeId", "putUpWord");

-- CreateIndex
CREATE INDEX "FormerLabel_labelKey_idx" ON "FormerLabel"("labelKey");

-- CreateIndex
CREATE INDEX "FormerLabel_placeId_idx" ON "FormerLabel"("placeId");

-- CreateIndex
CREATE INDEX "Loan_placeId_idx" ON "Loan"("placeId");

-- CreateIndex
CREATE INDEX "Loan_closedOn_dueOn_idx" ON "Loan"("closedOn", "dueOn");

-- CreateIndex
CREATE INDEX "Loan_projectId_idx" ON "Loan"("projectId");

-- CreateIndex
CREATE INDEX "LoanLine_chartId_idx" ON "LoanLine"("chartId");

-- CreateIndex
CREATE INDEX "LoanLine_batchId_idx" ON "LoanLine"("batchId");

-- CreateIndex
CREATE INDEX "LoanLine_clothPieceId_idx" ON "LoanLine"("clothPieceId");

-- CreateIndex
CREATE INDEX "LoanLine_notionId_idx" ON "LoanLine"("notionId");

-- CreateIndex
CREATE INDEX "LoanLine_projectId_idx" ON "LoanLine"("projectId");

-- CreateIndex
CREATE UNIQUE INDEX "LoanLine_loanId_position_key" ON "LoanLine"("loanId", "position");

-- CreateIndex
CREATE INDEX "Walk_status_startedAt_idx" ON "Walk"("status", "startedAt");

-- CreateIndex
CREATE INDEX "Walk_placeId_idx" ON "Walk"("placeId");

-- CreateIndex
CREATE INDEX "WalkProject_projectId_idx" ON "WalkProject"("projectId");

-- CreateIndex
CREATE INDEX "WalkLine_walkId_revision_idx" ON "WalkLine"("walkId", "revision");

-- CreateIndex
CREATE INDEX "WalkLine_batchId_idx" ON "WalkLine"("batchId");

-- CreateIndex
CREATE INDEX "WalkLine_projectId_idx" ON "WalkLine"("projectId");

-- CreateIndex
CREATE UNIQUE INDEX "WalkLine_walkId_position_key" ON "WalkLine"("walkId", "position");

-- CreateIndex
CREATE INDEX "MissingThing_status_askedAt_idx" ON "MissingThing"("status", "askedAt");

-- CreateIndex
CREATE INDEX "MissingThing_batchId_idx" ON "MissingThing"("batchId");

-- CreateIndex
CREATE INDEX "KitItem_notionId_idx" ON "KitItem"("notionId");

-- CreateIndex
CREATE UNIQUE INDEX "KitItem_projectId_position_key" ON "KitItem"("projectId", "position");

-- CreateIndex
CREATE UNIQUE INDEX "KitBag_projectId_number_key" ON "KitBag"("projectId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "KitBagCheck_bagId_item_key" ON "KitBagCheck"("bagId", "item");

-- CreateIndex
CREATE INDEX "KitLot_projectId_idx" ON "KitLot"("projectId");

-- CreateIndex
CREATE INDEX "KitLot_threadId_lot_idx" ON "KitLot"("threadId", "lot");

-- CreateIndex
CREATE INDEX "KitLot_batchId_idx" ON "KitLot"("batchId");
