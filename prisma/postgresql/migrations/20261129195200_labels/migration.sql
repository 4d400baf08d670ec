-- Adds a table; nothing that exists changes. By hand: a CHECK constraint.

-- CreateTable
CREATE TABLE "LabelPrint" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "noun" TEXT NOT NULL,
    "thingId" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "printedAt" TIMESTAMP(3) NOT NULL,
    CONSTRAINT "LabelPrint_noun_check" CHECK ("noun" IN ('place', 'chart', 'batch', 'cloth', 'project'))
);

-- CreateIndex
CREATE UNIQUE INDEX "LabelPrint_noun_thingId_key" ON "LabelPrint"("noun", "thingId");
