-- Adds tables; nothing that exists changes. By hand: CHECK constraints.

-- CreateTable
CREATE TABLE "StockCount" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "title" TEXT NOT NULL,
    "placeId" TEXT NOT NULL,
    "status" TEXT NOT NULL DEFAULT 'open',
    "startedAt" DATETIME NOT NULL,
    "startedBy" TEXT,
    "closedAt" DATETIME,
    "signedBy" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "StockCount_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "StockCount_title_check" CHECK ("title" <> ''),
    CONSTRAINT "StockCount_status_check" CHECK ("status" IN ('open', 'counted', 'signed', 'dropped')),
    CONSTRAINT "StockCount_closed_check" CHECK (("status" IN ('signed', 'dropped')) = ("closedAt" IS NOT NULL))
);

-- CreateTable
CREATE TABLE "StockCountLine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "countId" TEXT NOT NULL,
    "batchId" TEXT,
    "found" TEXT,
    "placeId" TEXT NOT NULL,
    "expected" INTEGER NOT NULL,
    "counted" INTEGER,
    "countedAt" DATETIME,
    "countedBy" TEXT,
    "outcome" TEXT,
    "note" TEXT,
    CONSTRAINT "StockCountLine_countId_fkey" FOREIGN KEY ("countId") REFERENCES "StockCount" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "StockCountLine_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "StockCountLine_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "StockCountLine_what_check" CHECK (("batchId" IS NULL) <> ("found" IS NULL)),
    CONSTRAINT "StockCountLine_figures_check" CHECK ("expected" >= 0 AND ("counted" IS NULL OR "counted" >= 0)),
    CONSTRAINT "StockCountLine_outcome_check" CHECK ("outcome" IS NULL OR "outcome" IN ('accepted', 'recount', 'left'))
);

-- CreateIndex
CREATE INDEX "StockCount_status_startedAt_idx" ON "StockCount"("status", "startedAt");

-- CreateIndex
CREATE INDEX "StockCount_placeId_idx" ON "StockCount"("placeId");

-- CreateIndex
CREATE INDEX "StockCountLine_batchId_idx" ON "StockCountLine"("batchId");

-- CreateIndex
CREATE UNIQUE INDEX "StockCountLine_countId_batchId_key" ON "StockCountLine"("countId", "batchId");
