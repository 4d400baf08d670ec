-- AlterTable
ALTER TABLE "ClothPiece" ADD COLUMN     "photoFile" TEXT,
ADD COLUMN     "priceMinor" INTEGER;

-- AlterTable
ALTER TABLE "Chart" ADD COLUMN     "coverFile" TEXT,
ADD COLUMN     "coverHash" TEXT,
ADD COLUMN     "isOutOfPrint" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "Notion" ADD COLUMN     "photoFile" TEXT;

-- CreateTable
CREATE TABLE "FormerThreadCode" (
    "id" TEXT NOT NULL,
    "threadId" TEXT NOT NULL,
    "makerName" TEXT NOT NULL,
    "lineName" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT,
    "codeKey" TEXT NOT NULL,

    CONSTRAINT "FormerThreadCode_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "FormerTitle" (
    "id" TEXT NOT NULL,
    "chartId" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "titleKey" TEXT NOT NULL,

    CONSTRAINT "FormerTitle_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "FormerDesignerName" (
    "id" TEXT NOT NULL,
    "designerId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,

    CONSTRAINT "FormerDesignerName_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "KeptFile" (
    "id" TEXT NOT NULL,
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
    "addedAt" TIMESTAMP(3) NOT NULL,
    "goneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "KeptFile_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ToldApart" (
    "id" TEXT NOT NULL,
    "noun" TEXT NOT NULL,
    "firstId" TEXT NOT NULL,
    "secondId" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "who" TEXT,

    CONSTRAINT "ToldApart_pkey" PRIMARY KEY ("id")
);

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

-- AddForeignKey
ALTER TABLE "FormerThreadCode" ADD CONSTRAINT "FormerThreadCode_threadId_fkey" FOREIGN KEY ("threadId") REFERENCES "Thread"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "FormerTitle" ADD CONSTRAINT "FormerTitle_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "FormerDesignerName" ADD CONSTRAINT "FormerDesignerName_designerId_fkey" FOREIGN KEY ("designerId") REFERENCES "Designer"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KeptFile" ADD CONSTRAINT "KeptFile_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KeptFile" ADD CONSTRAINT "KeptFile_chartId_fkey" FOREIGN KEY ("chartId") REFERENCES "Chart"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KeptFile" ADD CONSTRAINT "KeptFile_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KeptFile" ADD CONSTRAINT "KeptFile_notionId_fkey" FOREIGN KEY ("notionId") REFERENCES "Notion"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "KeptFile" ADD CONSTRAINT "KeptFile_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AlterTable: notions are brought in too.
ALTER TABLE "ImportBatch" DROP CONSTRAINT "ImportBatch_kind_check";
ALTER TABLE "ImportBatch" ADD CONSTRAINT "ImportBatch_kind_check" CHECK ("kind" IN ('places', 'charts', 'lists', 'threads', 'cloth', 'projects', 'notions'));

-- AlterTable: by hand.
ALTER TABLE "Chart" ADD CONSTRAINT "Chart_coverHash_check" CHECK ("coverHash" IS NULL OR length("coverHash") = 16);
ALTER TABLE "ClothPiece" ADD CONSTRAINT "ClothPiece_priceMinor_check" CHECK ("priceMinor" IS NULL OR "priceMinor" >= 0);
ALTER TABLE "KeptFile" ADD CONSTRAINT "KeptFile_role_check" CHECK ("role" IN ('chart', 'receipt'));
ALTER TABLE "KeptFile" ADD CONSTRAINT "KeptFile_bytes_check" CHECK ("bytes" >= 0);
ALTER TABLE "KeptFile" ADD CONSTRAINT "KeptFile_oneThing_check" CHECK (num_nonnulls("chartId", "clothPieceId", "notionId", "projectId") = 1);
ALTER TABLE "KeptFile" ADD CONSTRAINT "KeptFile_chartRole_check" CHECK ("role" <> 'chart' OR "chartId" IS NOT NULL);
ALTER TABLE "ToldApart" ADD CONSTRAINT "ToldApart_noun_check" CHECK ("noun" IN ('chart', 'designer', 'thread', 'maker'));
ALTER TABLE "ToldApart" ADD CONSTRAINT "ToldApart_order_check" CHECK ("firstId" < "secondId" COLLATE "C");
ALTER TABLE "FormerTitle" ADD CONSTRAINT "FormerTitle_title_check" CHECK ("title" <> '' AND "titleKey" <> '');
ALTER TABLE "FormerDesignerName" ADD CONSTRAINT "FormerDesignerName_name_check" CHECK ("name" <> '' AND "nameKey" <> '');
ALTER TABLE "FormerThreadCode" ADD CONSTRAINT "FormerThreadCode_code_check" CHECK ("code" <> '' AND "codeKey" <> '');
