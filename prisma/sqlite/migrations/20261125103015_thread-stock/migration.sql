-- Adds columns and tables; existing rows keep what they say, new columns are empty or 0. By hand: CHECK constraints.

-- AlterTable
ALTER TABLE "ThreadLine" ADD COLUMN "priceMinor" INTEGER CONSTRAINT "ThreadLine_priceMinor_check" CHECK ("priceMinor" IS NULL OR "priceMinor" >= 0);
ALTER TABLE "ThreadLine" ADD COLUMN "putUpMilligrams" INTEGER CONSTRAINT "ThreadLine_putUpMilligrams_check" CHECK ("putUpMilligrams" IS NULL OR "putUpMilligrams" > 0);
ALTER TABLE "Batch" ADD COLUMN "putUpWord" TEXT CONSTRAINT "Batch_putUpWord_check" CHECK ("putUpWord" IS NULL OR "putUpWord" <> '');
ALTER TABLE "Design" ADD COLUMN "allowanceProfile" TEXT CONSTRAINT "Design_allowanceProfile_check" CHECK ("allowanceProfile" IS NULL OR "allowanceProfile" IN ('solid blocks', 'ordinary', 'scattered', 'own'));
ALTER TABLE "Design" ADD COLUMN "allowanceHundredths" INTEGER CONSTRAINT "Design_allowanceHundredths_check" CHECK ("allowanceHundredths" IS NULL OR "allowanceHundredths" BETWEEN 100 AND 500);
ALTER TABLE "Thread" ADD COLUMN "labCertainty" TEXT CONSTRAINT "Thread_labCertainty_check" CHECK ("labCertainty" IS NULL OR "labCertainty" IN ('measured', 'label', 'guess'));
ALTER TABLE "Thread" ADD COLUMN "family" TEXT CONSTRAINT "Thread_family_check" CHECK ("family" IS NULL OR "family" <> '');
ALTER TABLE "Thread" ADD COLUMN "isLeaving" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "KeyLine" ADD COLUMN "satin" INTEGER NOT NULL DEFAULT 0 CONSTRAINT "KeyLine_satin_check" CHECK ("satin" >= 0 AND ("hasTally" OR "satin" = 0));
ALTER TABLE "KeyLine" ADD COLUMN "eyelet" INTEGER NOT NULL DEFAULT 0 CONSTRAINT "KeyLine_eyelet_check" CHECK ("eyelet" >= 0 AND ("hasTally" OR "eyelet" = 0));

-- CreateTable
CREATE TABLE "Conversion" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "sourceName" TEXT NOT NULL,
    "sourceKey" TEXT NOT NULL,
    "threadId" TEXT NOT NULL,
    "otherThreadId" TEXT NOT NULL,
    CONSTRAINT "Conversion_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "Conversion_otherThreadId_fkey" FOREIGN KEY ("otherThreadId") REFERENCES "Thread" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "Conversion_other_check" CHECK ("threadId" <> "otherThreadId"),
    CONSTRAINT "Conversion_source_check" CHECK ("sourceName" <> '' AND "sourceKey" <> '')
);

-- CreateTable
CREATE TABLE "ThreadBarcode" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "code" TEXT NOT NULL,
    "threadId" TEXT NOT NULL,
    CONSTRAINT "ThreadBarcode_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "ThreadBarcode_code_check" CHECK ("code" <> '')
);

-- CreateTable
CREATE TABLE "ReorderRule" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "threadId" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "minimumPutUps" INTEGER,
    "demandHundredths" INTEGER,
    "spreadHundredths" INTEGER,
    "leadWeeks" INTEGER,
    "coverWeeks" INTEGER,
    "packPutUps" INTEGER NOT NULL DEFAULT 1,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ReorderRule_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "ReorderRule_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "ReorderRule_kind_check" CHECK (("kind" = 'minimum' AND "minimumPutUps" IS NOT NULL) OR ("kind" = 'point' AND "demandHundredths" IS NOT NULL AND "spreadHundredths" IS NOT NULL AND "leadWeeks" IS NOT NULL)),
    CONSTRAINT "ReorderRule_figures_check" CHECK (("minimumPutUps" IS NULL OR "minimumPutUps" >= 0) AND ("demandHundredths" IS NULL OR "demandHundredths" >= 0) AND ("spreadHundredths" IS NULL OR "spreadHundredths" >= 0) AND ("leadWeeks" IS NULL OR "leadWeeks" >= 0) AND ("coverWeeks" IS NULL OR "coverWeeks" >= 0) AND "packPutUps" >= 1)
);

-- CreateTable
CREATE TABLE "ThreadOrder" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "threadId" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "putUpStrandTenths" INTEGER NOT NULL,
    "putUps" INTEGER NOT NULL,
    "receivedPutUps" INTEGER NOT NULL DEFAULT 0,
    "lot" TEXT,
    "supplier" TEXT,
    "orderedOn" TEXT NOT NULL,
    "expectedOn" TEXT,
    "note" TEXT,
    "closedAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ThreadOrder_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ThreadOrder_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ThreadOrder_figures_check" CHECK ("putUpStrandTenths" > 0 AND "putUps" > 0 AND "receivedPutUps" >= 0),
    CONSTRAINT "ThreadOrder_dates_check" CHECK ("orderedOn" LIKE '____-__-__' AND ("expectedOn" IS NULL OR "expectedOn" LIKE '____-__-__'))
);

-- CreateTable
CREATE TABLE "ProjectSwap" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "projectId" TEXT NOT NULL,
    "threadId" TEXT NOT NULL,
    "standInThreadId" TEXT NOT NULL,
    "reason" TEXT,
    CONSTRAINT "ProjectSwap_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "ProjectSwap_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ProjectSwap_standInThreadId_fkey" FOREIGN KEY ("standInThreadId") REFERENCES "Thread" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ProjectSwap_other_check" CHECK ("threadId" <> "standInThreadId")
);

-- CreateTable
CREATE TABLE "UseReading" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "projectId" TEXT NOT NULL,
    "threadId" TEXT NOT NULL,
    "usedStrandTenths" INTEGER NOT NULL,
    "plainStrandTenths" INTEGER NOT NULL,
    "flatStrandTenths" INTEGER NOT NULL,
    "how" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    CONSTRAINT "UseReading_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "UseReading_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "UseReading_figures_check" CHECK ("usedStrandTenths" >= 0 AND "plainStrandTenths" > 0 AND "flatStrandTenths" >= 0),
    CONSTRAINT "UseReading_how_check" CHECK ("how" IN ('measured', 'weighed'))
);

-- CreateTable
CREATE TABLE "BulkEdit" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "at" DATETIME NOT NULL,
    "who" TEXT,
    "what" TEXT NOT NULL,
    "status" TEXT NOT NULL DEFAULT 'done',
    "stepsJson" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "BulkEdit_status_check" CHECK ("status" IN ('done', 'undone')),
    CONSTRAINT "BulkEdit_what_check" CHECK ("what" <> '')
);

-- CreateIndex
CREATE INDEX "Conversion_threadId_idx" ON "Conversion"("threadId");

-- CreateIndex
CREATE INDEX "Conversion_otherThreadId_idx" ON "Conversion"("otherThreadId");

-- CreateIndex
CREATE UNIQUE INDEX "Conversion_sourceKey_threadId_otherThreadId_key" ON "Conversion"("sourceKey", "threadId", "otherThreadId");

-- CreateIndex
CREATE UNIQUE INDEX "ThreadBarcode_code_key" ON "ThreadBarcode"("code");

-- CreateIndex
CREATE INDEX "ThreadBarcode_threadId_idx" ON "ThreadBarcode"("threadId");

-- CreateIndex
CREATE INDEX "ReorderRule_ownerId_idx" ON "ReorderRule"("ownerId");

-- CreateIndex
CREATE UNIQUE INDEX "ReorderRule_threadId_ownerId_key" ON "ReorderRule"("threadId", "ownerId");

-- CreateIndex
CREATE INDEX "ThreadOrder_threadId_idx" ON "ThreadOrder"("threadId");

-- CreateIndex
CREATE INDEX "ThreadOrder_closedAt_idx" ON "ThreadOrder"("closedAt");

-- CreateIndex
CREATE INDEX "ProjectSwap_threadId_idx" ON "ProjectSwap"("threadId");

-- CreateIndex
CREATE INDEX "ProjectSwap_standInThreadId_idx" ON "ProjectSwap"("standInThreadId");

-- CreateIndex
CREATE UNIQUE INDEX "ProjectSwap_projectId_threadId_key" ON "ProjectSwap"("projectId", "threadId");

-- CreateIndex
CREATE INDEX "UseReading_threadId_idx" ON "UseReading"("threadId");

-- CreateIndex
CREATE UNIQUE INDEX "UseReading_projectId_threadId_key" ON "UseReading"("projectId", "threadId");

-- CreateIndex
CREATE INDEX "BulkEdit_at_idx" ON "BulkEdit"("at");
