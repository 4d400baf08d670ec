-- Adds columns and tables; existing pieces keep what they say: their counts are as on the label, their washing unknown.
-- By hand: CHECK constraints; columns added in place, where the tool would rebuild two tables.

-- AlterTable
ALTER TABLE "ClothPiece" ADD COLUMN "bleedTest" TEXT CONSTRAINT "ClothPiece_bleedTest_check" CHECK ("bleedTest" IS NULL OR "bleedTest" IN ('passed', 'bled'));
ALTER TABLE "ClothPiece" ADD COLUMN "bleedTestedOn" TEXT;
ALTER TABLE "ClothPiece" ADD COLUMN "countCertainty" TEXT NOT NULL DEFAULT 'label' CONSTRAINT "ClothPiece_countCertainty_check" CHECK ("countCertainty" IN ('measured', 'label', 'guess'));
ALTER TABLE "ClothPiece" ADD COLUMN "dyeing" TEXT CONSTRAINT "ClothPiece_dyeing_check" CHECK ("dyeing" IS NULL OR "dyeing" IN ('plain', 'dyed', 'hand-dyed'));
ALTER TABLE "ClothPiece" ADD COLUMN "isCountStale" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "ClothPiece" ADD COLUMN "keptForProjectId" TEXT REFERENCES "Project" ("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "ClothPiece" ADD COLUMN "oneWayBecause" TEXT CONSTRAINT "ClothPiece_oneWayBecause_check" CHECK ("oneWayBecause" IS NULL OR "oneWayBecause" IN ('count', 'dye', 'grid', 'stripe', 'slubs', 'drawn work', 'nap'));
ALTER TABLE "ClothPiece" ADD COLUMN "washState" TEXT NOT NULL DEFAULT 'unknown' CONSTRAINT "ClothPiece_washState_check" CHECK ("washState" IN ('unknown', 'new', 'washed', 'never'));
ALTER TABLE "ClothPiece" ADD COLUMN "washedOn" TEXT;

-- CreateTable
CREATE TABLE "CutPlan" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "title" TEXT NOT NULL,
    "status" TEXT NOT NULL DEFAULT 'kept',
    "askedJson" TEXT NOT NULL,
    "planJson" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "closedAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "CutPlan_title_check" CHECK ("title" <> ''),
    CONSTRAINT "CutPlan_status_check" CHECK ("status" IN ('kept', 'cut', 'dropped')),
    CONSTRAINT "CutPlan_closed_check" CHECK (("status" = 'kept') = ("closedAt" IS NULL))
);

-- CreateTable
CREATE TABLE "CutPlanPiece" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "cutPlanId" TEXT NOT NULL,
    "clothPieceId" TEXT NOT NULL,
    "widthUm" INTEGER NOT NULL,
    "heightUm" INTEGER NOT NULL,
    CONSTRAINT "CutPlanPiece_cutPlanId_fkey" FOREIGN KEY ("cutPlanId") REFERENCES "CutPlan" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "CutPlanPiece_clothPieceId_fkey" FOREIGN KEY ("clothPieceId") REFERENCES "ClothPiece" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "CutPlanPiece_size_check" CHECK ("widthUm" > 0 AND "heightUm" > 0)
);

-- AlterTable
ALTER TABLE "Movement" ADD COLUMN "cutPlanId" TEXT REFERENCES "CutPlan" ("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- CreateIndex
CREATE INDEX "CutPlan_status_createdAt_idx" ON "CutPlan"("status", "createdAt");

-- CreateIndex
CREATE INDEX "CutPlanPiece_clothPieceId_idx" ON "CutPlanPiece"("clothPieceId");

-- CreateIndex
CREATE UNIQUE INDEX "CutPlanPiece_cutPlanId_clothPieceId_key" ON "CutPlanPiece"("cutPlanId", "clothPieceId");

-- CreateIndex
CREATE INDEX "ClothPiece_keptForProjectId_idx" ON "ClothPiece"("keptForProjectId");
