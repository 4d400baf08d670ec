-- CreateTable
CREATE TABLE "Account" (
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "passwordHash" TEXT,
    "seesEveryOwner" BOOLEAN NOT NULL DEFAULT true,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "passwordSetAt" TIMESTAMP(3),
    "closedAt" TIMESTAMP(3),
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "Account_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "Account_role_check" CHECK ("role" IN ('keeper', 'helper', 'looker'))
);

-- CreateTable
CREATE TABLE "AccountOwner" (
    "accountId" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,

    CONSTRAINT "AccountOwner_pkey" PRIMARY KEY ("accountId","ownerId")
);

-- CreateTable
CREATE TABLE "Session" (
    "id" TEXT NOT NULL,
    "accountId" TEXT NOT NULL,
    "secretHash" TEXT NOT NULL,
    "formerHash" TEXT,
    "rotatedAt" TIMESTAMP(3) NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "usedAt" TIMESTAMP(3) NOT NULL,
    "expiresAt" TIMESTAMP(3) NOT NULL,
    "device" TEXT NOT NULL,
    "address" TEXT NOT NULL,

    CONSTRAINT "Session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Passkey" (
    "id" TEXT NOT NULL,
    "accountId" TEXT NOT NULL,
    "credentialId" TEXT NOT NULL,
    "publicKey" TEXT NOT NULL,
    "counter" TEXT NOT NULL,
    "transportsJson" TEXT NOT NULL DEFAULT '[]',
    "deviceType" TEXT NOT NULL,
    "isBackedUp" BOOLEAN NOT NULL,
    "label" TEXT NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "usedAt" TIMESTAMP(3),

    CONSTRAINT "Passkey_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SignInChallenge" (
    "id" TEXT NOT NULL,
    "challenge" TEXT NOT NULL,
    "purpose" TEXT NOT NULL,
    "accountId" TEXT,
    "expiresAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "SignInChallenge_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "SignInChallenge_purpose_check" CHECK ("purpose" IN ('register', 'sign-in'))
);

-- CreateTable
CREATE TABLE "ApiToken" (
    "id" TEXT NOT NULL,
    "accountId" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "secretHash" TEXT NOT NULL,
    "scope" TEXT NOT NULL,
    "createdAt" TIMESTAMP(3) NOT NULL,
    "expiresAt" TIMESTAMP(3),
    "usedAt" TIMESTAMP(3),

    CONSTRAINT "ApiToken_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "ApiToken_scope_check" CHECK ("scope" IN ('read', 'change', 'keep'))
);

-- CreateTable
CREATE TABLE "AuditEntry" (
    "id" TEXT NOT NULL,
    "at" TIMESTAMP(3) NOT NULL,
    "kind" TEXT NOT NULL,
    "accountId" TEXT,
    "accountName" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "detailJson" TEXT NOT NULL DEFAULT '{}',
    "revision" INTEGER,

    CONSTRAINT "AuditEntry_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "AuditEntry_kind_check" CHECK ("kind" IN ('sign-in', 'refused', 'sign-out', 'account', 'change'))
);

-- CreateTable
CREATE TABLE "AnsweredKey" (
    "id" TEXT NOT NULL,
    "scope" TEXT NOT NULL,
    "fingerprint" TEXT NOT NULL,
    "revision" INTEGER,
    "answerJson" TEXT,
    "createdAt" TIMESTAMP(3) NOT NULL,

    CONSTRAINT "AnsweredKey_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "BackgroundJob" (
    "id" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "aboutJson" TEXT NOT NULL,
    "progressJson" TEXT NOT NULL,
    "answerJson" TEXT,
    "errorId" TEXT,
    "isStopAsked" BOOLEAN NOT NULL DEFAULT false,
    "accountId" TEXT,
    "process" TEXT,
    "heardAt" TIMESTAMP(3),
    "startedAt" TIMESTAMP(3) NOT NULL,
    "endedAt" TIMESTAMP(3),

    CONSTRAINT "BackgroundJob_pkey" PRIMARY KEY ("id"),
    CONSTRAINT "BackgroundJob_state_check" CHECK ("state" IN ('running', 'ended', 'failed')),
    CONSTRAINT "BackgroundJob_endedAt_check" CHECK (("state" = 'running') = ("endedAt" IS NULL))
);

-- CreateIndex
CREATE UNIQUE INDEX "Account_nameKey_key" ON "Account"("nameKey");

-- CreateIndex
CREATE INDEX "AccountOwner_ownerId_idx" ON "AccountOwner"("ownerId");

-- CreateIndex
CREATE UNIQUE INDEX "Session_secretHash_key" ON "Session"("secretHash");

-- CreateIndex
CREATE UNIQUE INDEX "Session_formerHash_key" ON "Session"("formerHash");

-- CreateIndex
CREATE INDEX "Session_accountId_idx" ON "Session"("accountId");

-- CreateIndex
CREATE INDEX "Session_expiresAt_idx" ON "Session"("expiresAt");

-- CreateIndex
CREATE UNIQUE INDEX "Passkey_credentialId_key" ON "Passkey"("credentialId");

-- CreateIndex
CREATE INDEX "Passkey_accountId_idx" ON "Passkey"("accountId");

-- CreateIndex
CREATE UNIQUE INDEX "SignInChallenge_challenge_key" ON "SignInChallenge"("challenge");

-- CreateIndex
CREATE INDEX "SignInChallenge_expiresAt_idx" ON "SignInChallenge"("expiresAt");

-- CreateIndex
CREATE UNIQUE INDEX "ApiToken_secretHash_key" ON "ApiToken"("secretHash");

-- CreateIndex
CREATE INDEX "ApiToken_accountId_idx" ON "ApiToken"("accountId");

-- CreateIndex
CREATE INDEX "AuditEntry_at_idx" ON "AuditEntry"("at");

-- CreateIndex
CREATE INDEX "AuditEntry_accountId_at_idx" ON "AuditEntry"("accountId", "at");

-- CreateIndex
CREATE INDEX "AuditEntry_revision_idx" ON "AuditEntry"("revision");

-- CreateIndex
CREATE UNIQUE INDEX "AnsweredKey_scope_key" ON "AnsweredKey"("scope");

-- CreateIndex
CREATE INDEX "AnsweredKey_createdAt_idx" ON "AnsweredKey"("createdAt");

-- CreateIndex
CREATE INDEX "BackgroundJob_kind_state_idx" ON "BackgroundJob"("kind", "state");

-- CreateIndex
CREATE INDEX "BackgroundJob_endedAt_idx" ON "BackgroundJob"("endedAt");

-- AddForeignKey
ALTER TABLE "AccountOwner" ADD CONSTRAINT "AccountOwner_accountId_fkey" FOREIGN KEY ("accountId") REFERENCES "Account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "AccountOwner" ADD CONSTRAINT "AccountOwner_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Session" ADD CONSTRAINT "Session_accountId_fkey" FOREIGN KEY ("accountId") REFERENCES "Account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Passkey" ADD CONSTRAINT "Passkey_accountId_fkey" FOREIGN KEY ("accountId") REFERENCES "Account"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ApiToken" ADD CONSTRAINT "ApiToken_accountId_fkey" FOREIGN KEY ("accountId") REFERENCES "Account"("id") ON DELETE CASCADE ON UPDATE CASCADE;
