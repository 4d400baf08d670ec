-- AlterTable
ALTER TABLE "ClothPiece" ADD COLUMN "photoFile" TEXT;
ALTER TABLE "ClothPiece" ADD COLUMN "priceMinor" INTEGER CONSTRAINT "ClothPiece_priceMinor_check" CHECK ("priceMinor" IS NULL OR "priceMinor" >= 0);

-- AlterTable
ALTER TABLE "Notion" ADD COLUMN "photoFile" TEXT;

-- CreateTable
CREATE TABLE "FormerThreadCode" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "threadId" TEXT NOT NULL,
    "makerName" TEXT NOT NULL,
    "lineName" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT,
    "codeKey" TEXT NOT NULL,
    CONSTRAINT "FormerThreadCode_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "FormerThreadCode_code_check" CHECK ("code" <> '' AND "codeKey" <> '')
);

-- CreateTable
CREATE TABLE "FormerTitle" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "chartId" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "titleKey" TEXT NOT NULL,
    CONSTRAINT "FormerTitle_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "FormerTitle_title_check" CHECK ("title" <> '' AND "titleKey" <> '')
);

-- CreateTable
CREATE TABLE "FormerDesignerName" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "designerId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    CONSTRAINT "FormerDesignerName_designerId_fkey" FOREIGN KEY ("designerId") REFERENCES "Designer" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "FormerDesignerName_name_check" CHECK ("name" <> '' AND "nameKey" <> '')
);

-- CreateTable
CREATE TABLE "KeptFile" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "role" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "chartId" TEXT,
    "clothPieceId" TEXT,
    "notionId" TEXT,
    "projectId" TEXT,
    "name" TEXT NOT NULL,
    "mime" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "sha256" TEXT NOT NULL,
    "pages" INTEGER,
    "fileName" TEXT NOT NULL,
    "addedAt" DATETIME NOT NULL,
    "goneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "KeptFile_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KeptFile_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KeptFile_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KeptFile_notionId_fkey" FOREIGN KEY ("notionId") REFERENCES "Notion" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KeptFile_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KeptFile_role_check" CHECK ("role" IN ('chart', 'receipt')),
    CONSTRAINT "KeptFile_bytes_check" CHECK ("bytes" >= 0),
    CONSTRAINT "KeptFile_oneThing_check" CHECK (("chartId" IS NOT NULL) + ("clothPieceId" IS NOT NULL) + ("notionId" IS NOT NULL) + ("projectId" IS NOT NULL) = 1),
    CONSTRAINT "KeptFile_chartRole_check" CHECK ("role" <> 'chart' OR "chartId" IS NOT NULL)
);

-- CreateTable
CREATE TABLE "ToldApart" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "noun" TEXT NOT NULL,
    "firstId" TEXT NOT NULL,
    "secondId" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "who" TEXT,
    CONSTRAINT "ToldApart_noun_check" CHECK ("noun" IN ('chart', 'designer', 'thread', 'maker')),
    CONSTRAINT "ToldApart_order_check" CHECK ("firstId" < "secondId")
);

-- AlterTable: every chart there is is taken to be in print still, and has no cover.
ALTER TABLE "Chart" ADD COLUMN "isOutOfPrint" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "Chart" ADD COLUMN "coverFile" TEXT;
ALTER TABLE "Chart" ADD COLUMN "coverHash" TEXT CONSTRAINT "Chart_coverHash_check" CHECK ("coverHash" IS NULL OR length("coverHash") = 16);

-- RedefineTable: notions are brought in too. A CHECK changes, so the table is rebuilt; every import is carried over as it is.
CREATE TABLE "new_ImportBatch" (
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
    CONSTRAINT "ImportBatch_kind_check" CHECK ("kind" IN ('places', 'charts', 'lists', 'threads', 'cloth', 'projects', 'notions')),
    CONSTRAINT "ImportBatch_status_check" CHECK ("status" IN ('done', 'undone'))
);
INSERT INTO "new_ImportBatch" ("id", "kind", "fileName", "fileHash", "at", "status", "mappingJson", "addedCount", "changedCount", "sameCount", "refusedCount", "version")
  SELECT "id", "kind", "fileName", "fileHash", "at", "status", "mappingJson", "addedCount", "changedCount", "sameCount", "refusedCount", "version" FROM "ImportBatch";
DROP TABLE "ImportBatch";
ALTER TABLE "new_ImportBatch" RENAME TO "ImportBatch";
CREATE INDEX "ImportBatch_at_idx" ON "ImportBatch"("at");

-- CreateIndex
CREATE UNIQUE INDEX "FormerThreadCode_codeKey_key" ON "FormerThreadCode"("codeKey");

-- CreateIndex
CREATE INDEX "FormerThreadCode_threadId_idx" ON "FormerThreadCode"("threadId");

-- CreateIndex
CREATE INDEX "FormerTitle_titleKey_idx" ON "FormerTitle"("titleKey");

-- CreateIndex
CREATE UNIQUE INDEX "FormerTitle_chartId_titleKey_key" ON "FormerTitle"("chartId", "titleKey");

-- CreateIndex
CREATE UNIQUE INDEX "FormerDesignerName_nameKey_key" ON "FormerDesignerName"("nameKey");

-- CreateIndex
CREATE INDEX "FormerDesignerName_designerId_idx" ON "FormerDesignerName"("designerId");

-- CreateIndex
CREATE UNIQUE INDEX "KeptFile_fileName_key" ON "KeptFile"("fileName");

-- CreateIndex
CREATE INDEX "KeptFile_chartId_idx" ON "KeptFile"("chartId");

-- CreateIndex
CREATE INDEX "KeptFile_clothPieceId_idx" ON "KeptFile"("clothPieceId");

-- CreateIndex
CREATE INDEX "KeptFile_notionId_idx" ON "KeptFile"("notionId");

-- CreateIndex
CREATE INDEX "KeptFile_projectId_idx" ON "KeptFile"("projectId");

-- CreateIndex
CREATE INDEX "KeptFile_sha256_idx" ON "KeptFile"("sha256");

-- CreateIndex
CREATE UNIQUE INDEX "ToldApart_firstId_secondId_key" ON "ToldApart"("firstId", "secondId");
