-- AlterTable: the finishing of every project there is takes as long as the settings say. Hours and stitches on record stay: they were done
-- before the log began, and no entry accounts for them.
ALTER TABLE "Project" ADD COLUMN     "finishingWeeks" INTEGER CONSTRAINT "Project_finishingWeeks_check" CHECK ("finishingWeeks" IS NULL OR "finishingWeeks" BETWEEN 0 AND 104);

-- CreateTable
CREATE TABLE "WorkEntry" (
    "id" TEXT NOT NULL,
    "projectId" TEXT NOT NULL,
    "day" TEXT NOT NULL,
    "stitches" INTEGER NOT NULL DEFAULT 0,
    "minutes" INTEGER NOT NULL DEFAULT 0,
    "donePerMille" INTEGER,
    "note" TEXT,
    "photoFile" TEXT,
    "who" TEXT,
    "at" TIMESTAMP(3) NOT NULL,
    "goneAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "WorkEntry_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "WorkEntry_day_check" CHECK ("day" LIKE '____-__-__'),
    CONSTRAINT "WorkEntry_minutes_check" CHECK ("minutes" >= 0),
    CONSTRAINT "WorkEntry_donePerMille_check" CHECK ("donePerMille" IS NULL OR "donePerMille" BETWEEN 0 AND 1000)
);

-- CreateTable
CREATE TABLE "WorkTimer" (
    "projectId" TEXT NOT NULL,
    "startedAt" TIMESTAMP(3) NOT NULL,
    "who" TEXT,

    CONSTRAINT "WorkTimer_pkey" PRIMARY KEY ("projectId")
);

-- CreateTable
CREATE TABLE "TimeAway" (
    "id" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "fromOn" TEXT NOT NULL,
    "toOn" TEXT NOT NULL,
    "what" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "TimeAway_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "TimeAway_days_check" CHECK ("fromOn" LIKE '____-__-__' AND "toOn" LIKE '____-__-__' AND "toOn" >= "fromOn")
);

-- CreateTable
CREATE TABLE "RotationTurn" (
    "projectId" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "weekdays" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "RotationTurn_pkey" PRIMARY KEY ("projectId"),
    CONSTRAINT "RotationTurn_weekdays_check" CHECK ("weekdays" BETWEEN 0 AND 127)
);

-- CreateIndex
CREATE INDEX "WorkEntry_projectId_day_idx" ON "WorkEntry"("projectId", "day");

-- CreateIndex
CREATE INDEX "WorkEntry_day_idx" ON "WorkEntry"("day");

-- CreateIndex
CREATE INDEX "TimeAway_ownerId_toOn_idx" ON "TimeAway"("ownerId", "toOn");

-- CreateIndex
CREATE INDEX "RotationTurn_position_idx" ON "RotationTurn"("position");

-- AddForeignKey
ALTER TABLE "WorkEntry" ADD CONSTRAINT "WorkEntry_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "WorkTimer" ADD CONSTRAINT "WorkTimer_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "TimeAway" ADD CONSTRAINT "TimeAway_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "RotationTurn" ADD CONSTRAINT "RotationTurn_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project"("id") ON DELETE CASCADE ON UPDATE CASCADE;
