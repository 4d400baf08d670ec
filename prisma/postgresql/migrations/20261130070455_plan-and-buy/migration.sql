-- AlterTable: nobody has said how much a project on record is wished for, nor which day it is for.
ALTER TABLE "Project" ADD COLUMN     "frameHeightUm" INTEGER CONSTRAINT "Project_frameHeightUm_check" CHECK ("frameHeightUm" IS NULL OR "frameHeightUm" > 0),
ADD COLUMN     "frameWidthUm" INTEGER CONSTRAINT "Project_frameWidthUm_check" CHECK ("frameWidthUm" IS NULL OR "frameWidthUm" > 0),
ADD COLUMN     "occasionKey" TEXT,
ADD COLUMN     "otherCostMinor" INTEGER CONSTRAINT "Project_otherCostMinor_check" CHECK ("otherCostMinor" IS NULL OR "otherCostMinor" >= 0),
ADD COLUMN     "stars" INTEGER CONSTRAINT "Project_stars_check" CHECK ("stars" IS NULL OR "stars" BETWEEN 1 AND 5);

-- CreateTable
CREATE TABLE "Occasion" (
    "id" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "rule" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Occasion_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "Occasion_name_check" CHECK ("name" <> '' AND "rule" <> '')
);

-- CreateTable
CREATE TABLE "StitchAlongPart" (
    "id" TEXT NOT NULL,
    "projectId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "comesOn" TEXT,
    "dueOn" TEXT,
    "stitches" INTEGER,
    "doneOn" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "StitchAlongPart_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "StitchAlongPart_check" CHECK ("name" <> '' AND "position" >= 0 AND ("stitches" IS NULL OR "stitches" >= 0)
        AND ("comesOn" IS NULL OR "comesOn" LIKE '____-__-__') AND ("dueOn" IS NULL OR "dueOn" LIKE '____-__-__') AND ("doneOn" IS NULL OR "doneOn" LIKE '____-__-__'))
);

-- CreateTable
CREATE TABLE "ThreadOffer" (
    "id" TEXT NOT NULL,
    "lineId" TEXT NOT NULL,
    "threadId" TEXT,
    "supplier" TEXT,
    "putUpWord" TEXT,
    "putUpStrandTenths" INTEGER NOT NULL,
    "packPutUps" INTEGER NOT NULL DEFAULT 1,
    "priceMinor" INTEGER NOT NULL,
    "note" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "ThreadOffer_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "ThreadOffer_check" CHECK ("putUpStrandTenths" > 0 AND "packPutUps" BETWEEN 1 AND 999 AND "priceMinor" >= 0)
);

-- CreateTable
CREATE TABLE "BuyList" (
    "id" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "status" TEXT NOT NULL DEFAULT 'open',
    "startedAt" TIMESTAMP(3) NOT NULL,
    "startedBy" TEXT,
    "closedAt" TIMESTAMP(3),
    "closedBy" TEXT,
    "note" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "BuyList_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "BuyList_status_check" CHECK ("status" IN ('open', 'done', 'dropped') AND "title" <> '')
);

-- CreateTable
CREATE TABLE "BuyListFor" (
    "id" TEXT NOT NULL,
    "buyListId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "designId" TEXT NOT NULL,
    "projectId" TEXT,
    "listName" TEXT,

    CONSTRAINT "BuyListFor_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "BuyListLine" (
    "id" TEXT NOT NULL,
    "buyListId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "threadId" TEXT,
    "text" TEXT,
    "putUpWord" TEXT,
    "putUpStrandTenths" INTEGER NOT NULL DEFAULT 0,
    "putUps" INTEGER NOT NULL DEFAULT 1,
    "packPutUps" INTEGER NOT NULL DEFAULT 1,
    "isOneLot" BOOLEAN NOT NULL DEFAULT false,
    "matchLot" TEXT,
    "supplier" TEXT,
    "priceMinor" INTEGER,
    "status" TEXT NOT NULL DEFAULT 'open',
    "boughtPutUps" INTEGER,
    "lot" TEXT,
    "paidMinor" INTEGER,
    "insteadThreadId" TEXT,
    "tickedAt" TIMESTAMP(3),
    "tickedBy" TEXT,
    "revision" INTEGER NOT NULL DEFAULT 0,
    "carriedAt" TIMESTAMP(3),
    "batchId" TEXT,
    "note" TEXT,

    CONSTRAINT "BuyListLine_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "BuyListLine_what_check" CHECK (("threadId" IS NULL) <> ("text" IS NULL)),
    CONSTRAINT "BuyListLine_amounts_check" CHECK ("putUps" >= 0 AND "packPutUps" >= 1 AND "putUpStrandTenths" >= 0 AND ("boughtPutUps" IS NULL OR "boughtPutUps" >= 0)
        AND ("priceMinor" IS NULL OR "priceMinor" >= 0) AND ("paidMinor" IS NULL OR "paidMinor" >= 0)),
    CONSTRAINT "BuyListLine_status_check" CHECK ("status" IN ('open', 'bought', 'not there', 'instead') AND ("status" <> 'instead' OR "insteadThreadId" IS NOT NULL))
);

-- CreateIndex
CREATE UNIQUE INDEX "Occasion_ownerId_nameKey_key" ON "Occasion"("ownerId", "nameKey");

-- CreateIndex
CREATE INDEX "StitchAlongPart_dueOn_idx" ON "StitchAlongPart"("dueOn");

-- CreateIndex
CREATE UNIQUE INDEX "StitchAlongPart_projectId_position_key" ON "StitchAlongPart"("projectId", "position");

-- CreateIndex
CREATE INDEX "ThreadOffer_lineId_idx" ON "ThreadOffer"("lineId");

-- CreateIndex
CREATE INDEX "ThreadOffer_threadId_idx" ON "ThreadOffer"("threadId");

-- CreateIndex
CREATE INDEX "BuyList_status_startedAt_idx" ON "BuyList"("status", "startedAt");

-- CreateIndex
CREATE UNIQUE INDEX "BuyListFor_buyListId_position_key" ON "BuyListFor"("buyListId", "position");

-- CreateIndex
CREATE INDEX "BuyListFor_designId_idx" ON "BuyListFor"("designId");

-- CreateIndex
CREATE INDEX "BuyListFor_projectId_idx" ON "BuyListFor"("projectId");

-- CreateIndex
CREATE INDEX "BuyListLine_buyListId_revision_idx" ON "BuyListLine"("buyListId", "revision");

-- CreateIndex
CREATE INDEX "BuyListLine_threadId_idx" ON "BuyListLine"("threadId");

-- CreateIndex
CREATE INDEX "BuyListLine_batchId_idx" ON "BuyListLine"("batchId");

-- CreateIndex
CREATE UNIQUE INDEX "BuyListLine_buyListId_position_key" ON "BuyListLine"("buyListId", "position");

-- AddForeignKey
ALTER TABLE "Occasion" ADD CONSTRAINT "Occasion_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "StitchAlongPart" ADD CONSTRAINT "StitchAlongPart_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ThreadOffer" ADD CONSTRAINT "ThreadOffer_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "ThreadLine"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ThreadOffer" ADD CONSTRAINT "ThreadOffer_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BuyList" ADD CONSTRAINT "BuyList_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BuyListFor" ADD CONSTRAINT "BuyListFor_buyListId_fkey" FOREIGN KEY ("buyListId") REFERENCES "BuyList"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BuyListFor" ADD CONSTRAINT "BuyListFor_designId_fkey" FOREIGN KEY ("designId") REFERENCES "Design"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BuyListFor" ADD CONSTRAINT "BuyListFor_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BuyListLine" ADD CONSTRAINT "BuyListLine_buyListId_fkey" FOREIGN KEY ("buyListId") REFERENCES "BuyList"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BuyListLine" ADD CONSTRAINT "BuyListLine_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BuyListLine" ADD CONSTRAINT "BuyListLine_insteadThreadId_fkey" FOREIGN KEY ("insteadThreadId") REFERENCES "Thread"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "BuyListLine" ADD CONSTRAINT "BuyListLine_batchId_fkey" FOREIGN KEY ("batchId") REFERENCES "Batch"("id") ON DELETE SET NULL ON UPDATE CASCADE;
