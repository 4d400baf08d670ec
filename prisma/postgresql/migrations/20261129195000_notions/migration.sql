-- Adds a table and a column; what exists stays as it is. By hand: CHECK constraints.

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
    "outSince" TIMESTAMP(3),
    "projectId" TEXT,
    "priceMinor" INTEGER,
    "note" TEXT,
    "goneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "Notion_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Notion_homePlaceId_fkey" FOREIGN KEY ("homePlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Notion_currentPlaceId_fkey" FOREIGN KEY ("currentPlaceId") REFERENCES "Place" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Notion_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Notion_kind_check" CHECK ("kind" IN ('hoop', 'frame', 'scissors', 'needle', 'beads', 'needle minder', 'ribbon', 'bag', 'laying tool', 'magnifier', 'finding', 'other')),
    CONSTRAINT "Notion_name_check" CHECK ("name" <> ''),
    CONSTRAINT "Notion_figures_check" CHECK ("count" >= 0 AND ("minimum" IS NULL OR "minimum" >= 0) AND ("packOf" IS NULL OR "packOf" >= 1) AND ("priceMinor" IS NULL OR "priceMinor" >= 0))
);

-- AlterTable
ALTER TABLE "Movement" ADD COLUMN "notionId" TEXT;

-- CreateIndex
CREATE INDEX "Notion_ownerId_kind_idx" ON "Notion"("ownerId", "kind");

-- CreateIndex
CREATE INDEX "Notion_homePlaceId_idx" ON "Notion"("homePlaceId");

-- CreateIndex
CREATE INDEX "Notion_currentPlaceId_idx" ON "Notion"("currentPlaceId");

-- CreateIndex
CREATE INDEX "Notion_projectId_idx" ON "Notion"("projectId");

-- CreateIndex
CREATE INDEX "Movement_notionId_idx" ON "Movement"("notionId");

-- AddForeignKey
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_notionId_fkey" FOREIGN KEY ("notionId") REFERENCES "Notion"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AlterTable: a line of the journal may be about a notion.
ALTER TABLE "Movement" DROP CONSTRAINT "Movement_oneThing_check";
ALTER TABLE "Movement" ADD CONSTRAINT "Movement_oneThing_check" CHECK (num_nonnulls("batchId", "clothPieceId", "chartId", "notionId") = 1);
