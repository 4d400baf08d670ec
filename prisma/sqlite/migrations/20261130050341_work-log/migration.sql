-- AlterTable: the finishing of every project there is takes as long as the settings say. Hours and stitches on record stay: they were done
-- before the log began, and no entry accounts for them.
ALTER TABLE "Project" ADD COLUMN "finishingWeeks" INTEGER CONSTRAINT "Project_finishingWeeks_check" CHECK ("finishingWeeks" IS NULL OR "finishingWeeks" BETWEEN 0 AND 104);

-- CreateTable
CREATE TABLE "WorkEntry" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "projectId" TEXT NOT NULL,
    "day" TEXT NOT NULL,
    "stitches" INTEGER NOT NULL DEFAULT 0,
    "minutes" INTEGER NOT NULL DEFAULT 0,
    "donePerMille" INTEGER,
    "note" TEXT,
    "photoFile" TEXT,
    "who" TEXT,
    "at" DATETIME NOT NULL,
    "goneAt" DATETIME,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "WorkEntry_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "WorkEntry_day_check" CHECK ("day" LIKE '____-__-__'),
    CONSTRAINT "WorkEntry_minutes_check" CHECK ("minutes" >= 0),
    CONSTRAINT "WorkEntry_donePerMille_check" CHECK ("donePerMille" IS NULL OR "donePerMille" BETWEEN 0 AND 1000)
);

-- CreateTable
CREATE TABLE "WorkTimer" (
    "projectId" TEXT NOT NULL PRIMARY KEY,
    "startedAt" DATETIME NOT NULL,
    "who" TEXT,
    CONSTRAINT "WorkTimer_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "TimeAway" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "ownerId" TEXT NOT NULL,
    "fromOn" TEXT NOT NULL,
    "toOn" TEXT NOT NULL,
    "what" TEXT,
    "version" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "TimeAway_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "TimeAway_days_check" CHECK ("fromOn" LIKE '____-__-__' AND "toOn" LIKE '____-__-__' AND "toOn" >= "fromOn")
);

-- CreateTable
CREATE TABLE "RotationTurn" (
    "projectId" TEXT NOT NULL PRIMARY KEY,
    "position" INTEGER NOT NULL,
    "weekdays" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "RotationTurn_projectId_fkey" FOREIGN KEY ("projectId") REFERENCES "Project" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
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
